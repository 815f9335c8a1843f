"""Which side of which card stands where on which sheet.

Takes in how many sides each card has, the stock and the edge that sheets are turned on; gives out
sheets with exact places. Refuses leaves that hold two cards, and backs that miss their fronts.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from guidegen.decks.sizes import Side
from guidegen.finding import Findings
from guidegen.paper.rectangle import Rectangle
from guidegen.paper.sheet_grid import Grid, lay_grid
from guidegen.paper.sheet_rules import CARD_TOO_BIG_FOR_SHEET
from guidegen.paper.stock import Printing, behind, turned_behind
from guidegen.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """The sides of one card."""

    name: str
    """As findings call it: ``T-17 air-brakes``."""

    side: Side
    bleed: Decimal
    """Millimeters on each of the four sides."""

    free: Decimal = Decimal(0)
    """Millimeters from the trim inward that nothing is drawn on, nor outside of it; 0 if something
    bleeds, or if nobody knows."""

    sides: int
    """How many there are; side 1 is the first front."""

    span: Span | None = None
    """Where the card is asked for."""


class Sized(Protocol):
    """A card of which is known how big it is."""

    @property
    def name(self) -> str:
        """As findings call it."""

    @property
    def side(self) -> Side:
        """Trimmed."""

    @property
    def span(self) -> Span | None:
        """Where the card is asked for."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One piece that is cut out; it holds one side, or two of the same card."""

    number: int
    """Counted from 1 through the whole plan."""

    stack: int
    """Which of the stacks, counted from 0."""

    pages: tuple[int, ...]
    """Of the stack, counted from 0: the front, and the back if it is not blank."""


@dataclass(frozen=True, slots=True)
class Placement:
    """One side of a card on one face of a sheet."""

    leaf: Leaf
    page: int
    """Of the leaf's stack, counted from 0."""

    trim: Rectangle
    """Where the trimmed card lies, seen as the face is looked at."""

    rotated: int
    """Degrees counterclockwise: 0, 90, 180 or 270."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of stock."""

    number: int
    """Counted from 1."""

    grid: Grid
    faces: tuple[tuple[Placement, ...], ...]
    """The front, and the back if both sides are printed; a back may hold nothing."""

    cuts: tuple[tuple[Rectangle, ...], ...]
    """For each face, the trimmed places of all its leaves, those with a blank back too."""


def plan_sheets(
    stacks: Sequence[Stack], printing: Printing, findings: Findings
) -> tuple[Sheet, ...]:
    """Place every side of *stacks*, each once; what fits no sheet is left out and reported.

    Cards of one size and bleed share sheets, in the order of *stacks*.
    """
    sheets: list[Sheet] = []
    for grid, leaves in _by_grid(stacks, printing, findings).items():
        room = len(grid.places)
        for start in range(0, len(leaves), room):
            sheets.append(_fill(len(sheets) + 1, grid, leaves[start : start + room], printing))
    return tuple(sheets)


def report_too_big(card: Sized, printing: Printing, findings: Findings) -> None:
    """Report that *card* goes on no sheet of *printing*."""
    stock, side = printing.stock, card.side
    findings.add(
        CARD_TOO_BIG_FOR_SHEET,
        card.span,
        what=f"`{card.name}` has the size `{side.id}`, which does not go on `{stock.id}` sheets "
        "together with its trim marks",
        fix=f"print it on stock of its own size, or type a smaller `size` for this card than "
        f"`{side.id}`",
        place=card.name,
    )


def _by_grid(
    stacks: Sequence[Stack], printing: Printing, findings: Findings
) -> dict[Grid, list[Leaf]]:
    shared: dict[Grid, list[Leaf]] = {}
    for leaf in _leaves(stacks, printing.duplex.faces):
        stack = stacks[leaf.stack]
        grid = lay_grid(stack.side, stack.bleed, printing.stock, stack.free)
        if grid is not None:
            shared.setdefault(grid, []).append(leaf)
        elif leaf.pages[0] == 0:
            report_too_big(stack, printing, findings)
    return shared


def _leaves(stacks: Iterable[Stack], faces: int) -> Iterator[Leaf]:
    number = 0
    for which, stack in enumerate(stacks):
        for front in range(0, stack.sides, faces):
            number += 1
            pages = range(front, min(front + faces, stack.sides))
            yield Leaf(number, which, tuple(pages))


def _fill(number: int, grid: Grid, leaves: list[Leaf], printing: Printing) -> Sheet:
    fronts = tuple(
        Placement(leaf, leaf.pages[0], place, grid.rotated)
        for leaf, place in zip(leaves, grid.places, strict=False)
    )
    cuts = tuple(placement.trim for placement in fronts)
    if printing.duplex.faces == 1:
        return Sheet(number, grid, (fronts,), (cuts,))
    rotated = turned_behind(grid.rotated, printing.duplex)
    backs = tuple(
        Placement(front.leaf, front.leaf.pages[1], behind(front.trim, printing), rotated)
        for front in fronts
        if len(front.leaf.pages) > 1
    )
    return Sheet(
        number, grid, (fronts, backs), (cuts, tuple(behind(cut, printing) for cut in cuts))
    )
