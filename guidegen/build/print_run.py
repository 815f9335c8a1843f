"""From an order for cards to files.

Takes in what to print and where; gives out the files that were written.
Refuses half a set: a unit's cards are written when all of them could be drawn.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guidegen.build.print_shop import PrintShop
from guidegen.build.progress import Progress, unseen
from guidegen.decks.model import CardKind
from guidegen.finding import Findings
from guidegen.paper.boxes import count_pages
from guidegen.paper.impose import DrawnCard, impose
from guidegen.paper.stock import Printing


@dataclass(frozen=True, slots=True)
class PrintOrder:
    """What to print, and where to put it."""

    units: tuple[str, ...]
    kinds: tuple[CardKind, ...]
    folder: Path
    printing: Printing | None
    """Stock and duplex of the sheets that all cards are laid on; none for cards alone."""


@dataclass(frozen=True, slots=True)
class PrintRun:
    """What was printed."""

    files: tuple[Path, ...]
    cards: int
    sides: int

    def as_json(self) -> dict[str, Any]:
        """Return it as records that JSON can hold."""
        files = [path.as_posix() for path in self.files]
        return {"cards": self.cards, "sides": self.sides, "files": files}

    def as_text(self) -> str:
        """Return it for a terminal."""
        return f"{self.cards:,} cards, {self.sides:,} sides, {len(self.files):,} files"


def print_cards(
    shop: PrintShop, order: PrintOrder, findings: Findings, progress: Progress = unseen
) -> PrintRun:
    """Draw all that *order* asks for; write a unit's cards when all of them could be drawn.

    A file is replaced as a whole: nobody ever prints half of one.
    """
    files: list[Path] = []
    drawn: list[DrawnCard] = []
    sides = 0
    for number in progress(order.units, len(order.units), "drawing cards"):
        own = Findings()
        printed = list(shop.cards(number, order.kinds, own))
        findings.extend(own)
        if own.has_errors:
            continue
        for card in printed:
            files.append(write_whole(order.folder / card.path, card.pdf))
            sides += count_pages(card.pdf)
            drawn.append(card.as_drawn())
    if order.printing is not None and drawn:
        caption = f"{shop.loaded.fleet.name}, {shop.loaded.fleet.issued}"
        sheets = impose(drawn, caption, order.printing, findings)
        if sheets is not None:
            name = f"sheets-{order.printing.stock.id}.pdf"
            files.append(write_whole(order.folder / name, sheets))
    return PrintRun(tuple(files), len(drawn), sides)


def write_whole(path: Path, content: bytes) -> Path:
    """Write *content* to *path* beside the old file, then put it in its place; return the path."""
    path.parent.mkdir(parents=True, exist_ok=True)
    staged = path.with_name(f".{path.name}.new")
    staged.write_bytes(content)
    staged.replace(path)
    return path
