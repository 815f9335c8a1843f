"""Whether the lamp finder shows every lamp of the truck under its color, and no other.

Takes in what was read of the page and what it must say; records lamps that are missing, made up,
out of order, under another color, with another act or leading elsewhere.
Refuses a lamp of which only a part leads to its text: a glove hits any part of a tile.
"""

import itertools
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.compare_figures import Figures
from guidegen.proof.compare_words import place_of
from guidegen.proof.faults import Faults
from guidegen.proof.lamp_claims import ColorClaims, LampClaims, TileClaims
from guidegen.proof.links import target_of
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Reading
from guidegen.proof.prove_page import PageRead

_SEE_TEMPLATE = "repair the template of the lamp finder"
_BEFORE_LAMPS = ("park_first", "lamp_finder", "symbols_differ", "handbook_first", "pick_color")
"""Labels that must stand before the first lamp."""

_AROUND = frozenset({*_BEFORE_LAMPS, "start", "data", "differences", "all_trucks"})
"""Labels that may stand outside of the colors."""

_HOLDERS = (Holder.PICK, Holder.COLOR, Holder.TILE)
_ALLOWED = (*_HOLDERS, Holder.FIGURE)

_Opened = tuple[Holder, str, str]
"""A holder, its key, and the color that it stands in."""


