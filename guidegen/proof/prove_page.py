"""One published page held against its guide.

Takes in the bytes of a page, its claims and what is known of the fleet; gives out counts,
failures and what other pages need to know of it. Refuses a page without exactly one body.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from selectolax.lexbor import LexborHTMLParser, LexborNode

from guidegen.guide.model import STAMPED, Guide
from guidegen.proof import rules
from guidegen.proof.attributes import accept_for
from guidegen.proof.claims import START, EditionClaims, PageClaims, title_words
from guidegen.proof.compare_around import compare_around
from guidegen.proof.compare_beside import Beside
from guidegen.proof.compare_figures import Figures, figures_on
from guidegen.proof.compare_links import Links
from guidegen.proof.compare_order import Order
from guidegen.proof.compare_photos import Photos
from guidegen.proof.compare_revisions import Revisions
from guidegen.proof.compare_script_words import compare_script_words
from guidegen.proof.compare_timers import Timers
from guidegen.proof.compare_words import Wording
from guidegen.proof.faults import Faults
from guidegen.proof.fleet_claims import Edition, FleetClaims
from guidegen.proof.foreign import Identity
from guidegen.proof.links import is_relative, judge_address, resolve_address
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Counts, FileVerdict, Target
from guidegen.proof.read_frame import FrameParts, read_frame, read_surround
from guidegen.proof.read_html import Attribute, AttributeJudge, Body, read_body
from guidegen.proof.revision_claims import NO_REVISIONS, RevisionClaims
from guidegen.proof.visibility import look_at
from guidegen.specs.fields import TextField

_BODY = "[data-guide]"
_FIX = "repair the page template"


@dataclass(frozen=True, slots=True)
class Subject:
    """The unit whose files are read, and its surroundings."""

    guide: Guide
    edition: Edition
    fleet: FleetClaims

    @property
    def claims(self) -> EditionClaims:
        """What the files must say."""
        return self.edition.claims

    @property
    def revisions(self) -> RevisionClaims:
        """What the start page must say of the truck's revisions."""
        return self.fleet.revisions_of(self.guide.number)

    def path(self, page: str) -> str:
        """Return the path of *page* from the root of the site."""
        return f"{self.guide.number}/{page}"

    def container(self, page: str) -> Mapping[str, str]:
        """Return what the body of the page named *page* must say that it is."""
        return {
            Holder.GUIDE.value: self.guide.number,
            Holder.PAGE.value: page,
            Holder.EDITION.value: self.guide.edition,
        }

    @property
    def revision_in_bar(self) -> str:
        """What the bar must say, without the digits of an edition."""
        return self.fleet.revision_of(self.guide).replace(self.guide.edition[:8], "\0")

    def states(self, identity: Identity) -> bool:
        """Whether the unit's own spec or procedures print *identity*, such as an oil grade CK-4."""
        stamped = [str(fact.value) for name, fact in self.guide.facts.items() if name in STAMPED]
        # What changed names values of old, such as the oil grade before.
        told = *stamped, *self.revisions.texts
        return self.states_for_all(identity) or any(str(identity) in text.upper() for text in told)

    def states_for_all(self, identity: Identity) -> bool:
        """Whether what all units of the edition have in common prints *identity*."""
        typed = (
            str(fact.value)
            for name, fact in self.guide.facts.items()
            if name not in STAMPED and isinstance(fact.field.field, TextField)
        )
        patterns = (text.pattern for text in self.claims.texts.values())
        return any(str(identity) in text.upper() for text in (*typed, *patterns))


class Dress(NamedTuple):
    """What tells a page from others of its unit, around its body."""

    heading: str
    """Words of the title that are the page's own."""

    container: Mapping[str, str]
    """Attributes of the body."""


class PageRead(NamedTuple):
    """A page as it was read."""

    parsed: LexborHTMLParser
    body: Body
    words: Wording
    """Holds texts against the guide of the page's own unit."""

    links: Links
    faults: Faults


Compare = Callable[[PageRead], Counts]
"""Holds what was read against what must be there; counts all but pages, values and labels."""


