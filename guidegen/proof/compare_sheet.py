"""Whether a difference sheet says every difference, whole and in order, and nothing else.

Takes in what was read of a sheet and what it must say; records differences that are missing,
made up or out of order, and values that do not stand under their truck's number. Refuses any
text of the known truck outside of the difference that it belongs to, but for that truck's number.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.guide.model import Caution
from guidegen.procedures.model import Signal
from guidegen.proof import rules
from guidegen.proof.compare_outline import Outline
from guidegen.proof.compare_words import Wording
from guidegen.proof.faults import Faults
from guidegen.proof.links import target_of
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Reading
from guidegen.proof.prove_page import PageRead
from guidegen.proof.sheet_model import NUMBER, RowClaims, SheetClaims

_SEE_TEMPLATE = "repair the template of the difference sheet"
_OF_KNOWN = frozenset({Mark.KNOWN_FACT, Mark.KNOWN_TEXT})
_SIDES = frozenset(
    {
        *((Mark.KNOWN_FACT, NUMBER), (Mark.FACT, NUMBER)),
        *((Mark.LABEL, "on"), (Mark.LABEL, "only_on")),
    }
)
"""What says whose the texts are that follow."""


_ROLES = frozenset({(Mark.LABEL, "expect"), (Mark.LABEL, "if_not"), (Mark.LABEL, "meaning")})
"""What says what the line is that follows."""

_FITTINGS = frozenset((Mark.LABEL, key) for key in ("fitted", "not_fitted", "not_on_record"))


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet held against its claims."""

    claims: SheetClaims
    read: PageRead
    known: Wording
    """Holds texts against the guide of the truck that the driver knows."""

    given: Wording
    page: str
    """Path of the sheet from the root of the site."""

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self) -> int:
        """Hold the sheet against its claims; return how many differences are as they must be."""
        told: dict[str, list[Reading]] = {}
        around: list[Reading] = []
        for reading in self.read.body.readings:
            held = reading.claim.within.difference
            (told.setdefault(held, []) if held else around).append(reading)
        proved = sum(self._compare_row(row, told.pop(row.id, [])) for row in self.claims.rows)
        for readings in told.values():
            self._compare_words(readings)
        self._compare_words(around)
        self._compare_openings()
        self._compare_cautions()
        Outline(self.claims, self.read, self.page).compare(around)
        return proved

    def _compare_words(self, readings: Sequence[Reading]) -> None:
        for reading in readings:
            wording = self.known if reading.claim.mark in _OF_KNOWN else self.given
            wording.compare(reading)
            if reading.claim.mark is not Mark.PROCEDURE_LINK:
                self.read.links.compare_link(reading)

    def _compare_row(self, row: RowClaims, readings: Sequence[Reading]) -> bool:
        before = len(self.faults.found)
        self._compare_words(readings)
        if readings:
            self._compare_claims(row, [reading.claim for reading in readings])
        for reading in readings:
            self._compare_link(row, reading)
        return bool(readings) and len(self.faults.found) == before

    def _compare_claims(self, row: RowClaims, read: Sequence[Claim]) -> None:
        wanted = list(row.claims)
        if list(read) == wanted:
            return
        missing, extra = Counter(wanted) - Counter(read), Counter(read) - Counter(wanted)
        for claim in missing:
            self._add(self._rule_for_missing(claim), "is not there", claim, row)
        for claim in extra:
            self._add(_rule_for_extra(claim, wanted), "does not belong there", claim, row)
        if not missing and not extra:
            self._compare_places(row, read)

    def _compare_places(self, row: RowClaims, read: Sequence[Claim]) -> None:
        late = [each for each in row.cautions if _is_late(each.id, each.guards, read)]
        for caution in late:
            what = f"`{caution.id}` stands after the step that it guards"
            self._fault(rules.CAUTION_AFTER_ITS_STEP, what, row)
        if late:
            return
        turned = [pair for pair in zip(read, row.claims, strict=True) if pair[0] != pair[1]]
        first, expected = turned[0]
        marks = {claim[:2] for pair in turned for claim in pair}
        rule = rules.TEXT_OUT_OF_ORDER
        if marks & _SIDES:
            rule = rules.SIDE_NOT_TOLD
        elif any(_follows_role(place, row.claims) for place in _turned_places(read, row.claims)):
            rule = rules.LABEL_MISPLACED
        self._add(rule, f"stands where `{expected.key}` belongs", first, row)

    def _rule_for_missing(self, claim: Claim) -> Rule:
        text = self.given.claims.texts.get(claim.key) if claim.mark is Mark.TEXT else None
        if claim[:2] in _RULE_FOR_LABELS:
            return _RULE_FOR_LABELS[claim[:2]]
        if claim.within.caution:
            return rules.CAUTION_MISSING
        if text is not None and text.part == "step":
            return rules.STEP_MISSING
        return _RULE_FOR_MISSING.get(claim.mark, rules.TEXT_MISSING)

    def _compare_link(self, row: RowClaims, reading: Reading) -> None:
        wanted = row.links.get(reading.claim.mark, "")
        found = target_of(reading, self.page)
        if not found and wanted:
            what = f"`{reading.text}` leads nowhere, and it is on this truck's pages"
            self._fault(rules.CONTENTS_DIFFER, what, row)
        elif found != (f"{self.given.guide.number}/{wanted}" if wanted else ""):
            what = f"leads to `{found}` and not to `{wanted or 'nowhere'}`"
            self._add(rules.LINK_TO_OTHER_PLACE, what, reading.claim, row)

    def _compare_openings(self) -> None:
        opened = [e.key for e in self.read.body.openings if e.holder is Holder.DIFFERENCE]
        wanted = [row.id for row in self.claims.rows]
        spans = {row.id: row for row in self.claims.rows}
        for id_ in Counter(wanted) - Counter(opened):
            self._fault(rules.DIFFERENCE_MISSING, f"`{id_}` is not told", spans[id_])
        for id_ in Counter(opened) - Counter(wanted):
            what = f"`{id_}` is told, and it is none or is told already"
            self.faults.add(rules.DIFFERENCE_THAT_IS_NONE, what, fix=_SEE_TEMPLATE)
        shared = [id_ for id_ in wanted if id_ in opened]
        found = [id_ for id_ in dict.fromkeys(opened) if id_ in spans]
        for one, other in zip(found, shared, strict=True):
            if one != other:
                what = f"`{one}` stands where `{other}` belongs"
                self._fault(rules.DIFFERENCE_OUT_OF_ORDER, what, spans[one])
                break
        for opening in self.read.body.openings:
            if opening.holder not in (Holder.DIFFERENCE, Holder.CAUTION):
                what = f"`{opening.holder.value}` does not belong on a sheet"
                self.faults.add(rules.UNCLAIMED_MARK, what, fix=_SEE_TEMPLATE)

    def _compare_cautions(self) -> None:
        wanted = [caution for row in self.claims.rows for caution in row.cautions]
        body = self.read.body
        opened = [each for each in body.openings if each.holder is Holder.CAUTION]
        drawn = {each.key: each.signal for each in opened}
        drawings = [within.caution for within in body.symbols]
        for caution in wanted:
            mark = f'data-caution="{caution.id}"'
            if caution.id not in drawn:
                self._report(rules.CAUTION_MISSING, "is not drawn as a caution", caution, mark)
            elif drawn[caution.id] != caution.signal.value:
                what = f"is drawn as `{drawn[caution.id]}` and not as `{caution.signal.value}`"
                self._report(rules.SIGNAL_WORD_DIFFERS, what, caution, mark)
            symbols = 0 if caution.signal is Signal.NOTICE else 1
            if drawings.count(caution.id) != symbols:
                what = f"does not stand with {symbols} symbols that are seen"
                self._report(rules.ALERT_SYMBOL_DIFFERS, what, caution, mark)
        known = {caution.id for caution in wanted}
        for key in [each.key for each in opened if each.key not in known] + body.signals:
            what = f"`{key}` is drawn as a caution, and it is none of this truck's"
            self.faults.add(rules.STEP_THAT_DOES_NOT_APPLY, what, fix=_SEE_TEMPLATE)
        for stray in set(drawings) - known:
            what = f"a drawing stands where no caution is: `{stray}`"
            self.faults.add(rules.ALERT_SYMBOL_DIFFERS, what, fix=_SEE_TEMPLATE)

    def _report(self, rule: Rule, what: str, caution: Caution, mark: str) -> None:
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=caution.hazard.span, mark=mark)

    def _fault(self, rule: Rule, what: str, row: RowClaims) -> None:
        mark = f'{Holder.DIFFERENCE.value}="{row.id}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=row.span, mark=mark)

    def _add(self, rule: Rule, what: str, claim: Claim, row: RowClaims) -> None:
        mark = f'{Holder.DIFFERENCE.value}="{row.id}" {claim.mark.value}="{claim.key}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=row.span, mark=mark)