@dataclass(frozen=True, slots=True)
class Finder:
    """One lamp finder, held against its claims."""

    claims: LampClaims
    read: PageRead
    page: str
    """Path of the page from the root of the site."""

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self) -> int:
        """Hold the page against its claims; return how many lamps are as they must be."""
        body = self.read.body
        self._compare_openings()
        Figures(self.claims.drawings, self.faults).compare(body.drawings)
        self._compare_ids()
        of_tiles: dict[tuple[str, str], list[Reading]] = {}
        around = list[Reading]()
        for reading in body.readings:
            within = reading.claim.within
            if within.tile:
                of_tiles.setdefault((within.color, within.tile), []).append(reading)
            else:
                around.append(reading)
        proved = sum(
            self._compare_tile(tile, of_tiles.pop((each.color, tile.id), []))
            for each in self.claims.colors
            for tile in each.tiles
        )
        for readings in (*of_tiles.values(), around):
            self._compare_words(readings)
        self._compare_around(around)
        self._compare_order()
        return proved

    def _compare_words(self, readings: Sequence[Reading]) -> None:
        for reading in readings:
            self.read.words.compare(reading)
            self.read.links.compare_link(reading)

    def _compare_openings(self) -> None:
        """Hold the ways to the colors, the colors and the tiles against the claims."""
        openings = self.read.body.openings
        read = [(e.holder, e.key, e.within.color) for e in openings if e.holder in _HOLDERS]
        wanted = list(_openings(self.claims.colors))
        missing, extra = Counter(wanted) - Counter(read), Counter(read) - Counter(wanted)
        elsewhere = {(holder, key): color for holder, key, color in extra}
        for holder, key, color in missing:
            other = elsewhere.pop((holder, key), None)
            if other is not None:
                what = f"stands under `{other or 'no color'}` and not under `{color}`"
                self._report(rules.LAMP_DIFFERS, what, (holder, key))
            else:
                self._report(rules.LAMP_MISSING, "is not there", (holder, key))
        for holder, key in elsewhere:
            what = "is none of this truck, or is there already"
            self._report(rules.LAMP_TOO_MANY, what, (holder, key))
        if read != wanted and not missing and not extra:
            pairs = zip(read, wanted, strict=True)
            first, expected = next(pair for pair in pairs if pair[0] != pair[1])
            what = f"stands where `{expected[1]}` belongs"
            self._report(rules.LAMP_OUT_OF_ORDER, what, first[:2])
        for opening in openings:
            is_other = opening.holder is Holder.FIGURE and opening.within not in (
                self.claims.drawings
            )
            if opening.holder not in _ALLOWED or is_other:
                what = f'`{opening.holder.value}="{opening.key}"` does not belong there'
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE)

    def _compare_ids(self) -> None:
        for node in self.read.parsed.css(f"[{Holder.COLOR.value}]"):
            color = node.attributes.get(Holder.COLOR.value) or ""
            if node.id != color:
                what = f"has the id `{node.id}`, and links go by its color"
                self._report(rules.LINK_BROKEN, what, (Holder.COLOR, color))

    def _compare_tile(self, tile: TileClaims, readings: Sequence[Reading]) -> bool:
        before = len(self.faults.found)
        self._compare_words(readings)
        if readings:
            self._compare_claims(tile, [reading.claim for reading in readings])
        named = next((e for e in readings if e.claim.mark is Mark.PROCEDURE_LINK), None)
        wanted = target_of(named, self.page) if named else ""
        for reading in readings:
            if not wanted or target_of(reading, self.page) != wanted:
                what = f"`{reading.text}` does not lead to the text of its lamp"
                self._report_tile(rules.LINK_TO_OTHER_PLACE, what, tile)
        return bool(readings) and len(self.faults.found) == before

    def _compare_claims(self, tile: TileClaims, read: Sequence[Claim]) -> None:
        if tuple(read) == tile.claims:
            return
        missing, extra = Counter(tile.claims) - Counter(read), Counter(read) - Counter(tile.claims)
        for claim in missing:
            self._report_tile(rules.LAMP_DIFFERS, f"{_named(claim)} is not there", tile)
        for claim in extra:
            self._report_tile(rules.LAMP_DIFFERS, f"{_named(claim)} does not belong there", tile)
        if not missing and not extra:
            what = "its symbol, name and act stand in another order"
            self._report_tile(rules.TEXT_OUT_OF_ORDER, what, tile)

    def _compare_around(self, around: Sequence[Reading]) -> None:
        """Hold what stands outside of the tiles against the claims."""
        held = [each for each in around if each.claim.within.color or each.claim.within.pick]
        read = [reading.claim for reading in held]
        wanted = [*self.claims.picks]
        for each in self.claims.colors:
            wanted += [each.head, *each.closing]
        for claim in Counter(wanted) - Counter(read):
            self._report_claim(rules.LAMP_MISSING, "is not there", claim)
        for claim in Counter(read) - Counter(wanted):
            self._report_claim(rules.UNCLAIMED_MARK, "does not belong there", claim)
        for reading in held:
            leads = reading.claim.within.pick or reading.claim.mark is Mark.PROCEDURE_LINK
            if leads and not reading.link:
                what = f"`{reading.text}` leads nowhere"
                self._report_claim(rules.CONTENTS_DIFFER, what, reading.claim)
        for reading in around:
            if reading not in held and not _may_stand_around(reading):
                what = "does not belong outside of a lamp"
                mark = place_of(reading)
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE, mark=mark)

    def _compare_order(self) -> None:
        """Hold the order of all that is claimed once, and of the labels before it."""
        readings = self.read.body.readings
        wanted = [*self.claims.picks]
        for each in self.claims.colors:
            wanted.append(each.head)
            for tile in each.tiles:
                wanted += tile.claims
            wanted += each.closing
        places = {claim: place for place, claim in enumerate(wanted)}
        read = [reading.claim for reading in readings if reading.claim in places]
        for one, other in itertools.pairwise(read):
            if places[one] > places[other]:
                what = f"stands before {_named(other)}"
                self._report_claim(rules.LAMP_OUT_OF_ORDER, what, one)
        first = next((n for n, e in enumerate(readings) if e.claim.within.color), len(readings))
        before = {reading.claim[:2] for reading in readings[:first]}
        for key in _BEFORE_LAMPS:
            if (Mark.LABEL, key) not in before:
                what = "does not stand before the first lamp"
                mark = f'{Mark.LABEL.value}="{key}"'
                self.faults.add(rules.TEXT_MISSING, what, fix=_SEE_TEMPLATE, mark=mark)

    def _report(self, rule: Rule, what: str, place: tuple[Holder, str]) -> None:
        holder, key = place
        tiles = (tile for each in self.claims.colors for tile in each.tiles)
        span = next((tile.span for tile in tiles if tile.id == key), None)
        mark = f'{holder.value}="{key}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=span, mark=mark)

    def _report_tile(self, rule: Rule, what: str, tile: TileClaims) -> None:
        self._report(rule, what, (Holder.TILE, tile.id))

    def _report_claim(self, rule: Rule, what: str, claim: Claim) -> None:
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, mark=_named(claim).strip("`"))


def _openings(colors: Sequence[ColorClaims]) -> Iterator[_Opened]:
    yield from ((Holder.PICK, each.color, "") for each in colors)
    for each in colors:
        # What opens a color stands in it already.
        yield Holder.COLOR, each.color, each.color
        yield from ((Holder.TILE, tile.id, each.color) for tile in each.tiles)


def _may_stand_around(reading: Reading) -> bool:
    mark, key = reading.claim.mark, reading.claim.key
    return (mark is Mark.LABEL and key in _AROUND) or (mark is Mark.CHAPTER and bool(reading.link))


def _named(claim: Claim) -> str:
    return f'`{claim.mark.value}="{claim.key}"`'
