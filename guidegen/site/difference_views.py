"""What the templates of the difference pages are given.

Takes in nothing; gives out the shapes of the views, one for each template.
Refuses logic: a template loops over these and places their words.
"""

from dataclasses import dataclass

from guidegen.site.views import CautionView, FactView, Link, PageHead, TextView, Worded


@dataclass(frozen=True, slots=True)
class ChoiceView:
    """A truck that the driver may know."""

    number: str
    href: str
    name: tuple[FactView, ...]
    """Year, make, model, body: as far as they are on record."""

    alike: tuple[str, ...]
    """Numbers of units with the same guide."""


@dataclass(frozen=True, slots=True)
class PickerView:
    """For ``differences.html.j2``."""

    head: PageHead
    choices: tuple[ChoiceView, ...]
    same_guide: tuple[str, ...]
    """Numbers of units with the same guide as the page's own."""

    stands_for_edition: bool
    """Whether each truck stands for others that are not named."""

    onward: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class SheetHead:
    """What the container of a sheet carries."""

    number: str
    edition: str
    known_number: str
    known_edition: str


@dataclass(frozen=True, slots=True)
class AnswerView:
    """What one of the two trucks has: a fixed word, or the value of a fact."""

    label: str = ""
    """Key of ``LABELS``; empty for a value."""

    fact: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class StanceView:
    """Where the driver stands, and the state of the truck."""

    station: Worded
    states: tuple[Worded, ...]


@dataclass(frozen=True, slots=True)
class PartView:
    """A part of a procedure; one of the last three is set."""

    number: int = 0
    """Of a step."""

    role: str = ""
    """Key of ``LABELS`` for what should be seen, or what to do if not."""

    text: TextView | None = None
    caution: CautionView | None = None
    stance: StanceView | None = None


@dataclass(frozen=True, slots=True)
class SideView:
    """Parts of a procedure as they are on one of the two trucks."""

    is_known: bool
    label: str
    """``only_on``, or ``on`` where the other side stands beside it."""

    parts: tuple[PartView, ...]


@dataclass(frozen=True, slots=True)
class RowView:
    """One difference."""

    id: str
    section: Worded | None = None
    fact: Worded | None = None
    lamp: Link | None = None
    """To what it means, or nowhere if the given truck does not have it."""

    link: Link | None = None
    """To the procedure on the given truck's pages."""

    title: TextView | None = None
    """Of a procedure that only the known truck has."""

    known: AnswerView | None = None
    given: AnswerView | None = None
    only: str = ""
    """``known`` or ``given``, where only one truck has it and nothing else is to be said."""

    facts: tuple[FactView, ...] = ()
    """Of a thing that only the given truck has."""

    note: str = ""
    """Key of ``LABELS``."""

    is_reordered: bool = False
    sides: tuple[SideView, ...] = ()


@dataclass(frozen=True, slots=True)
class RunView:
    """Differences that have one reason."""

    reason: Worded
    rows: tuple[RowView, ...]


@dataclass(frozen=True, slots=True)
class RankView:
    """Differences that are as grave as one another."""

    rank: Worded
    runs: tuple[RunView, ...]


@dataclass(frozen=True, slots=True)
class SheetView:
    """For ``sheet.html.j2``."""

    head: SheetHead
    ranks: tuple[RankView, ...]
    onward: tuple[Link, ...]