_RULE_FOR_LABELS = {
    **dict.fromkeys(_SIDES, rules.SIDE_NOT_TOLD),
    **dict.fromkeys(_ROLES, rules.LABEL_MISPLACED),
    **dict.fromkeys(_FITTINGS, rules.FITTING_DIFFERS),
}
_RULE_FOR_MISSING = {
    Mark.FACT: rules.VALUE_MISSING,
    Mark.KNOWN_FACT: rules.VALUE_MISSING,
    Mark.NUMBER: rules.STEP_NUMBER_DIFFERS,
    Mark.PROCEDURE_LINK: rules.CONTENTS_DIFFER,
}


def _turned_places(read: Sequence[Claim], wanted: Sequence[Claim]) -> list[int]:
    return [place for place, claim in enumerate(wanted) if read[place] != claim]


def _follows_role(place: int, wanted: Sequence[Claim]) -> bool:
    """Whether a label of what the line is belongs there, or right before."""
    return any(claim[:2] in _ROLES for claim in wanted[max(place - 1, 0) : place + 1])


def _rule_for_extra(claim: Claim, wanted: Sequence[Claim]) -> Rule:
    if claim[:2] in _RULE_FOR_LABELS:
        return _RULE_FOR_LABELS[claim[:2]]
    if claim.mark is Mark.NUMBER:
        return rules.STEP_NUMBER_DIFFERS
    if claim.mark is Mark.SIGNAL_WORD:
        return rules.SIGNAL_WORD_DIFFERS
    return rules.TEXT_REPEATED if claim in wanted else rules.UNCLAIMED_MARK


def _is_late(caution: str, guards: str, read: Sequence[Claim]) -> bool:
    """Whether a caution stands after the step that it guards."""
    places = [place for place, claim in enumerate(read) if claim.within.caution == caution]
    steps = [place for place, claim in enumerate(read) if claim[:2] == (Mark.TEXT, guards)]
    return bool(places and steps) and places[-1] > steps[0]
