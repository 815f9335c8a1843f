"""Whether all texts are there, once each, in their places and in order.

Takes in what was read of a page and what its edition claims; records what is missing, repeated,
out of order or not this truck's. Refuses a caution anywhere but right before its step.
"""

import itertools
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.figures.lamp_color import LAMP_COLOR
from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims, PageClaims
from guidegen.proof.compare_revisions import HOLDERS as OF_REVISIONS
from guidegen.proof.compare_timers import TIMER_HOLDERS
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Reading
from guidegen.proof.read_html import Body, Opening
from guidegen.source import Span
from guidegen.units.model import Fact

_ORDERED = {
    "search": frozenset(
        {
            *(Mark.TEXT, Mark.NUMBER, Mark.SIGNAL_WORD, Mark.SIGNAL_DEFINITION, Mark.FACT),
            *(Mark.FACT_LABEL, Mark.SOURCE, Mark.SECTION, Mark.ABSENT, Mark.FIGURE_WORD),
        }
    ),
    "start": frozenset({Mark.TEXT, Mark.NUMBER, Mark.SOURCE, Mark.ABSENT, Mark.FIGURE_WORD}),
    "chapter": frozenset(
        {
            *(Mark.TEXT, Mark.NUMBER, Mark.SIGNAL_WORD, Mark.SIGNAL_DEFINITION, Mark.FACT),
            *(Mark.FIGURE_WORD, Mark.TIMER_WORD),
            *(Mark.FACT_LABEL, Mark.SOURCE, Mark.SECTION, Mark.ABSENT),
        }
    ),
    "data": frozenset(
        {
            *(Mark.TEXT, Mark.NUMBER, Mark.SIGNAL_WORD, Mark.SIGNAL_DEFINITION, Mark.FACT),
            Mark.FIGURE_WORD,
            *(Mark.FACT_LABEL, Mark.SOURCE, Mark.SECTION),
        }
    ),
}
"""Marks whose texts stand on a page of each kind exactly as claimed, or not at all."""

_LOOSE = frozenset({Mark.STATE, Mark.STATION, Mark.LAMP_COLOR, Mark.LAMP_ACT})
_SEE_TEMPLATE = "repair the order and the loops of the page template"


