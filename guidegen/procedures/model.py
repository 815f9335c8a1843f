"""What a procedure template is.

Takes in parsed texts and conditions; gives out frozen templates in the order of their file.
Refuses to know any truck: values are placeholders that name facts.
"""

import enum
from dataclasses import dataclass

from guidegen.procedures.condition_model import Condition
from guidegen.procedures.timer_kinds import Bound, ReadingKind, Rig, TimerKind
from guidegen.source import Span


class Signal(enum.Enum):
    """Signal words of ANSI Z535.6 (2007 and later), gravest first."""

    DANGER = "DANGER"
    """Will cause death or serious injury if not avoided."""

    WARNING = "WARNING"
    """Could cause death or serious injury."""

    CAUTION = "CAUTION"
    """Could cause minor or moderate injury."""

    NOTICE = "NOTICE"
    """Damage, no injury; carries no safety alert symbol."""


@dataclass(frozen=True, slots=True)
class Words:
    """A stretch of text as written."""

    text: str


@dataclass(frozen=True, slots=True)
class Placeholder:
    """Where a fact's value goes."""

    fact: str
    """Dotted name of the fact."""

    span: Span


@dataclass(frozen=True, slots=True)
class TextTemplate:
    """One text with a stable id, so that a translation can stand beside it."""

    id: str
    """Such as ``air-build-up.steps.start-engine``."""

    parts: tuple[Words | Placeholder, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class StateTemplate:
    """One part of the state that the truck must be in, from a closed list."""

    aspect: str
    """Such as ``engine``."""

    state: str
    """Such as ``off_cold``."""

    span: Span


@dataclass(frozen=True, slots=True)
class CautionTemplate:
    """A safety message."""

    id: str
    signal: Signal
    guards: str
    """Id of the step that it stands before."""

    hazard: TextTemplate
    consequence: TextTemplate
    avoid: TextTemplate
    when: Condition | None
    span: Span


@dataclass(frozen=True, slots=True)
class TimerLimitTemplate:
    """What a timer is judged by, on the trucks that a condition names."""

    bound: Bound
    fact: str
    """Dotted name of the fact."""

    rig: Rig | None
    """What it is for; none if it is for any."""

    when: Condition | None
    span: Span


@dataclass(frozen=True, slots=True)
class TimerTemplate:
    """What is timed while a step is done."""

    kind: TimerKind
    time: str | None
    """Dotted name of the fact that a countdown runs for."""

    reading: ReadingKind | None
    limits: tuple[TimerLimitTemplate, ...]
    when: Condition | None
    span: Span


@dataclass(frozen=True, slots=True)
class StepTemplate:
    """One instruction."""

    id: str
    text: TextTemplate
    when: Condition | None
    span: Span
    timer: TimerTemplate | None = None


@dataclass(frozen=True, slots=True)
class OutcomeTemplate:
    """What should be seen, or what to do if it is not."""

    text: TextTemplate
    when: Condition | None


class RoundPart(enum.Enum):
    """What a procedure is to the inspection round."""

    FIRST = "first"
    """A check that comes before every other, such as parking."""

    CHECK = "check"
    """Done once in the round."""

    MEANS = "means"
    """Done as often as a check needs the state that it leaves, such as opening the hood."""


@dataclass(frozen=True, slots=True)
class RoundStates:
    """States that hold together, on the trucks that a condition names."""

    states: tuple[StateTemplate, ...]
    when: Condition | None


@dataclass(frozen=True, slots=True)
class LaterTemplate:
    """A step that is done after other checks, such as shutting the hood again."""

    step: str
    """Id of a step of the same procedure."""

    leaves: tuple[RoundStates, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class RoundTemplate:
    """The place of a procedure in the inspection round."""

    part: RoundPart
    needs: tuple[RoundStates, ...]
    """What must hold in the round beyond the procedure's own ``state``."""

    leaves: tuple[RoundStates, ...]
    """What the truck is in when the procedure is done; nothing for a check that only looks."""

    ends: str | None
    """Station where the driver stands at its end; none if that is the procedure's own."""

    later: LaterTemplate | None
    span: Span


@dataclass(frozen=True, slots=True)
class LampSign:
    """The lamp that a procedure is about."""

    id: str
    """As spec files name it."""

    color: str
    """Key of ``LAMP_COLORS``."""

    act: str
    """Key of ``LAMP_ACTS``."""


@dataclass(frozen=True, slots=True)
class FigureTemplate:
    """A drawing that a procedure asks for."""

    kind: str
    """Key of ``FIGURE_KINDS``."""

    when: Condition | None
    span: Span


@dataclass(frozen=True, slots=True)
class StationTemplate:
    """Where the driver stands on the trucks that a condition names."""

    station: str
    when: Condition
    span: Span


@dataclass(frozen=True, slots=True)
class ProcedureTemplate:
    """Steps toward one end, for any truck."""

    id: str
    """The same as the file's name."""

    title: TextTemplate
    chapter: str
    applies: Condition | None
    """None if it applies to every truck."""

    state: tuple[StateTemplate, ...]
    station: str
    """Where the driver stands, from a closed list, if none of ``stations`` holds; empty for house
    rules, which hold everywhere."""

    cautions: tuple[CautionTemplate, ...]
    steps: tuple[StepTemplate, ...]
    expect: tuple[OutcomeTemplate, ...]
    if_not: tuple[OutcomeTemplate, ...]
    references: tuple[str, ...]
    """Where the trade or the law says so; shown to the office, not to the driver."""

    span: Span
    lamp: LampSign | None = None
    """Set if it says what a lamp means and asks for; its *expect* then is the meaning."""

    figure: FigureTemplate | None = None
    """A lamp has its symbol without asking."""
    stations: tuple[StationTemplate, ...] = ()
    """Where he stands on some trucks; the first that holds counts."""

    round: RoundTemplate | None = None
    """None if it is no part of the inspection round."""
