"""What a proof is made of.

Takes in nothing; gives out claims, readings, failures and verdicts as frozen values.
Refuses a failure without a rule, and a verdict on a fleet that keeps quiet about what was not
checked.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from functools import cached_property
from operator import attrgetter
from typing import NamedTuple

from guidegen.finding import Finding, Rule
from guidegen.pickling import numerous
from guidegen.proof.marks import Mark
from guidegen.source import Span


class Within(NamedTuple):
    """The elements of a page that a text stands in, by what they are marked as."""

    procedure: str = ""
    caution: str = ""
    row: str = ""
    figure: str = ""
    difference: str = ""
    truck: str = ""
    stop: str = ""
    waiting: str = ""
    question: str = ""
    answer: str = ""
    key: str = ""
    revision: str = ""
    pick: str = ""
    color: str = ""
    tile: str = ""
    timer: str = ""
    line: str = ""
    photo: str = ""


class Drawn(NamedTuple):
    """One element of a drawing as it stands, without the mark and words of writing."""

    tag: str
    attributes: tuple[tuple[str, str], ...]
    """In the order of their names."""


class Drawing(NamedTuple):
    """All elements of one drawing, in order: what stands later lies over what stands before."""

    within: Within
    parts: tuple[Drawn, ...]
    hidden: str
    """What keeps a person from seeing any of it."""


class PictureRead(NamedTuple):
    """One picture as it stands."""

    within: Within
    step: str
    """Id of the step whose element it stands in."""

    drawn: Drawn
    hidden: str
    """What keeps a person from seeing it."""


class Claim(NamedTuple):
    """A text that a page must show, by its mark and where it stands."""

    mark: Mark
    key: str
    within: Within


class ValueRead(NamedTuple):
    """A value inside a text, as a person sees it."""

    fact: str
    text: str
    hidden: str


class ValueThere(NamedTuple):
    """A value that stands on a page, or the words for where it comes from."""

    mark: Mark
    fact: str
    text: str
    """What a person sees, white space folded."""


class Reading(NamedTuple):
    """A marked text, as a person sees it."""

    claim: Claim
    pieces: tuple[str | ValueRead, ...]
    step: str
    """Id of the step whose element it stands in."""

    hidden: str
    """What keeps a person from seeing it; empty if nothing does."""

    link: str
    """Address of the link that it is part of."""

    @property
    def text(self) -> str:
        """All of it, white space folded."""
        return " ".join(
            "".join(
                [piece if isinstance(piece, str) else piece.text for piece in self.pieces]
            ).split()
        )


@dataclass(frozen=True, slots=True)
class Failure:
    """One thing that a published file does not say, or should not say."""

    rule: Rule
    unit: str
    """Number of the unit; empty if it concerns all."""

    page: str
    """Path of the file, from the root of the site."""

    what: str
    """One clause, values in backticks; lower case, no full stop."""

    fix: str
    span: Span | None = None
    """Where the template or the spec states what should have been read."""

    mark: str = ""
    """Where on the page: ``data-text="air-build-up.title"``."""

    @property
    def place(self) -> str:
        """Where the spec or template stands; empty if no one of them is concerned."""
        return self.span.place if self.span else ""

    def as_finding(self) -> Finding:
        """Return it as a finding at the place in the spec or template."""
        where = f"{self.page}, {self.mark}" if self.mark else self.page
        what = f"{where}: {self.what}" if self.span else self.what
        return Finding(self.rule, self.span, what, self.fix, (), self.unit, where)


@numerous
@dataclass(frozen=True, slots=True)
class Counts:
    """How much was proved."""

    pages: int = 0
    procedures: int = 0
    steps: int = 0
    cautions: int = 0
    values: int = 0
    """Values read back, wherever they stand."""

    labels: int = 0
    """Fixed words read back: labels, headings, states, stations, sources, links."""

    differences: int = 0
    """Differences from other trucks read back, each as a whole."""

    stops: int = 0
    """Stops of inspection rounds read back, each as a whole."""

    questions: int = 0
    """Questions of quizzes read back, each with its answers and its row of the key."""

    revisions: int = 0
    """Revisions read back on start pages, each with all that changed."""

    lamps: int = 0
    """Lamps of lamp finders read back, each with symbol, name, act and the way to its text."""

    photos: int = 0
    """Photos held against the bytes that were made of them, each once for every page."""

    packed: int = 0
    """Files of packs whose hashes were taken anew, each once for every pack that lists it."""

    def __add__(self, other: "Counts") -> "Counts":
        """Return both together."""
        return total((self, other))


numbers_of = attrgetter(*(each.name for each in fields(Counts)))
"""Returns the numbers of one `Counts`, in the order of its fields."""


def total(several: Iterable[Counts]) -> Counts:
    """Return all of *several* together."""
    columns = zip(*map(numbers_of, several), strict=True)
    return Counts(*map(sum, columns))


class FrameRead(NamedTuple):
    """What stands around the body of a page, for comparing with other trucks' pages."""

    kind: str
    """``start``, ``round``, ``lamp_finder``, ``chapter``, ``data``, ``quiz``, ``differences``,
    ``from`` or ``search``."""

    page: str
    """Path from the unit's folder."""

    digest: str
    """Of all that is not the truck's own."""


class Target(NamedTuple):
    """Where a link in a unit's folder leads within that folder."""

    path: str
    """From the unit's folder."""

    fragment: str
    address: str
    """As it stands."""


@dataclass(frozen=True, slots=True)
class FileVerdict:
    """What the proof found of one file of one unit."""

    counts: Counts
    failures: tuple[Failure, ...]
    kind: str
    """As of `FrameRead`."""

    digest: str
    """As of `FrameRead`; empty if the file could not be read."""

    ids: frozenset[str] = frozenset()
    """Places that links can lead to."""

    targets: tuple[Target, ...] = ()
    """Links to files of the unit's own folder, whether these are there or not."""

    loads: tuple[str, ...] = ()
    """What a browser asks for by itself when it opens the file: ``./`` and a path in the unit's
    own folder, or a path from the root of the site."""

    words: bytes = b""
    """All in it that could be an identity, but for what is stamped into it; as of
    `guidegen.proof.words_held`."""


@numerous
@dataclass(frozen=True, slots=True)
class UnitVerdict:
    """What the proof found of one truck's guide."""

    unit: str
    edition: str
    counts: Counts
    failures: tuple[Failure, ...]
    frames: tuple[FrameRead, ...]
    """The same value for all units of an edition, so that a list of verdicts is stored small."""

    words: bytes = b""
    """All in its files that could be an identity, as of `guidegen.proof.words_held`: what says
    whether a truck that comes later could be named there. Empty if there are failures."""

    @property
    def is_proved(self) -> bool:
        """Whether the guide may be published."""
        return not self.failures


@dataclass(frozen=True)
class FleetVerdict:
    """What the proof found of all guides and of the site around them."""

    # Without slots: what all trucks come to together is asked for again and again, and kept.

    units: tuple[UnitVerdict, ...]
    failures: tuple[Failure, ...]
    """Those that concern no one truck, or only the trucks among each other."""

    unchecked: tuple[str, ...]

    @cached_property
    def counts(self) -> Counts:
        """How much was proved of all trucks together."""
        return total(unit.counts for unit in self.units)

    @cached_property
    def all_failures(self) -> tuple[Failure, ...]:
        """Every failure, those of the trucks first."""
        return (*(each for unit in self.units for each in unit.failures), *self.failures)

    @property
    def is_proved(self) -> bool:
        """Whether all of it may be published."""
        return not self.all_failures
