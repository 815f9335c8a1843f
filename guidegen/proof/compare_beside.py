"""Whether what stands side by side belongs together.

Takes in what was read of a page; records headings over the wrong texts, values beside the wrong
labels, symbols that are missing and devices that are said to be fitted or not against the record.
Refuses a value whose label is not right before it.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guidegen.guide.model import Guide
from guidegen.procedures.model import Signal
from guidegen.proof import rules
from guidegen.proof.claims import HEADINGS, EditionClaims, PageClaims
from guidegen.proof.compare_words import place_of
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Mark
from guidegen.proof.model import Reading, Within
from guidegen.proof.read_html import Body
from guidegen.proof.watched import section_of

_TELLS_ITSELF = frozenset(
    {
        *("identity.number", "identity.make", "identity.model_name", "identity.year"),
        "identity.body",
    }
)
"""Facts that may stand without a label: the truck's name."""

_SEE_TEMPLATE = "repair the page template"
_NEEDS_HEADING = frozenset({"meaning", "expect", "if_not"})


@dataclass(frozen=True, slots=True)
class Beside:
    """What stands side by side on one page, held against the guide."""

    page: PageClaims
    claims: EditionClaims
    guide: Guide
    faults: Faults

    def compare(self, body: Body) -> None:
        """Hold what was read against the guide."""
        self._compare_headings(body.readings)
        self._compare_pairs(body.readings)
        self._compare_steps(body.readings)
        self._compare_symbols(body.symbols)
        self._compare_signals(body)
        if self.page.kind == "data":
            self._compare_absent(body.readings)
            self._compare_columns(body.readings)

    def _compare_headings(self, readings: Iterable[Reading]) -> None:
        heading = procedure = ""
        for reading in readings:
            if reading.claim.within.procedure != procedure:
                heading, procedure = "", reading.claim.within.procedure
            mark, key = reading.claim.mark, reading.claim.key
            if mark is Mark.LABEL and key in HEADINGS:
                heading = key
                continue
            part = self._part(reading)
            if not part or part in ("title", "figure", "photo"):
                continue
            if heading != part and (part in _NEEDS_HEADING or heading in _WRONG_OVER[part]):
                self.faults.add(
                    rules.LABEL_MISPLACED,
                    f"stands under `{heading}`, and it is `{part}`",
                    fix=_SEE_TEMPLATE,
                    mark=place_of(reading),
                )

    def _part(self, reading: Reading) -> str:
        match reading.claim.mark:
            case Mark.TEXT:
                text = self.claims.texts.get(reading.claim.key)
                return text.part if text else ""
            case Mark.STATE:
                return "state"
            case Mark.STATION:
                return "station"
            case _:
                return ""

    def _compare_pairs(self, readings: Sequence[Reading]) -> None:
        before: Reading | None = None
        labels = Counter[str]()
        for reading in readings:
            if not self._stands_right(reading, before):
                self.faults.add(
                    rules.LABEL_MISPLACED,
                    "does not stand right after its own label",
                    fix=_SEE_TEMPLATE,
                    mark=place_of(reading),
                )
            if reading.claim.mark is Mark.FACT_LABEL and self.page.kind == "start":
                named = before.text if before and before.claim.mark is Mark.SECTION else ""
                labels[f"{named} {reading.text}"] += 1
            before = reading
        for label, count in labels.items():
            if count > 1:
                what = f"{count} values stand under the label `{label.strip()}`"
                self.faults.add(rules.LABEL_MISPLACED, what, fix=_SEE_TEMPLATE)

    def _stands_right(self, reading: Reading, before: Reading | None) -> bool:
        mark, key = reading.claim.mark, reading.claim.key
        beside = before.claim if before else None
        match mark:
            case Mark.FACT if reading.claim.within.figure:
                return True
            case Mark.FACT if reading.claim.within.timer:
                within = reading.claim.within
                return beside is not None and beside[::2] == (Mark.TIMER_WORD, within)
            case Mark.FACT if key not in _TELLS_ITSELF or reading.claim.within.row:
                return beside is not None and beside[:2] == (Mark.FACT_LABEL, key)
            case Mark.SIGNAL_DEFINITION:
                return beside is not None and beside[:2] == (Mark.SIGNAL_WORD, key)
            case Mark.FACT_LABEL if self.page.kind == "start" and beside is not None:
                section = section_of(self.guide.facts, key)
                return beside.mark is not Mark.SECTION or beside.key == section
            case _:
                return True

    def _compare_steps(self, readings: Iterable[Reading]) -> None:
        for reading in readings:
            mark, key = reading.claim.mark, reading.claim.key
            step = self.claims.steps.get(reading.step)
            if mark is Mark.NUMBER:
                fits = step is not None and str(step.number) == key
            elif mark is Mark.TEXT and self._part(reading) == "step":
                fits = reading.step == key
            else:
                fits = True
            if not fits:
                self.faults.add(
                    rules.STEP_NUMBER_DIFFERS if mark is Mark.NUMBER else rules.STEP_OUT_OF_ORDER,
                    f"stands in the element of `{reading.step}`",
                    fix=_SEE_TEMPLATE,
                    span=step.text.span if step else None,
                    mark=place_of(reading),
                )

    def _compare_symbols(self, symbols: Iterable[Within]) -> None:
        counts = Counter(within.caution for within in symbols)
        for claim in self.page.sequence:
            if claim.mark is not Mark.SIGNAL_WORD:
                continue
            caution = self.claims.cautions[claim.within.caution]
            wanted = 0 if caution.signal is Signal.NOTICE else 1
            if counts[caution.id] != wanted:
                self.faults.add(
                    rules.ALERT_SYMBOL_DIFFERS,
                    f"`{caution.signal.value}` stands with {counts[caution.id]} symbols that are "
                    f"seen, and not with {wanted}",
                    fix=_SEE_TEMPLATE,
                    span=caution.hazard.span,
                    mark=f'data-caution="{caution.id}"',
                )

    def _compare_signals(self, body: Body) -> None:
        """Hold how signal words outside of cautions are drawn against what they say."""
        said = [
            reading.claim.key
            for reading in body.readings
            if reading.claim.mark is Mark.SIGNAL_WORD and not reading.claim.within.caution
        ]
        if body.signals and body.signals != said:
            what = f"`{' '.join(said)}` are drawn as `{' '.join(body.signals)}`"
            self.faults.add(rules.SIGNAL_WORD_DIFFERS, what, fix=_SEE_TEMPLATE)

    def _compare_absent(self, readings: Iterable[Reading]) -> None:
        heading = ""
        found = Counter[str]()
        for reading in readings:
            mark, key = reading.claim.mark, reading.claim.key
            if mark in (Mark.LABEL, Mark.SECTION):
                heading = key
            elif mark is Mark.ABSENT:
                found[key] += 1
                if heading != "not_fitted":
                    self._add_fitting(key, "does not stand under `Not fitted`")
        wanted = Counter(section for section, must in self.claims.absent.items() if must)
        for section in wanted - found:
            self._add_fitting(section, "is not listed as not fitted")
        for section in found - Counter(self.claims.absent.keys()):
            self._add_fitting(section, "is listed as not fitted, or twice")

    def _add_fitting(self, section: str, what: str) -> None:
        state = self.guide.sections.get(section)
        self.faults.add(
            rules.FITTING_DIFFERS,
            f"`{section}` {what}",
            fix=_SEE_TEMPLATE,
            span=state.span if state else None,
            mark=f'data-absent="{section}"',
        )

    def _compare_columns(self, readings: Iterable[Reading]) -> None:
        columns = [
            e.claim.key
            for e in readings
            if e.claim.mark is Mark.LABEL and e.claim.key in ("value", "source")
        ]
        if columns != ["value", "source"] * (len(columns) // 2):
            self.faults.add(
                rules.LABEL_MISPLACED,
                f"the columns are headed `{' '.join(columns)}`",
                fix=_SEE_TEMPLATE,
            )


_OVER_STEPS = frozenset({"state", "station", "steps"})
"""Headings that may come before the steps, which need none of their own."""

_WRONG_OVER = {
    "state": HEADINGS - {"state"},
    "station": HEADINGS - {"station"},
    **dict.fromkeys(("step", "hazard", "consequence", "avoid"), HEADINGS - _OVER_STEPS),
    **dict.fromkeys(("meaning", "expect", "if_not"), HEADINGS),
}
"""Headings under which a text would be taken for something else."""