@dataclass(frozen=True, slots=True)
class Order:
    """The order of one page held against its claims."""

    page: PageClaims
    claims: EditionClaims
    facts: Mapping[str, Fact]
    faults: Faults

    def compare(self, body: Body) -> None:
        """Hold what was read against the claims of the page."""
        read = [reading.claim for reading in self._ordered(body.readings)]
        if self.page.kind == "data":
            read = _by_section(read, self.page.sequence)
        self._compare_sequence(read, self.page.sequence)
        self._compare_loose(body.readings)
        self._compare_needed(body.readings)
        others = [e for e in body.openings if e.holder not in TIMER_HOLDERS]
        self._compare_openings(others)

    def _ordered(self, readings: Iterable[Reading]) -> Iterator[Reading]:
        marks = _ORDERED[self.page.kind]
        for reading in readings:
            claim = reading.claim
            names_truck = claim.mark is Mark.FACT and claim.key == "identity.number"
            if claim.mark in marks and not (names_truck and not claim.within.row):
                yield reading

    def _compare_sequence(self, read: Sequence[Claim], expected: Sequence[Claim]) -> None:
        if tuple(read) == tuple(expected):
            return
        counts, wanted = Counter(read), Counter(expected)
        missing = list((wanted - counts).elements())
        for claim in (counts - wanted).elements():
            self._report_extra(claim, missing)
        for claim in missing:
            self._report_missing(claim)
        self._compare_positions(read, expected)

    def _report_extra(self, claim: Claim, missing: list[Claim]) -> None:
        moved = next((e for e in missing if e[:2] == claim[:2]), None)
        if moved is not None:
            missing.remove(moved)
            rule, what = rules.TEXT_OUT_OF_ORDER, "stands in another place than it belongs"
        elif claim.mark is Mark.SIGNAL_WORD:
            rule, what = rules.SIGNAL_WORD_DIFFERS, f"says `{claim.key}` where it should not"
        elif claim.mark is Mark.NUMBER:
            rule, what = rules.STEP_NUMBER_DIFFERS, f"there is no step {claim.key}, or it is twice"
        elif claim in self.page.sequence or claim.key in self.claims.texts:
            rule, what = rules.TEXT_REPEATED, "stands there once too often"
        elif claim.mark is Mark.TEXT:
            return  # reported with its words
        else:
            rule, what = rules.UNCLAIMED_MARK, "does not belong on this page"
        self._add(rule, what, claim)

    def _report_missing(self, claim: Claim) -> None:
        if claim.mark is Mark.SIGNAL_WORD:
            self._add(rules.SIGNAL_WORD_DIFFERS, f"does not say `{claim.key}`", claim)
        elif claim.within.caution:
            self._add(rules.CAUTION_MISSING, "is not there, or not as part of its caution", claim)
        elif claim.mark is Mark.NUMBER:
            self._add(
                rules.STEP_NUMBER_DIFFERS, f"step {claim.key} does not show its number", claim
            )
        elif claim.mark is Mark.TEXT and self.claims.texts[claim.key].part == "step":
            self._add(rules.STEP_MISSING, "is not there", claim)
        elif claim.mark is Mark.FACT:
            self._add(rules.VALUE_MISSING, "is not there", claim)
        elif claim.mark is Mark.SOURCE:
            self._add(rules.SOURCE_DIFFERS, "is not there", claim)
        else:
            self._add(rules.TEXT_MISSING, "is not there", claim)

    def _compare_positions(self, read: Sequence[Claim], expected: Sequence[Claim]) -> None:
        position: dict[Claim, int] = {}
        for place, claim in enumerate(read):
            position.setdefault(claim, place)
        shared = [claim for claim in expected if claim in position]
        turned = list(_turned(shared, position))
        if not turned:
            return
        before = len(self.faults.found)
        for caution in self._late_cautions(position):
            self._add(rules.CAUTION_AFTER_ITS_STEP, "stands after the step that it guards", caution)
        for first, second in _turned([c for c in shared if self._is_step(c)], position):
            self._add(rules.STEP_OUT_OF_ORDER, f"stands after `{second.key}`", first)
        if len(self.faults.found) == before:
            for first, second in turned:
                self._add(rules.TEXT_OUT_OF_ORDER, f"stands after `{second.key}`", first)

    def _late_cautions(self, position: dict[Claim, int]) -> Iterator[Claim]:
        steps = {claim.key: place for claim, place in position.items() if self._is_step(claim)}
        late = set[str]()
        for claim, place in position.items():
            caution = self.claims.cautions.get(claim.within.caution)
            if caution is None or caution.id in late:
                continue
            if place > steps.get(caution.guards, place):
                late.add(caution.id)
                yield claim

    def _is_step(self, claim: Claim) -> bool:
        text = self.claims.texts.get(claim.key) if claim.mark is Mark.TEXT else None
        return text is not None and text.part == "step"

    def _compare_loose(self, readings: Sequence[Reading]) -> None:
        read = Counter(reading.claim for reading in readings if reading.claim.mark in _LOOSE)
        wanted = Counter(self.page.loose)
        for claim in (wanted - read).elements():
            self._add(rules.TEXT_MISSING, "is not there", claim)
        for claim in (read - wanted).elements():
            rule = rules.TEXT_REPEATED if claim in wanted else rules.STEP_THAT_DOES_NOT_APPLY
            self._add(rule, "does not belong there", claim)
        begun = set[str]()
        for reading in readings:
            claim = reading.claim
            if claim.mark in _LOOSE and claim.within.procedure in begun:
                self._add(rules.TEXT_OUT_OF_ORDER, "stands after the first step", claim)
            elif claim.mark in (Mark.NUMBER, Mark.SIGNAL_WORD):
                begun.add(claim.within.procedure)

    def _compare_needed(self, readings: Iterable[Reading]) -> None:
        read = {(reading.claim.mark, reading.claim.key) for reading in readings}
        for mark, key in self.page.needed:
            if (mark, key) not in read:
                self.faults.add(
                    rules.TEXT_MISSING,
                    "is not there",
                    fix=_SEE_TEMPLATE,
                    mark=f'{mark.value}="{key}"',
                )

    def _compare_openings(self, openings: Iterable[Opening]) -> None:
        # Those of revisions are held against the record, by `compare_revisions`.
        openings = [each for each in openings if each.holder not in OF_REVISIONS]
        read = Counter((opening.holder, opening.key) for opening in openings)
        wanted = Counter(self._wanted_openings())
        for holder, key in (wanted - read).elements():
            self._report_opening(_RULE_FOR_NO_HOLDER[holder], "there is no element", (holder, key))
        for holder, key in (read - wanted).elements():
            known = (holder, key) in wanted or holder not in _RULE_FOR_NO_HOLDER
            rule = rules.TEXT_REPEATED if known else rules.STEP_THAT_DOES_NOT_APPLY
            self._report_opening(rule, "does not belong there", (holder, key))
        for opening in openings:
            self._compare_signal(opening)

    def _wanted_openings(self) -> Iterator[tuple[Holder, str]]:
        for claim in self.page.sequence:
            text = self.claims.texts.get(claim.key) if claim.mark is Mark.TEXT else None
            part = text.part if text else ""
            if claim.mark is Mark.SIGNAL_WORD:
                yield Holder.CAUTION, claim.within.caution
            elif claim.mark is Mark.FACT_LABEL:
                yield Holder.ROW, claim.key
            elif part == "figure":
                yield Holder.FIGURE, claim.within.figure
            elif part == "title":
                yield Holder.PROCEDURE, claim.within.procedure
            elif part == "step":
                yield Holder.STEP, claim.key
        yield from ((Holder.PHOTO, photo.id) for photo in self.page.photos)
        for pick in (claim.within.pick for claim in self.page.loose if claim.within.pick):
            yield from ((Holder.PICK, pick), (Holder.FIGURE, LAMP_COLOR))

    def _compare_signal(self, opening: Opening) -> None:
        caution = self.claims.cautions.get(opening.key)
        if opening.holder is not Holder.CAUTION or caution is None:
            return
        if opening.signal != caution.signal.value:
            self.faults.add(
                rules.SIGNAL_WORD_DIFFERS,
                f"is drawn as `{opening.signal}` and not as `{caution.signal.value}`",
                fix=_SEE_TEMPLATE,
                span=caution.hazard.span,
                mark=f'data-caution="{opening.key}"',
            )

    def _report_opening(self, rule: Rule, what: str, opening: tuple[Holder, str]) -> None:
        holder, key = opening
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, mark=f'{holder.value}="{key}"')

    def _add(self, rule: Rule, what: str, claim: Claim) -> None:
        mark = f'{claim.mark.value}="{claim.key}"'
        if claim.within.caution and claim.mark is not Mark.TEXT:
            mark = f'data-caution="{claim.within.caution}" {mark}'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=self._span_of(claim), mark=mark)

    def _span_of(self, claim: Claim) -> Span | None:
        text = self.claims.texts.get(claim.key) if claim.mark is Mark.TEXT else None
        if text is not None:
            return text.span
        fact = self.facts.get(claim.within.row)
        if fact is not None:
            return fact.provenance.span
        caution = self.claims.cautions.get(claim.within.caution)
        if caution is not None:
            return caution.hazard.span
        procedure = self.claims.procedures.get(claim.within.procedure)
        return procedure.span if procedure else None


