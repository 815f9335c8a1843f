"""Whether the page of an inspection round says every stop, whole and in order, and nothing else.

Takes in what was read of the page and what it must say; records stops that are missing, made up
or out of order, and places, states, acts and reasons that are not the stop's.
Refuses a page that does not say, before its first stop, that cautions and steps stand elsewhere.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.compare_plan import PLAN, Plan
from guidegen.proof.compare_waiting import Waiting
from guidegen.proof.compare_words import Wording, place_of
from guidegen.proof.faults import Faults
from guidegen.proof.links import target_of
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Reading, Within
from guidegen.proof.prove_page import PageRead
from guidegen.proof.round_claims import RoundClaims, StopClaims

_SEE_TEMPLATE = "repair the template of the inspection round"
_TITLES = (Mark.PROCEDURE_LINK, Mark.TEXT)
_HEADED = {
    Mark.SIGNAL_WORD: "read_first",
    Mark.STATION: "station",
    Mark.STATE: "state",
    Mark.WHY: "why",
}
"""Label that must stand over each kind of text in a stop."""

_BEFORE_STOPS = ("park_first", "handbook_first", "round", "open_each")
"""Labels that must stand before the first stop."""

_AROUND = frozenset(
    {
        *(*_BEFORE_STOPS, "premises", "stops"),
        *("start", "lamp_finder", "data", "differences", "all_trucks"),
    }
)
"""Labels that may stand outside of the stops."""


@dataclass(frozen=True, slots=True)
class Tour:
    """The page of one round, held against its claims."""

    claims: RoundClaims
    read: PageRead
    words: Wording
    page: str
    """Path of the page from the root of the site."""

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self) -> int:
        """Hold the page against its claims; return how many stops are as they must be."""
        body = self.read.body
        told: dict[str, list[Reading]] = {}
        around: list[Reading] = []
        for reading in body.readings:
            held = reading.claim.within.stop
            (told.setdefault(held, []) if held else around).append(reading)
        self._compare_stops()
        opened = {e.key for e in body.openings if e.holder is Holder.STOP}
        proved = sum(
            self._compare_stop(stop, told.pop(stop.number, []), is_open=stop.number in opened)
            for stop in self._stops
        )
        for readings in told.values():
            self._compare_words(readings)
        self._compare_words(around)
        self._compare_around(around)
        Plan(self.claims, self.faults).compare(body.drawings, body.readings)
        Waiting(self._stops, self.faults).compare(body)
        self._compare_openings()
        self._compare_places()
        return proved

    @property
    def _stops(self) -> tuple[StopClaims, ...]:
        return self.claims.stops

    def _compare_words(self, readings: Iterable[Reading]) -> None:
        for reading in readings:
            self.words.compare(reading)
            if reading.claim.mark not in _TITLES:
                self.read.links.compare_link(reading)

    def _compare_stops(self) -> None:
        opened = [e.key for e in self.read.body.openings if e.holder is Holder.STOP]
        wanted = [stop.number for stop in self._stops]
        for number in Counter(wanted) - Counter(opened):
            self._report(rules.STOP_MISSING, "is not there", number)
        for number in Counter(opened) - Counter(wanted):
            self._report(rules.STOP_TOO_MANY, "is none of this round, or is there already", number)
        told = [stop for stop, _ in groupby(e.claim.within.stop for e in self.read.body.readings)]
        told = [stop for stop in told if stop in wanted]
        for order in (opened, told):
            shared = [number for number in wanted if number in order]
            for one, other in zip(order, shared, strict=False):
                if one in wanted and one != other:
                    self._report(rules.STOP_OUT_OF_ORDER, f"stands where `{other}` belongs", one)
                    break

    def _compare_stop(
        self, stop: StopClaims, readings: Sequence[Reading], *, is_open: bool
    ) -> bool:
        before = len(self.faults.found)
        self._compare_words(readings)
        read = [e.claim for e in readings if e.claim.mark is not Mark.LABEL]
        if is_open and tuple(read) != stop.claims:
            self._compare_claims(stop, read)
        self._compare_headings(readings)
        for reading in readings:
            self._compare_title(stop, reading)
        return bool(readings) and len(self.faults.found) == before

    def _compare_claims(self, stop: StopClaims, read: Sequence[Claim]) -> None:
        missing, extra = Counter(stop.claims) - Counter(read), Counter(read) - Counter(stop.claims)
        for claim in missing:
            self._add(_RULES.get(claim.mark, rules.STOP_DIFFERS), "is not there", claim)
        for claim in extra:
            self._add(_RULES.get(claim.mark, rules.STOP_DIFFERS), "does not belong there", claim)
        if not missing and not extra:
            pairs = zip(read, stop.claims, strict=True)
            first, expected = next(pair for pair in pairs if pair[0] != pair[1])
            self._add(rules.TEXT_OUT_OF_ORDER, f"stands where `{expected.key}` belongs", first)

    def _compare_headings(self, readings: Sequence[Reading]) -> None:
        heading, has_text = "", True
        for reading in readings:
            mark, key = reading.claim.mark, reading.claim.key
            if mark is Mark.LABEL:
                self._expect(key in _HEADED.values() and has_text, reading)
                heading, has_text = key, False
                continue
            wanted = _HEADED.get(mark, "")
            self._expect(wanted in ("", heading), reading)
            has_text = has_text or wanted == heading
        if readings:
            self._expect(has_text, readings[-1])

    def _expect(self, fits: bool, reading: Reading) -> None:  # noqa: FBT001 -- what is held to hold
        if not fits:
            what = "does not stand under its own heading, or stands over nothing"
            self._add(rules.LABEL_MISPLACED, what, reading.claim)

    def _compare_title(self, stop: StopClaims, reading: Reading) -> None:
        found = target_of(reading, self.page)
        wanted = f"{self.words.guide.number}/{stop.link}"
        if reading.claim.mark not in _TITLES:
            if found:
                self._add(rules.LINK_TO_OTHER_PLACE, f"leads to `{found}`", reading.claim)
        elif not found:
            what = f"`{reading.text}` leads nowhere, and its cautions stand elsewhere"
            self._add(rules.CONTENTS_DIFFER, what, reading.claim)
        elif found != wanted:
            what = f"leads to `{found}` and not to `{wanted}`"
            self._add(rules.LINK_TO_OTHER_PLACE, what, reading.claim)

    def _compare_around(self, around: Sequence[Reading]) -> None:
        for reading in around:
            if not _may_stand_around(reading):
                what = "does not belong outside of a stop"
                mark = place_of(reading)
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE, mark=mark)
        readings = self.read.body.readings
        first = next((n for n, e in enumerate(readings) if e.claim.within.stop), len(readings))
        before = [reading.claim[:2] for reading in readings[:first]]
        for key in _BEFORE_STOPS:
            if (Mark.LABEL, key) not in before:
                what = "does not stand before the first stop"
                mark = f'{Mark.LABEL.value}="{key}"'
                self.faults.add(rules.TEXT_MISSING, what, fix=_SEE_TEMPLATE, mark=mark)
        premises = [key for mark, key in before if mark is Mark.PREMISE]
        told = [e.claim.key for e in readings if e.claim.mark is Mark.PREMISE]
        if premises != list(self.claims.premises) or told != premises:
            what = f"the round takes `{' '.join(self.claims.premises)}` for granted"
            mark = Mark.PREMISE.value
            self.faults.add(rules.TEXT_MISSING, what, fix=_SEE_TEMPLATE, mark=mark)

    def _compare_openings(self) -> None:
        """Report what the page may not hold beside stops, signal words and the plan."""
        allowed = (Holder.STOP, Holder.WAITING, Holder.FIGURE)
        for opening in self.read.body.openings:
            is_other = opening.holder is Holder.FIGURE and opening.within != Within(figure=PLAN)
            if opening.holder not in allowed or is_other:
                what = f'`{opening.holder.value}="{opening.key}"` does not belong on this page'
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE)

    def _compare_places(self) -> None:
        """Report stops that the way back from a procedure would not find."""
        for node in self.read.parsed.css(f"[{Holder.STOP.value}]"):
            number = node.attributes.get(Holder.STOP.value)
            if node.id != f"stop-{number}":
                what = f"it has the id `{node.id}`, and the way back goes to `stop-{number}`"
                self._report(rules.LINK_BROKEN, what, number or "")

    def _report(self, rule: Rule, what: str, number: str) -> None:
        span = next((stop.span for stop in self._stops if stop.number == number), None)
        mark = f'{Holder.STOP.value}="{number}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=span, mark=mark)

    def _add(self, rule: Rule, what: str, claim: Claim) -> None:
        self._report(rule, f'{claim.mark.value}="{claim.key}" {what}', claim.within.stop)


_RULES = {
    Mark.SIGNAL_WORD: rules.SIGNAL_WORD_DIFFERS,
    Mark.NUMBER: rules.STEP_NUMBER_DIFFERS,
}
"""Rule for a text that is not there or does not belong; others make the stop another."""


def _may_stand_around(reading: Reading) -> bool:
    mark, key = reading.claim.mark, reading.claim.key
    if mark is Mark.LABEL:
        return key in _AROUND
    if mark is Mark.CHAPTER:
        return bool(reading.link)
    return mark in (Mark.PREMISE, Mark.PLAN, Mark.PLAN_WORDS)