def dress_of(unit: Subject, page: PageClaims) -> Dress:
    """Return what must stand around the body of a page of the guide of *unit*."""
    return Dress(title_words(page.name, unit.claims.fixed), unit.container(page.name))


def prove_page(unit: Subject, page: PageClaims, raw: bytes) -> FileVerdict:
    """Hold the page *raw* of the guide of *unit* against what it must show."""

    def compare(read: PageRead) -> Counts:
        body, words, faults = read.body, read.words, read.faults
        revisions = unit.revisions if page.kind == START else NO_REVISIONS
        words.also_fixed = revisions.words
        for reading in body.readings:
            words.compare(reading)
        Order(page, unit.claims, unit.guide.facts, faults).compare(body)
        Figures(dict(figures_on(page, unit.claims)), faults).compare(body.drawings)
        Photos(page.photos, faults).compare(body.pictures)
        Timers(page, unit.claims, unit.guide, faults).compare(body.openings)
        Beside(page, unit.claims, unit.guide, faults).compare(body)
        read.links.compare(body)
        told = Revisions(revisions, faults).compare(body)
        return _counts(words, page) + Counts(revisions=told)

    return prove_body(unit, page, raw, (dress_of(unit, page), compare))


def prove_body(
    unit: Subject, page: PageClaims, raw: bytes, how: tuple[Dress, Compare]
) -> FileVerdict:
    """Hold any page *raw* in the folder of *unit* against what it must show.

    Args:
        unit: Whose page it is.
        page: Name, path and kind of the page.
        raw: The page.
        how: What must stand around its body, and what compares the body.
    """
    faults = Faults(unit.guide.number, unit.path(page.path))
    parsed = _parse(raw)
    bodies = parsed.css(_BODY) if parsed is not None else []
    if parsed is None or len(bodies) != 1:
        what = f"is no UTF-8 text with one body for a guide, but with {len(bodies)}"
        faults.add(rules.PAGE_NOT_READABLE, what, fix=_FIX)
        return FileVerdict(Counts(), tuple(faults.found), page.kind, "")
    dress, compare = how
    return _Proving(unit, page, dress, faults).prove(parsed, bodies[0], compare)


def _parse(raw: bytes) -> LexborHTMLParser | None:
    try:
        return LexborHTMLParser(raw.decode("utf-8"))
    except UnicodeDecodeError:
        return None


class _Places(NamedTuple):
    """Where links can lead to on a page."""

    ids: Mapping[str | None, int]
    """How many elements have each id."""

    procedures: Sequence[tuple[str | None, str | None]]
    """The name of each procedure, and the id of its element."""


def _places_in(parsed: LexborHTMLParser) -> _Places:
    mark = Holder.PROCEDURE.value
    procedures = [(node.attributes.get(mark), node.id) for node in parsed.css(f"[{mark}]")]
    return _Places(Counter(node.id for node in parsed.css("[id]")), procedures)


