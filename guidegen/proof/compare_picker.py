"""Whether the page on which a driver picks the truck that he knows offers the right ones.

Takes in what was read of the page and the trucks on offer; records trucks that are missing,
listed twice, named as another or lead to another truck's sheet. Refuses to let a truck be
offered on its own page.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.differences.offer import KnownTruck, Offer
from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.compare_words import Wording, place_of
from guidegen.proof.faults import Faults
from guidegen.proof.links import resolve_address, target_of
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Reading
from guidegen.proof.prove_page import PageRead, Subject
from guidegen.proof.sheet_model import NUMBER

_SEE_TEMPLATE = "repair the template of the page on which drivers pick the truck they know"
_NAME = (NUMBER, "identity.year", "identity.make", "identity.model_name", "identity.body")
_OWN_LABELS = frozenset(
    {"pick_known", "no_known", "same_guide", "same_guide_here", "stands_for_edition"}
)
"""Labels that only this page has, each in its place."""

_AROUND = frozenset({"park_first", "handbook_first", "differences", "start", "data", "all_trucks"})


class Told(NamedTuple):
    """One text of the list."""

    mark: Mark
    key: str
    truck: str
    """Number of the truck whose element it stands in."""


def sheet_path(known: str) -> str:
    """Return the path, from the unit's folder, of the sheet for those who know unit *known*."""
    return f"from-{known}.html"


def known_trucks(number: str, offer: Offer) -> tuple[KnownTruck, ...]:
    """Return the trucks that the driver of unit *number* may pick: all but the unit itself."""
    return tuple(each for each in offer.trucks if each.guide.number != number)


def named_on_offer(offer: Offer) -> frozenset[str]:
    """Return the numbers of all trucks that are offered, or named beside one that is."""
    return frozenset(number for each in offer.trucks for number in (each.guide.number, *each.alike))


