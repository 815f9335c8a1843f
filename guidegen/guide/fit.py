"""From a procedure template to the procedure of one truck.

Takes in a template and a unit; gives out the procedure as that truck needs it, or nothing if it
does not apply. Refuses to guess: a condition or a value that hangs on something not on record
becomes a finding and stops the unit's guide.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.finding import Findings, Note
from guidegen.guide import rules
from guidegen.guide.drawable import why_not_drawn
from guidegen.guide.known import KnownOf
from guidegen.guide.model import Block, Caution, FactRef, Procedure, Step, Text, Timer, TimerLimit
from guidegen.procedures.condition_model import Condition
from guidegen.procedures.condition_value import evaluate, unknowns
from guidegen.procedures.figure_kinds import FIGURE_KINDS, LAMP_SYMBOL
from guidegen.procedures.model import (
    CautionTemplate,
    OutcomeTemplate,
    Placeholder,
    ProcedureTemplate,
    StepTemplate,
    TextTemplate,
    TimerTemplate,
    Words,
)
from guidegen.procedures.timer_kinds import TimerKind
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS
from guidegen.units.model import Unit


def fit_procedure(template: ProcedureTemplate, unit: Unit, findings: Findings) -> Procedure | None:
    """Return *template* fitted to *unit*, or nothing if it does not apply or has findings."""
    own = Findings()
    fitting = _Fitting(template, unit, own)
    procedure = fitting.fit() if fitting.applies(template.applies) else None
    findings.extend(own)
    return None if own.has_errors else procedure


@dataclass(frozen=True, slots=True)
class _Fitting:
    template: ProcedureTemplate
    unit: Unit
    findings: Findings

    def fit(self) -> Procedure:
        template = self.template
        steps = [step for step in template.steps if self.applies(step.when)]
        if not steps and not self.findings.has_errors:
            self.findings.add(
                rules.PROCEDURE_WITHOUT_STEPS,
                template.span,
                what=f"`{template.id}` applies to {self.unit.number} and none of its steps does",
                fix="give it a narrower `applies`, or a step without `when`",
                unit=self.unit.number,
            )
        return Procedure(
            id=template.id,
            title=self.text(template.title),
            station=self.station(),
            state=tuple((part.aspect, part.state) for part in template.state),
            blocks=tuple(self.blocks(steps)),
            expect=tuple(self.outcomes(template.expect)),
            if_not=tuple(self.outcomes(template.if_not)),
            span=template.span,
            lamp=template.lamp,
            figure=self.figure(),
        )

    def station(self) -> str:
        """Return where the driver stands at this truck."""
        found = (each.station for each in self.template.stations if self.applies(each.when))
        return next(found, self.template.station)

    def figure(self) -> str | None:
        """Return the kind of the figure; report what it cannot be drawn without."""
        template, asked = self.template, self.template.figure
        if template.lamp is not None:
            return LAMP_SYMBOL
        if asked is None or not self.applies(asked.when):
            return None
        place = TextTemplate(f"{template.id}.figure", (), asked.span)
        missing = [name for name in FIGURE_KINDS[asked.kind] if name not in self.unit.facts]
        for name in missing:
            self.report_missing(Placeholder(name, asked.span), place)
        fault = "" if missing else why_not_drawn(asked.kind, self.unit.facts)
        if fault:
            self.findings.add(
                rules.FIGURE_NOT_DRAWABLE,
                asked.span,
                what=f"`{place.id}` is `{asked.kind}`, and {self.unit.number} {fault}",
                fix="correct the unit or model file, or give the figure a `when`",
                notes=[Note(f"{self.unit.number} stands at", self.unit.span)],
                unit=self.unit.number,
            )
        return asked.kind

    def applies(self, condition: Condition | None) -> bool:
        """Say whether *condition* holds; report it and say no if that is not on record."""
        if condition is None:
            return True
        known = KnownOf(self.unit)
        holds = evaluate(condition, known)
        if holds is None:
            for unanswered in unknowns(condition, known):
                self.report_unknown(unanswered.name)
        return holds is True

    def report_unknown(self, name: str) -> None:
        is_section = name in EQUIPMENT_SECTIONS
        section = name if is_section else FACTS[name].section
        if not is_section and KnownOf(self.unit).fitted(section):
            what = (
                f"{self.unit.number} does not state `{name}`, and `{self.template.id}` hangs on it"
            )
            fix = f"look it up and add it to the section `{section}` of the unit or its model"
        else:
            what = f"{self.unit.number} does not say whether it has `{section}`"
            fix = (
                f"add the section `{section}`, or `{section}: not fitted`, to the unit or its model"
            )
        self.findings.add(
            rules.NOT_ON_RECORD,
            self.unit.span,
            what=what,
            fix=fix,
            notes=[Note("asked for by the procedure at", self.template.span)],
            unit=self.unit.number,
        )

    def blocks(self, steps: list[StepTemplate]) -> Iterable[Block]:
        for number, step in enumerate(steps, start=1):
            for caution in self.template.cautions:
                if caution.guards == step.id and self.applies(caution.when):
                    yield self.caution(caution)
            text = self.text(step.text)
            yield Step(text.id, number, text, self.timer(step.timer))

    def timer(self, asked: TimerTemplate | None) -> Timer | None:
        """Return the timer with the limits that are on record.

        A countdown whose time is not on record measures, and judges nothing: its limits are
        those of that time.
        """
        if asked is None or not self.applies(asked.when):
            return None
        known = [e for e in asked.limits if e.fact in self.unit.facts and self.applies(e.when)]
        limits = tuple(TimerLimit(each.bound, each.fact, each.rig) for each in known)
        if asked.time is None or asked.time in self.unit.facts:
            return Timer(asked.kind, asked.time, asked.reading, limits, asked.span)
        if asked.reading is None:
            return None
        return Timer(TimerKind.STOPWATCH, None, asked.reading, (), asked.span)

    def caution(self, caution: CautionTemplate) -> Caution:
        id_ = f"{self.template.id}.cautions.{caution.id}"
        return Caution(
            id=id_,
            signal=caution.signal,
            hazard=self.text(caution.hazard),
            consequence=self.text(caution.consequence),
            avoid=self.text(caution.avoid),
            guards=f"{self.template.id}.steps.{caution.guards}",
        )

    def outcomes(self, outcomes: Iterable[OutcomeTemplate]) -> Iterable[Text]:
        return [self.text(outcome.text) for outcome in outcomes if self.applies(outcome.when)]

    def text(self, template: TextTemplate) -> Text:
        parts = tuple(
            part if isinstance(part, Words) else self.reference(part, template)
            for part in template.parts
        )
        return Text(template.id, parts, template.span)

    def reference(self, placeholder: Placeholder, template: TextTemplate) -> FactRef:
        name = placeholder.fact
        if name not in self.unit.facts:
            self.report_missing(placeholder, template)
        return FactRef(name)

    def report_missing(self, placeholder: Placeholder, template: TextTemplate) -> None:
        name, number = placeholder.fact, self.unit.number
        section = FACTS[name].section
        if KnownOf(self.unit).fitted(section) is False:
            self.findings.add(
                rules.FACT_OF_THING_NOT_FITTED,
                placeholder.span,
                what=f"`{template.id}` prints `{name}`, and {number} has no `{section}`",
                fix=f"add `when: fitted({section})` to it",
                unit=number,
            )
            return
        self.findings.add(
            rules.FACT_NOT_ON_RECORD,
            placeholder.span,
            what=f"`{template.id}` prints `{name}`, which {number} does not state",
            fix=f"look it up at the truck and add it to its section `{section}`, or add "
            f"`when: on_record({name})` if the step can do without",
            notes=[Note(f"{number} stands at", self.unit.span)],
            unit=number,
        )
