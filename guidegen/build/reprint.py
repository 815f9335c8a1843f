"""Cards that are out of date, and one PDF of them.

Takes in what prints a fleet's cards, and the record of printings; gives out which cards are out of
date, and writes those on sheets. Refuses half a file: if one card has faults or is not proved,
nothing is written.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.build.card_press import FiledCard, is_proved
from guidegen.build.off_card import OffCard
from guidegen.build.photos_off_cards import off_card_findings
from guidegen.build.print_issue import dated
from guidegen.build.print_record import Desk
from guidegen.build.print_run import PrintRun, imposed_order, made_cards, write_whole
from guidegen.build.print_shop import PrintShop
from guidegen.build.printing_files import Decks
from guidegen.build.progress import Progress, unseen
from guidegen.build.workers import InLine, Workers
from guidegen.decks.model import CardKind
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.paper.impose import impose
from guidegen.paper.stock import Printing
from guidegen.paper_proof.prove_imposed import prove_imposed
from guidegen.printings.model import InCab, PrintRecord
from guidegen.printings.outdated import Judged, Outdated, judge


@dataclass(frozen=True, slots=True)
class SheetOrder:
    """Which cards to lay on sheets, and where to write these."""

    kinds: Mapping[str, tuple[CardKind, ...]]
    """Of the cards, by number of the truck; at least one."""

    path: Path
    printing: Printing
    """Stock, and how the printer turns it."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Which trucks are asked about; all if none and no yard is named."""

    units: tuple[str, ...] = ()
    yards: tuple[str, ...] = ()

    def takes(self, unit: str, yard: str) -> bool:
        """Whether the truck *unit*, whose place is *yard*, is asked about."""
        return (not self.units or unit in self.units) and (not self.yards or yard in self.yards)


def judge_cards(desk: Desk, record: PrintRecord, asked: Asked, findings: Findings) -> Judged:
    """Return which cards on record are out of date; *findings* take files that are damaged."""
    loaded = desk.shop.loaded
    named = [unit for unit in loaded.guides if not asked.units or unit in asked.units]
    hung = record.in_cabs()
    read = {unit: desk.now(unit, _sizes(hung, unit)) for unit in desk.shop.by_edition(named)}
    now = {unit: cards for unit, cards in read.items() if asked.takes(unit, cards.yard)}
    cabs = {
        unit: cards
        for unit, cards in hung.items()
        if unit in now or (unit not in read and asked.takes(unit, _yard_of(cards)))
    }
    project = desk.shop.project
    # A truck whose file cannot be read is held back, and has not retired.
    files = {path.stem for _, path in project.spec_paths("units")}
    return judge(cabs, {*loaded.unit_numbers, *files}, now, Decks(project, findings).kept)


def _sizes(hung: Mapping[str, Mapping[str, InCab]], unit: str) -> Mapping[str, str]:
    """Return the sizes of the cards that hang in the cab of *unit*, by id."""
    return {id_: each.card.size for id_, each in hung.get(unit, {}).items()}


def _yard_of(cards: Mapping[str, InCab]) -> str:
    """Return where a truck had its place when the newest of its cards were printed."""
    return max((each.printing for each in cards.values()), key=lambda each: each.date).yard


def kinds_of(
    shop: PrintShop, cards: Iterable[Outdated], findings: Findings
) -> Mapping[str, tuple[CardKind, ...]]:
    """Return the kinds of *cards* by number of the truck, each in the size to print it in.

    A card that was printed in another size than the fleet states is printed in that size again.
    """
    known = {kind.id: kind for kind in shop.kinds}
    decks = Decks(shop.project, findings)
    kinds: dict[str, tuple[CardKind, ...]] = {}
    for each in cards:
        kind = _sized(known[each.card], each.hangs, decks)
        kinds[each.unit] = (*kinds.get(each.unit, ()), kind)
    return kinds


def print_together(
    shop: PrintShop,
    order: SheetOrder,
    findings: Findings,
    progress: Progress = unseen,
    workers: Workers | None = None,
) -> PrintRun | None:
    """Write cards on sheets as one PDF; return what was printed, or nothing if there are faults.

    Args:
        shop: What prints.
        order: What is asked for.
        findings: Takes what is found.
        progress: Shows how far the work has come.
        workers: Who draws and proves; this process if nobody is named.

    Raises:
        NoCluster: If the work is a cluster's, and it cannot be used or is gone.
    """
    own, kinds = Findings(), order.kinds
    drawn: dict[str, tuple[FiledCard, ...]] = {}
    off: list[tuple[str, OffCard]] = []
    sides = 0
    for wanted, numbers in _by_kinds(kinds):
        units = shop.by_edition(numbers)
        counted = progress(units, len(units), "drawing cards")
        made = made_cards(shop, wanted, units, workers or InLine())
        for unit, _ in zip(made, counted, strict=True):
            own.extend(unit.findings)
            drawn[unit.number] = unit.cards
            off += ((unit.number, each) for each in unit.off_cards)
            sides += unit.sides
    findings.extend(own)
    findings.extend(off_card_findings(off, shop.loaded))
    cards = [card for number in kinds for card in drawn[number]]
    if own.has_errors or not cards:
        return None
    caption = f"{shop.loaded.fleet.name}, {dated(shop.loaded)}"
    sheets = impose([card.as_drawn() for card in cards], caption, order.printing, findings)
    if sheets is None:
        return None
    asked = imposed_order(shop, cards, order.printing, order.path.name, caption)
    if not is_proved(prove_imposed(sheets, asked), findings):
        return None
    path = write_whole(order.path, sheets)
    printed = {number: tuple(card.kind for card in drawn[number]) for number in kinds}
    return PrintRun((path,), len(cards), sides, printed)


def _by_kinds(
    kinds: Mapping[str, tuple[CardKind, ...]],
) -> Iterable[tuple[tuple[CardKind, ...], Sequence[str]]]:
    """Return trucks of which the same cards are asked for together."""
    alike: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for number, wanted in kinds.items():
        alike.setdefault(tuple((kind.id, kind.side.id) for kind in wanted), []).append(number)
    return [(kinds[numbers[0]], numbers) for numbers in alike.values()]


def _sized(kind: CardKind, hangs: InCab | None, decks: Decks) -> CardKind:
    if hangs is None or hangs.card.size not in SIDES:
        return kind
    deck = decks.kept(hangs.printing.deck)
    stated = deck.cards[kind.id].size if deck and kind.id in deck.cards else hangs.card.size
    return kind if hangs.card.size == stated else replace(kind, side=SIDES[hangs.card.size])