@dataclass(frozen=True, slots=True)
class _Proving:
    unit: Subject
    page: PageClaims
    dress: Dress
    faults: Faults

    def prove(
        self, parsed: LexborHTMLParser, container: LexborNode, compare: Compare
    ) -> FileVerdict:
        unit, page, faults = self.unit, self.page, self.faults
        attributes = accept_for(unit.claims, unit.edition.not_its_own)
        self.compare_container(container, attributes)
        body = self.read(parsed, container, attributes)
        words = Wording(unit.guide, unit.claims, faults)
        links = Links(page, unit.claims, unit.guide, faults)
        counts = compare(PageRead(parsed, body, words, links, faults))
        compare_script_words(page, unit.claims, body.script_words, faults)
        places = _places_in(parsed)
        frame = read_frame(parsed, container, attributes)
        bar = unit.guide.number, unit.fleet.revision_of(unit.guide)
        around = compare_around(frame, bar, words, links, faults)
        addresses = [*body.links, *around]
        digest = self.compare_surround(frame, addresses)
        self.compare_places(places)
        targets = [target for each in addresses for target in self.compare_address(each)]
        return FileVerdict(
            counts + Counts(pages=1, values=words.values, labels=words.labels),
            tuple(faults.found),
            page.kind,
            digest,
            frozenset(name for name in places.ids if name),
            tuple(dict.fromkeys(targets)),
        )

    def compare_container(self, container: LexborNode, attributes: AttributeJudge) -> None:
        expected = self.dress.container
        for name, wanted in expected.items():
            found = container.attributes.get(name)
            if found != wanted:
                self.faults.add(
                    rules.IDENTITY_DIFFERS,
                    f"the body says `{found}` and not `{wanted}`",
                    fix=_FIX,
                    mark=name,
                )
        for name, value in container.attributes.items():
            if name not in expected:
                stray = attributes.judge(Attribute("div", name, value))
                if stray is not None:
                    self.faults.add_stray(stray)

    def read(
        self, parsed: LexborHTMLParser, container: LexborNode, attributes: AttributeJudge
    ) -> Body:
        inline = tuple(node.text() for node in parsed.css("style"))
        sight = look_at(parsed, container, self.unit.fleet.styles_with(inline))
        body = read_body(container, sight.of_elements, attributes)
        of_body = [reason for _, reason in sight.effects_on(container)]
        for reason in dict.fromkeys((*sight.of_page, *of_body)):
            self.faults.add(
                rules.TEXT_HIDDEN,
                f"nothing of the body can be seen as it stands there, by {reason}",
                fix="take what hides it out of the stylesheet or page template",
            )
        for stray in body.strays:
            self.faults.add_stray(stray)
        return body

    def compare_surround(self, frame: FrameParts, addresses: list[str]) -> str:
        number = self.unit.guide.number
        if frame.title != number and not frame.title.startswith(f"{number} "):
            what = f"the title `{frame.title}` does not begin with `{number}`"
            self.faults.add(rules.TITLE_DIFFERS, what, fix=_FIX)
        title = frame.title.replace(number, "\0", 1).replace(self.dress.heading, "\0", 1)
        surround = read_surround(frame.rest, title)
        for stray in surround.strays:
            self.faults.add_stray(stray)
        addresses.extend(surround.addresses)
        return surround.digest

    def compare_places(self, places: _Places) -> None:
        """Report places that a link or a search result could not find."""
        for name, count in places.ids.items():
            if count > 1:
                self.faults.add(rules.LINK_BROKEN, f"{count} places have the id `{name}`", fix=_FIX)
        for procedure, id_ in places.procedures:
            if id_ != procedure:
                what = f"the procedure `{procedure}` has the id `{id_}`, and links go by its own"
                self.faults.add(rules.LINK_BROKEN, what, fix=_FIX)

    def compare_address(self, address: str) -> Iterator[Target]:
        """Report an address that leads astray; yield where it leads in the unit's own folder."""
        fleet, number, page = self.unit.fleet, self.unit.guide.number, self.faults.page
        folder, path, fragment = "", "", ""
        if is_relative(address):
            place, fragment = resolve_address(page, address)
            folder, _, path = place.partition("/")
        if folder == number:
            yield Target(path, fragment, address)
            return
        if folder in fleet.numbers:
            what = f"`{address}` leads to the guide of {folder}"
            self.faults.add(rules.FOREIGN_IDENTITY, what, fix=_FIX)
            return
        stray = judge_address(page, address, fleet.paths)
        if stray is not None:
            self.faults.add_stray(stray, "lead it to a file of the site by a relative address")


def _counts(words: Wording, page: PageClaims) -> Counts:
    claimed = [claim for claim in page.sequence if claim.mark is Mark.TEXT]
    proved = {claim for claim in claimed if claim.key in words.texts}
    parts = words.claims.texts
    cautions: dict[str, bool] = {}
    for claim in claimed:
        if claim.within.caution:
            so_far = cautions.get(claim.within.caution, True)
            cautions[claim.within.caution] = so_far and claim in proved
    return Counts(
        procedures=sum(parts[claim.key].part == "title" for claim in proved),
        steps=sum(parts[claim.key].part == "step" for claim in proved),
        cautions=sum(cautions.values()),
    )
