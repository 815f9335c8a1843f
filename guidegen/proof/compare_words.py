"""Whether marked texts say what the guide says.

Takes in a reading and the claims of its edition; records every word and value that differs or
cannot be seen. Refuses marks that the unit's guide does not know.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.finding import Rule
from guidegen.guide.model import STAMPED, Guide
from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims, source_words
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Mark
from guidegen.proof.model import Reading, ValueRead, ValueThere
from guidegen.proof.read_text import (
    find_values,
    fold,
    misread_value,
    pattern_read,
    plain,
    stray_value,
)
from guidegen.proof.watched import fact_for_value
from guidegen.source import Span
from guidegen.units.model import Fact

_SEE_TEMPLATE = "repair the page template that draws `{mark}`"
_SEE_WORDING = "repair how guidegen words the value; spec and procedure are as they should be"
_SEE_STYLE = "take what hides it out of the stylesheet or page template, or narrow its selector"


@dataclass(slots=True)
class Wording:
    """The words of one file held against the guide of one unit."""

    guide: Guide
    claims: EditionClaims
    faults: Faults
    text_mark: Mark = Mark.TEXT
    """Marks the texts of the guide; another where the page holds texts of two guides."""

    fact_mark: Mark = Mark.FACT
    """Marks its values."""

    also_fixed: Mapping[tuple[Mark, str], str] = field(default_factory=dict)
    """Fixed words that only pages of this kind have."""

    values: int = 0
    """Values that were read back equal."""

    labels: int = 0
    """Fixed words that were read back equal."""

    texts: set[str] = field(default_factory=set)
    """Ids of the texts that were read back equal."""

    def compare(self, reading: Reading) -> None:
        """Hold one marked text against the guide."""
        before = len(self.faults.found)
        mark, key = reading.claim.mark, reading.claim.key
        if reading.hidden:
            self._report_hidden(reading)
        if mark is self.text_mark:
            self._compare_text(reading)
        elif mark is self.fact_mark:
            self.compare_standing(ValueRead(key, reading.text, ""), place_of(reading))
        elif mark is Mark.PROCEDURE_LINK:
            self._compare_title(reading)
        else:
            self._compare_fixed(reading, self._fixed_words(reading))
        if len(self.faults.found) == before:
            self._count(reading)

    def _fixed_words(self, reading: Reading) -> str | None:
        mark, key = reading.claim.mark, reading.claim.key
        if mark is Mark.NUMBER:
            return key
        if mark is Mark.SOURCE:
            fact = fact_for_value(self.guide.facts, ValueThere(mark, key, reading.text))
            return source_words(fact) if fact else None
        return self.claims.fixed.get((mark, key)) or self.also_fixed.get((mark, key))

    def compare_standing(self, value: ValueRead, mark: str) -> None:
        """Hold a value that stands in a mark of its own against its fact, and nothing else."""
        fact = fact_for_value(self.guide.facts, ValueThere(Mark.FACT, value.fact, value.text))
        self._compare_with(fact, value, mark)

    def compare_value(self, value: ValueRead, mark: str) -> None:
        """Hold a value that was found among words against its fact."""
        self._compare_with(self.guide.facts.get(value.fact), value, mark)

    def _compare_with(self, fact: Fact | None, value: ValueRead, mark: str) -> None:
        if fact is None:
            self.faults.add(
                rules.UNCLAIMED_MARK,
                f"shows `{value.text}` for `{value.fact}`, which this truck has not on record",
                fix=_SEE_TEMPLATE.format(mark=mark),
                mark=mark,
            )
            return
        rule, fault = judge_value(self.claims, fact, value.text)
        if fault:
            span = fact.provenance.span
            self.faults.add(rule, fault, fix=_SEE_WORDING, span=span, mark=mark)
        elif not value.hidden:
            self.values += 1
        if value.hidden:
            self.faults.add(
                rules.VALUE_HIDDEN,
                f"`{value.text}` is not seen as it stands there, by {value.hidden}",
                fix=_SEE_STYLE,
                span=fact.provenance.span,
                mark=mark,
            )

    def _compare_text(self, reading: Reading) -> None:
        claim = self.claims.texts.get(reading.claim.key)
        if claim is None:
            self._report_unknown(reading, rules.STEP_THAT_DOES_NOT_APPLY)
            return
        read = pattern_read(reading)
        if read != claim.pattern:
            self.faults.add(
                rules.TEXT_NOT_READ_BACK,
                f"reads `{plain(read)}` and not `{plain(claim.pattern)}`",
                fix=_SEE_TEMPLATE.format(mark=place_of(reading)),
                span=claim.span,
                mark=place_of(reading),
            )
        for piece in reading.pieces:
            if isinstance(piece, ValueRead):
                self.compare_standing(
                    piece, f'{place_of(reading)} {self.fact_mark.value}="{piece.fact}"'
                )

    def _compare_title(self, reading: Reading) -> None:
        procedure = self.claims.procedures.get(reading.claim.key)
        if procedure is None:
            self._compare_fixed(reading, None)
            return
        pattern = self.claims.texts[procedure.title.id].pattern
        found = find_values((pattern,), reading.text)
        if found is None:
            self._compare_fixed(reading, plain(pattern))
            return
        for value in found:
            self.compare_value(ValueRead(value.fact, value.text, ""), place_of(reading))

    def _compare_fixed(self, reading: Reading, expected: str | None) -> None:
        text = reading.text
        if expected is None:
            rule = _RULE_FOR_UNKNOWN.get(reading.claim.mark, rules.UNCLAIMED_MARK)
            self._report_unknown(reading, rule)
        elif text != expected and text != fold(expected):
            mark = place_of(reading)
            self.faults.add(
                _RULE_FOR_WORDS.get(reading.claim.mark, rules.LABEL_NOT_READ_BACK),
                f"reads `{_cut(text)}` and not `{expected}`",
                fix=_SEE_TEMPLATE.format(mark=mark),
                span=self._span_of(reading),
                mark=mark,
            )

    def _report_unknown(self, reading: Reading, rule: Rule) -> None:
        self.faults.add(
            rule,
            f"shows `{_cut(reading.text)}`, which is not in this truck's guide",
            fix="draw what the guide holds and nothing else",
            mark=place_of(reading),
        )

    def _span_of(self, reading: Reading) -> Span | None:
        fact = self.guide.facts.get(reading.claim.key)
        if fact is not None and reading.claim.mark in (Mark.SOURCE, Mark.FACT_LABEL):
            return fact.provenance.span
        procedure = self.claims.procedures.get(reading.claim.within.procedure)
        return procedure.span if procedure else None

    def _report_hidden(self, reading: Reading) -> None:
        claim = reading.claim
        text = self.claims.texts.get(claim.key) if claim.mark is self.text_mark else None
        if claim.within.caution:
            rule, mark = rules.CAUTION_HIDDEN, f'data-caution="{claim.within.caution}"'
        elif text is not None and text.part == "step":
            rule, mark = rules.STEP_HIDDEN, place_of(reading)
        elif claim.mark is self.fact_mark:
            rule, mark = rules.VALUE_HIDDEN, place_of(reading)
        else:
            rule, mark = rules.TEXT_HIDDEN, place_of(reading)
        self.faults.add(
            rule,
            f"cannot be seen, by {reading.hidden}",
            fix=_SEE_STYLE,
            span=text.span if text else self._span_of(reading),
            mark=mark,
        )

    def _count(self, reading: Reading) -> None:
        if reading.claim.mark is self.text_mark:
            self.texts.add(reading.claim.key)
        elif reading.claim.mark is not self.fact_mark:
            self.labels += 1


_RULE_FOR_UNKNOWN = {
    Mark.CHAPTER: rules.STEP_THAT_DOES_NOT_APPLY,
    Mark.PROCEDURE_LINK: rules.STEP_THAT_DOES_NOT_APPLY,
    Mark.ABSENT: rules.FITTING_DIFFERS,
    Mark.SIGNAL_WORD: rules.SIGNAL_WORD_DIFFERS,
}
_RULE_FOR_WORDS = {
    Mark.SIGNAL_WORD: rules.SIGNAL_WORD_DIFFERS,
    Mark.SOURCE: rules.SOURCE_DIFFERS,
    Mark.NUMBER: rules.STEP_NUMBER_DIFFERS,
    Mark.ABSENT: rules.FITTING_DIFFERS,
}


def place_of(reading: Reading) -> str:
    """Return where *reading* stands on its page: ``data-text="air-build-up.title"``."""
    return f'{reading.claim.mark.value}="{reading.claim.key}"'


def judge_value(claims: EditionClaims, fact: Fact, text: str) -> tuple[Rule, str]:
    """Return what is wrong with *text* for *fact*: the rule, and words or empty text.

    Args:
        claims: Of the edition of the fact's unit; what was found is kept with them.
        fact: The value of the unit.
        text: What a person sees, white space folded.
    """
    if fact.name in STAMPED:
        fault = misread_value(fact, text)
        what = f"reads `{text}` for `{fact.name}`, {fault}" if fault else ""
        return rules.IDENTITY_DIFFERS, what
    known = claims.proved_values.get((fact.name, text))
    if known is None:
        known = _judge_value(fact, text)
        claims.proved_values[fact.name, text] = known
        if not known[1]:
            claims.texts_of_values.setdefault(fact.name, []).append(text)
    return known


def _judge_value(fact: Fact, text: str) -> tuple[Rule, str]:
    fault = misread_value(fact, text)
    if fault:
        return rules.VALUE_NOT_READ_BACK, f"reads `{text}` for `{fact.name}`, which {fault}"
    fault = stray_value(fact)
    if fault:
        return rules.VALUE_CONVERTED_WRONGLY, f"`{text}` for `{fact.name}` {fault}"
    return rules.VALUE_NOT_READ_BACK, ""


def _cut(text: str) -> str:
    longest = 80
    return text if len(text) <= longest else f"{text[: longest - 1]}…"
