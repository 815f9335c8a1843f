"""From an order for cards to files.

Takes in what to print and where; gives out the files that were written.
Refuses half a set: a unit's cards are written when all of them could be drawn and are proved, and
sheets when each of these cards lies on them as it was proved.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guidegen.build.print_issue import dated
from guidegen.build.print_shop import PrintedCard, PrintShop
from guidegen.build.progress import Progress, unseen
from guidegen.decks.model import CardKind
from guidegen.decks.sizes import SIDES, Side
from guidegen.finding import Findings
from guidegen.paper.boxes import count_pages
from guidegen.paper.impose import impose
from guidegen.paper.stock import Printing
from guidegen.paper_proof.imposed_claims import ImposedOrder, ProvedCard
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_booklet, prove_cards
from guidegen.paper_proof.prove_imposed import prove_imposed
from guidegen.paper_proof.siblings import ProvedCards


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
    """Draw all that *order* asks for; write a unit's cards when all of them are drawn and proved.

    A file is replaced as a whole: nobody ever prints half of one. Trucks of one edition are drawn
    one after another, since what they share is then laid out once; what is laid on sheets keeps
    the order that was asked for.
    """
    units = shop.by_edition(order.units)
    printed: dict[str, _Printed] = {}
    known = ProvedCards()
    for number in progress(units, len(units), "drawing cards"):
        printed[number] = _print_unit(shop, order, number, known)
    in_order = [printed[number] for number in dict.fromkeys(order.units)]
    for each in in_order:
        findings.extend(each.findings)
    files = [path for each in in_order for path in each.files]
    drawn = [card for each in in_order for card in each.drawn]
    if order.printing is not None and drawn:
        caption = f"{shop.loaded.fleet.name}, {dated(shop.loaded)}"
        sheets = impose([card.as_drawn() for card in drawn], caption, order.printing, findings)
        name = f"sheets-{order.printing.stock.id}.pdf"
        if sheets is not None:
            asked = _imposed_order(shop, drawn, order.printing, name, caption)
            if _is_proved(prove_imposed(sheets, asked), findings):
                files.append(write_whole(order.folder / name, sheets))
    cards = sum(each.cards for each in in_order)
    sides = sum(each.sides for each in in_order)
    return PrintRun(tuple(files), cards, sides)


def print_booklet(
    shop: PrintShop, number: str, stock: Side, path: Path, findings: Findings
) -> int | None:
    """Write the booklet of the unit *number* to *path*; return how many pages it has.

    If it has faults nothing is returned, and no file is touched.
    """
    pdf = shop.booklet(number, stock, findings)
    if pdf is None or not _is_proved(
        prove_booklet(pdf, shop.order(number, stock), shop.logo), findings
    ):
        return None
    write_whole(path, pdf)
    return count_pages(pdf)


@dataclass(frozen=True, slots=True)
class _Printed:
    """What was printed for one unit."""

    findings: Findings
    files: tuple[Path, ...] = ()
    cards: int = 0
    sides: int = 0
    drawn: tuple[PrintedCard, ...] = ()
    """Kept only if they are to be laid on sheets: a big fleet's cards would fill the memory."""


def _print_unit(shop: PrintShop, order: PrintOrder, number: str, known: ProvedCards) -> _Printed:
    own = Findings()
    printed = list(shop.cards(number, order.kinds, own))
    guide = shop.loaded.guides[number]
    drawn = ((each.card, each.pdf) for each in printed)
    if own.has_errors:
        return _Printed(own)
    verdict = prove_cards(drawn, guide, shop.issue(guide), known, shop.logo)
    if not _is_proved(verdict, own):
        return _Printed(own)
    return _Printed(
        own,
        tuple(write_whole(order.folder / card.path, card.pdf) for card in printed),
        len(printed),
        verdict.counts.sides,
        tuple(printed) if order.printing is not None else (),
    )


def _imposed_order(
    shop: PrintShop, drawn: Sequence[PrintedCard], printing: Printing, name: str, caption: str
) -> ImposedOrder:
    """Return what sheets with the cards *drawn* are held against."""
    guides = shop.loaded.guides
    cards = tuple(
        ProvedCard(card.name, shop.issue(guides[card.unit]).link, card.pdf) for card in drawn
    )
    return ImposedOrder(name, cards, SIDES[printing.stock.id], printing.duplex.value, caption)


def _is_proved(verdict: PaperVerdict, findings: Findings) -> bool:
    findings.extend(failure.as_finding() for failure in verdict.failures)
    return verdict.is_proved


def write_whole(path: Path, content: bytes) -> Path:
    """Write *content* to *path* beside the old file, then put it in its place; return the path."""
    path.parent.mkdir(parents=True, exist_ok=True)
    staged = path.with_name(f".{path.name}.new")
    staged.write_bytes(content)
    staged.replace(path)
    return path
