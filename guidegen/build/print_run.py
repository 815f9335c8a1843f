"""From an order for cards to files.

Takes in what to print and where; gives out the files that were written.
Refuses half a set: a unit's cards are written when all of them could be drawn and are proved, and
sheets when each of these cards lies on them as it was proved.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from guidegen.build import rules
from guidegen.build.card_press import (
    CardJob,
    FiledCard,
    UnitCards,
    batches_of,
    is_proved,
    print_batch,
)
from guidegen.build.cluster import NoCluster
from guidegen.build.off_card import OffCard
from guidegen.build.parcel import CannotTravel, Parcel
from guidegen.build.photos_off_cards import off_card_findings
from guidegen.build.print_issue import dated
from guidegen.build.print_shop import PrintShop
from guidegen.build.progress import Progress, unseen
from guidegen.build.whole_file import write_whole
from guidegen.build.workers import InLine, Lost, Workers
from guidegen.decks.model import CardKind
from guidegen.decks.sizes import SIDES, Side
from guidegen.finding import Findings
from guidegen.paper.boxes import count_pages
from guidegen.paper.impose import impose
from guidegen.paper.stock import Printing
from guidegen.paper_proof.imposed_claims import ImposedOrder, ProvedCard
from guidegen.paper_proof.prove import prove_booklet
from guidegen.paper_proof.prove_imposed import prove_imposed


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
    kinds: Mapping[str, tuple[CardKind, ...]] = field(default_factory=dict)
    """Of the cards that are in their place, by number of the truck."""

    def as_json(self) -> dict[str, Any]:
        """Return it as records that JSON can hold."""
        files = [path.as_posix() for path in self.files]
        return {"cards": self.cards, "sides": self.sides, "files": files}

    def as_text(self) -> str:
        """Return it for a terminal."""
        return f"{self.cards:,} cards, {self.sides:,} sides, {len(self.files):,} files"


def print_cards(
    shop: PrintShop,
    order: PrintOrder,
    findings: Findings,
    progress: Progress = unseen,
    workers: Workers | None = None,
) -> PrintRun:
    """Draw all that *order* asks for; write a unit's cards when all of them are drawn and proved.

    A file is replaced as a whole: nobody ever prints half of one. Trucks of one edition are drawn
    one after another, since what they share is then laid out once; what is laid on sheets keeps
    the order that was asked for.

    Args:
        shop: What prints.
        order: What is asked for.
        findings: Takes what is found, in the order of the units that was asked for.
        progress: Shows how far the work has come.
        workers: Who draws and proves; this process if nobody is named. All give the same files.

    Raises:
        NoCluster: If the work is a cluster's, and it cannot be used or is gone.
    """
    units = shop.by_edition(order.units)
    printed: dict[str, _Printed] = {}
    counted = progress(units, len(units), "drawing cards")
    made = made_cards(shop, order.kinds, units, workers or InLine())
    for unit, _ in zip(made, counted, strict=True):
        printed[unit.number] = _filed(unit, order)
    in_order = [printed[number] for number in dict.fromkeys(order.units)]
    for each in in_order:
        findings.extend(each.findings)
    off = ((number, each) for number in order.units for each in printed[number].off_cards)
    findings.extend(off_card_findings(dict.fromkeys(off), shop.loaded))
    files = [path for each in in_order for path in each.files]
    drawn = [card for each in in_order for card in each.drawn]
    if order.printing is not None and drawn:
        caption = f"{shop.loaded.fleet.name}, {dated(shop.loaded)}"
        sheets = impose([card.as_drawn() for card in drawn], caption, order.printing, findings)
        name = f"sheets-{order.printing.stock.id}.pdf"
        if sheets is not None:
            asked = imposed_order(shop, drawn, order.printing, name, caption)
            if is_proved(prove_imposed(sheets, asked), findings):
                files.append(write_whole(order.folder / name, sheets))
    cards = sum(each.cards for each in in_order)
    sides = sum(each.sides for each in in_order)
    kinds = {number: printed[number].kinds for number in dict.fromkeys(order.units)}
    return PrintRun(tuple(files), cards, sides, kinds)


def print_booklet(
    shop: PrintShop, number: str, stock: Side, path: Path, findings: Findings
) -> int | None:
    """Write the booklet of the unit *number* to *path*; return how many pages it has.

    If it has faults nothing is returned, and no file is touched.
    """
    pdf = shop.booklet(number, stock, findings)
    if pdf is None or not is_proved(
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
    kinds: tuple[CardKind, ...] = ()
    drawn: tuple[FiledCard, ...] = ()
    """Kept only if they are to be laid on sheets: a big fleet's cards would fill the memory."""

    off_cards: tuple[OffCard, ...] = ()


def made_cards(
    shop: PrintShop, kinds: tuple[CardKind, ...], units: Sequence[str], workers: Workers
) -> Iterator[UnitCards]:
    """Yield what came of the cards of *kinds* of each of *units*, in their order.

    Raises:
        NoCluster: If the work is a cluster's, and it cannot be used or is gone.
    """
    if isinstance(workers, InLine):
        # One by one, so that each is on the disk before the next is drawn.
        job = CardJob(shop.loaded, kinds, None, shop)
        batches: Iterable[tuple[str, ...]] = ((number,) for number in units)
    else:
        loaded = replace(shop.loaded, units=shop.loaded.units.none())
        try:
            job = CardJob(loaded, kinds, Parcel.of(shop.project), None)
        except CannotTravel as stays:
            raise NoCluster(str(stays)) from stays
        batches = batches_of(units, shop.loaded)
    for done in workers.run(print_batch, job, batches):
        if isinstance(done.result, Lost):
            for number in done.task:
                yield UnitCards(number, _lost(number, done.result))
        else:
            yield from done.result


def _filed(unit: UnitCards, order: PrintOrder) -> _Printed:
    return _Printed(
        unit.findings,
        tuple(write_whole(order.folder / card.path, card.pdf) for card in unit.cards),
        len(unit.cards),
        unit.sides,
        tuple(card.kind for card in unit.cards),
        unit.cards if order.printing is not None else (),
        unit.off_cards,
    )


def _lost(number: str, lost: Lost) -> Findings:
    findings = Findings()
    findings.add(
        rules.UNIT_BROKEN,
        None,
        what=f"the cards of {number} could not be made: {lost.why}",
        fix="try again with `--workers 1`, which tells more; if that fails too, report it",
        unit=number,
        place=f"specs/units/{number}.yml",
    )
    return findings


def imposed_order(
    shop: PrintShop, drawn: Sequence[FiledCard], printing: Printing, name: str, caption: str
) -> ImposedOrder:
    """Return what sheets with the cards *drawn* are held against."""
    guides = shop.loaded.guides
    cards = tuple(
        ProvedCard(card.name, shop.issue(guides[card.unit]).link, card.pdf) for card in drawn
    )
    return ImposedOrder(name, cards, SIDES[printing.stock.id], printing.duplex.value, caption)