_RULE_FOR_NO_HOLDER = {
    Holder.PROCEDURE: rules.TEXT_MISSING,
    Holder.CAUTION: rules.CAUTION_MISSING,
    Holder.STEP: rules.STEP_MISSING,
    Holder.FIGURE: rules.FIGURE_MISSING,
    Holder.ROW: rules.VALUE_MISSING,
    Holder.PICK: rules.LAMP_MISSING,
    Holder.PHOTO: rules.PICTURE_MISSING,
}


def _turned(
    expected: Sequence[Claim], position: Mapping[Claim, int]
) -> Iterator[tuple[Claim, Claim]]:
    """Yield neighbors in *expected* of which the first is read after the second."""
    for first, second in itertools.pairwise(expected):
        if position[first] > position[second]:
            yield first, second


def _by_section(read: Sequence[Claim], expected: Sequence[Claim]) -> list[Claim]:
    """Return *read* with its sections in the order of *expected*; that order is free."""
    wanted = {claim: place for place, claim in enumerate(expected)}
    sections: list[list[Claim]] = [[]]
    for claim in read:
        if claim.mark is Mark.SECTION:
            sections.append([])
        sections[-1].append(claim)
    last = len(wanted)
    ordered = sorted(sections, key=lambda each: wanted.get(each[0], last) if each else -1)
    return [claim for section in ordered for claim in section]
