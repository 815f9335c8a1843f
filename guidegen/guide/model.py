"""What a guide is: the neutral middle between specs and paper or screen.

Takes in procedures fitted to one unit; gives out chapters, procedures, cautions and steps, with
values as references to facts of the unit. Refuses to know any renderer.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.photos.model import Photo
from guidegen.procedures.model import LampSign, Signal, Words
from guidegen.procedures.timer_kinds import Bound, ReadingKind, Rig, TimerKind
from guidegen.source import Span
from guidegen.units.model import Fact, Identity, SectionState


@dataclass(frozen=True, slots=True)
class FactRef:
    """The value of a fact of the guide's unit."""

    name: str


@dataclass(frozen=True, slots=True)
class Text:
    """One text of the guide."""

    id: str
    """Unique in the guide: ``air-build-up.steps.start-engine``."""

    parts: tuple[Words | FactRef, ...]
    span: Span
    """Where its template stands."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety message, standing right before the step that it guards."""

    id: str
    signal: Signal
    hazard: Text
    consequence: Text
    avoid: Text
    guards: str
    """Id of the step."""


@dataclass(frozen=True, slots=True)
class TimerLimit:
    """What a timer is judged by; its fact is on record."""

    bound: Bound
    fact: str
    """Dotted name."""

    rig: Rig | None
    """What it is for; none if it is for any."""

    @property
    def key(self) -> str:
        """Bound and rig, unique in a timer: ``less_than.truck_alone``."""
        return ".".join([self.bound.value, *([self.rig.value] if self.rig else [])])


@dataclass(frozen=True, slots=True)
class Timer:
    """What is timed while a step is done."""

    kind: TimerKind
    time: str | None
    """Name of the fact that a countdown runs for."""

    reading: ReadingKind | None
    """What the driver reads on a gauge when it has ended."""

    limits: tuple[TimerLimit, ...]
    span: Span

    @property
    def only_measures(self) -> bool:
        """Whether it measures something that no limit is on record for."""
        is_measured = self.kind is TimerKind.STOPWATCH or self.reading is not None
        return is_measured and not self.limits


@dataclass(frozen=True, slots=True)
class Step:
    """One instruction."""

    id: str
    """``air-build-up.steps.start-engine``, the same as its text's."""

    number: int
    """From 1, counted over the steps that apply."""

    text: Text
    timer: Timer | None = None


Block = Caution | Step


def caption_of(photo: Photo) -> Text | None:
    """Return what is printed below *photo*; none if nothing is."""
    return Text(photo.id, (Words(photo.caption),), photo.span) if photo.caption else None


@dataclass(frozen=True, slots=True)
class Procedure:
    """Steps toward one end, fitted to one unit."""

    id: str
    title: Text
    station: str
    """Key of `guidegen.procedures.words.STATIONS`; empty for house rules, which hold everywhere."""

    state: tuple[tuple[str, str], ...]
    """Aspect and state, keys of `guidegen.procedures.words.STATES`."""

    blocks: tuple[Block, ...]
    """Cautions and steps in reading order; a caution comes before its step."""

    expect: tuple[Text, ...]
    if_not: tuple[Text, ...]
    span: Span
    lamp: LampSign | None = None
    """Set if it says what a lamp means and asks for: state and station are then not shown."""

    figure: str | None = None
    """Kind of the drawing that stands before the steps, if one does."""

    photos: tuple[Photo, ...] = ()
    """Pictures of this truck or its model, in the order of the office's list."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """Procedures that belong to one part of the day."""

    id: str
    """Key of `guidegen.procedures.words.CHAPTERS`."""

    procedures: tuple[Procedure, ...]


@dataclass(frozen=True, slots=True)
class Guide:
    """All that is published for one truck."""

    number: str
    facts: Mapping[str, Fact]
    """Every fact of the unit by dotted name, in the catalog's order."""

    sections: Mapping[str, SectionState]
    """Of every thing that a truck can have, by dotted name: whether this one has it."""

    chapters: tuple[Chapter, ...]
    """In the fixed order; a chapter without procedures is not there."""

    edition: str
    """Fingerprint of all but the identity, in hexadecimal: guides that differ in nothing but
    number, VIN, plate and yard share it."""

    def of_unit(self, identity: Identity) -> "Guide":
        """Return the guide of another unit of this edition; all but its identity is shared.

        The units of an edition state the same, each in its own file. Places of facts that are
        not the identity's are those in the file of the unit that the edition was made from;
        whoever shows a place asks `guidegen.build.unit_guides` for the exact one.
        """
        facts = {**self.facts, **{fact.name: fact for fact in identity.facts}}
        return Guide(
            identity.number, MappingProxyType(facts), self.sections, self.chapters, self.edition
        )


STAMPED = ("identity.number", "identity.vin", "identity.plate", "identity.yard")
"""Facts that are stamped into an edition: the only ones in which its units differ."""