@dataclass(frozen=True, slots=True)
class Picker:
    """The list of one unit's page."""

    unit: Subject
    read: PageRead

    @property
    def number(self) -> str:
        """Of the unit."""
        return self.unit.guide.number

    @property
    def offer(self) -> Offer:
        """The trucks on offer."""
        return self.unit.fleet.offer

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self) -> int:
        """Hold the list against the offer; return how many values were read back equal."""
        wanted, found = list(self._wanted()), list(self._found())
        for told in Counter(wanted) - Counter(found):
            self._report(_rule_for_missing(told), told, "is not there")
        for told in Counter(found) - Counter(wanted):
            self._report(_rule_for_extra(told, wanted), told, "does not belong there")
        if found != wanted and Counter(found) == Counter(wanted):
            what = "trucks and labels stand in another order than they are offered"
            self.faults.add(rules.TEXT_OUT_OF_ORDER, what, fix=_SEE_TEMPLATE)
        self._compare_around()
        self._compare_elements()
        return self._compare_names()

    def named_beside(self) -> Iterator[str]:
        """Yield the numbers that attributes hold: addresses of sheets, and marks of elements."""
        for told in self._wanted():
            if told.mark is Mark.KNOWN_FACT and told.key == NUMBER:
                yield told.truck
        sheets = {
            f"{self.number}/{sheet_path(each.guide.number)}"
            for each in known_trucks(self.number, self.offer)
        }
        for address in self.read.body.links:
            if resolve_address(self.faults.page, address)[0] in sheets:
                yield address

    def _wanted(self) -> Iterator[Told]:
        others = known_trucks(self.number, self.offer)
        yield Told(Mark.LABEL, "pick_known" if others else "no_known", "")
        for truck in others:
            names = [name for name in _NAME if name in truck.guide.facts]
            yield from (Told(Mark.KNOWN_FACT, name, truck.guide.number) for name in names)
            yield from self._alike("same_guide", truck)
        if self.offer.stands_for_edition:
            yield Told(Mark.LABEL, "stands_for_edition", "")
        for truck in self.offer.trucks:
            if truck.guide.number == self.number:
                yield from self._alike("same_guide_here", truck)

    def _alike(self, label: str, truck: KnownTruck) -> Iterator[Told]:
        numbers = [number for number in truck.alike if number != self.number]
        if numbers:
            yield Told(Mark.LABEL, label, "")
        yield from (Told(Mark.KNOWN_FACT, NUMBER, number) for number in numbers)

    def _found(self) -> Iterator[Told]:
        for reading in self.read.body.readings:
            mark, key, within = reading.claim
            if mark is Mark.KNOWN_FACT or (mark is Mark.LABEL and key in _OWN_LABELS):
                yield Told(mark, key, within.truck)

    def _compare_around(self) -> None:
        labels = set[str]()
        for reading in self.read.body.readings:
            mark, key, _ = reading.claim
            if mark is Mark.LABEL:
                labels.add(key)
            if mark is not Mark.KNOWN_FACT and not (
                mark is Mark.LABEL and key in _AROUND | _OWN_LABELS
            ):
                what, mark_of = "does not belong on this page", place_of(reading)
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE, mark=mark_of)
        for key in ("park_first", "handbook_first"):
            if key not in labels:
                place = f'{Mark.LABEL.value}="{key}"'
                self.faults.add(rules.TEXT_MISSING, "is not there", fix=_SEE_TEMPLATE, mark=place)

    def _compare_elements(self) -> None:
        wanted = Counter(told.truck for told in self._wanted() if told.key == NUMBER)
        found = Counter(e.key for e in self.read.body.openings if e.holder is Holder.TRUCK)
        for number in (found - wanted) + (wanted - found):
            what = f"{found[number]} elements are of {number}, and not {wanted[number]}"
            self.faults.add(rules.TRUCK_LISTED_TWICE, what, fix=_SEE_TEMPLATE)
        for opening in self.read.body.openings:
            if opening.holder is not Holder.TRUCK:
                what = f"`{opening.holder.value}` does not belong on this page"
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE)

    def _compare_names(self) -> int:
        """Hold each name and number against the truck that it stands for."""
        wordings = {}
        for truck in known_trucks(self.number, self.offer):
            claims = self.unit.fleet.edition_of(truck.guide).claims
            wordings[truck.guide.number] = Wording(
                truck.guide, claims, self.faults, fact_mark=Mark.KNOWN_FACT
            )
        for reading in self.read.body.readings:
            held = reading.claim.within.truck
            if reading.claim.mark is not Mark.KNOWN_FACT:
                continue
            if held in wordings:
                wordings[held].compare(reading)
                self._compare_link(reading, sheet_path(held))
            else:
                self._compare_alike(reading)
        return sum(wording.values for wording in wordings.values())

    def _compare_alike(self, reading: Reading) -> None:
        held = reading.claim.within.truck
        if reading.text != held or reading.hidden:
            what = f"reads `{reading.text}` and not `{held}`"
            self.faults.add(rules.IDENTITY_DIFFERS, what, fix=_SEE_TEMPLATE, mark=place_of(reading))
        self._compare_link(reading, "")

    def _compare_link(self, reading: Reading, wanted: str) -> None:
        found = target_of(reading, self.faults.page)
        if found != (f"{self.number}/{wanted}" if wanted else ""):
            what = f"leads to `{found}` and not to `{wanted or 'nowhere'}`"
            self.faults.add(
                rules.LINK_TO_OTHER_PLACE, what, fix=_SEE_TEMPLATE, mark=place_of(reading)
            )

    def _report(self, rule: Rule, told: Told, what: str) -> None:
        mark = f'{told.mark.value}="{told.key}"'
        if told.truck:
            mark = f'{Holder.TRUCK.value}="{told.truck}" {mark}'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, mark=mark)


def _rule_for_missing(told: Told) -> Rule:
    if told.mark is Mark.LABEL:
        return rules.TEXT_MISSING
    return rules.TRUCK_NOT_LISTED if told.key == NUMBER else rules.VALUE_MISSING


def _rule_for_extra(told: Told, wanted: list[Told]) -> Rule:
    if told in wanted:
        return rules.TRUCK_LISTED_TWICE if told.mark is Mark.KNOWN_FACT else rules.TEXT_REPEATED
    return rules.LABEL_MISPLACED if told.mark is Mark.LABEL else rules.UNKNOWN_TRUCK
