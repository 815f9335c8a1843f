"""Cards that are out of date, and one PDF of them.

Takes in what prints a fleet's cards, and the record of printings; gives out which cards are out of
date, writes those on sheets, and says of each that is not there why it is not. Refuses half a card:
one that has faults or is not proved is on no sheet.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from guidegen.build import rules
from guidegen.build.card_press import FiledCard, UnitCards, is_proved
from guidegen.build.off_card import OffCard
from guidegen.build.photos_off_cards import off_card_findings
from guidegen.build.print_issue import dated
from guidegen.build.print_record import Desk
from guidegen.build.print_run import PrintRun, imposed_order, made_cards
from guidegen.build.print_shop import PrintShop
from guidegen.build.printing_files import Decks
from guidegen.build.progress import Progress, unseen
from guidegen.build.whole_file import write_whole
from guidegen.build.workers import InLine, Workers
from guidegen.decks.model import CardKind
from guidegen.decks.sizes import SIDES
from guidegen.finding import Finding, Findings
from guidegen.paper.boxes import count_pages
from guidegen.paper.impose import goes_on, impose
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
class LeftOut:
    """One card that is not in the PDF, and is still to print."""

    unit: str
    card: str
    why: tuple[str, ...]
    """What is wrong, a clause each."""

    do: tuple[str, ...]
    """What mends it."""

    def as_json(self) -> dict[str, Any]:
        """Return it as values that JSON can hold."""
        return {"unit": self.unit, "card": self.card, "why": list(self.why), "do": list(self.do)}


@dataclass(frozen=True, slots=True)
class Reprinted:
    """What came of an order."""

    run: PrintRun | None
    """None if nothing was written."""

    left_out: tuple[LeftOut, ...]
    """In the order that was asked for."""


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
) -> Reprinted:
    """Write cards on sheets as one PDF; return what is in it, and which cards are not.

    A card with faults is left out alone: the others, those of its truck too, are wrong in their
    cabs meanwhile.

    Args:
        shop: What prints.
        order: What is asked for.
        findings: Takes what is found.
        progress: Shows how far the work has come.
        workers: Who draws and proves; this process if nobody is named.

    Raises:
        NoCluster: If the work is a cluster's, and it cannot be used or is gone.
    """
    kinds = order.kinds
    drawn: dict[str, UnitCards] = {}
    left: dict[tuple[str, str], LeftOut] = {}
    off: list[tuple[str, OffCard]] = []
    for wanted, numbers in _by_kinds(kinds):
        units = shop.by_edition(numbers)
        counted = progress(units, len(units), "drawing cards")
        made = made_cards(shop, wanted, units, workers or InLine())
        for unit, _ in zip(made, counted, strict=True):
            own = _each_alone(shop, unit, wanted, left)
            drawn[unit.number] = own
            off += ((unit.number, each) for each in own.off_cards)
    for number in kinds:
        findings.extend(drawn[number].findings)
    findings.extend(off_card_findings(off, shop.loaded))
    cards: list[FiledCard] = []
    for card in (card for number in kinds for card in drawn[number].cards):
        found = Findings()
        if goes_on(card.as_drawn(), order.printing, found):
            cards.append(card)
        else:
            findings.extend(found)
            left[card.unit, card.kind.id] = left_out(card.unit, card.kind.id, found)
    run = _on_sheets(shop, order, cards, findings) if cards else None
    asked = ((number, kind.id) for number, wanted in kinds.items() for kind in wanted)
    return Reprinted(run, tuple(left[each] for each in asked if each in left))


def left_out(unit: str, card: str, found: Iterable[Finding]) -> LeftOut:
    """Return that *card* of *unit* is on no sheet because of what was *found*."""
    faults = [each for each in found if each.is_error]
    why = tuple(dict.fromkeys(each.what for each in faults))
    return LeftOut(unit, card, why, tuple(dict.fromkeys(each.fix for each in faults)))


def _each_alone(
    shop: PrintShop,
    unit: UnitCards,
    wanted: tuple[CardKind, ...],
    left: dict[tuple[str, str], LeftOut],
) -> UnitCards:
    """Return the cards of *unit* that can be printed; *left* takes the others.

    A unit's cards are made all or none, since a folder of cards is a whole; here each card
    replaces one that is wrong.
    """
    if not unit.findings.has_errors:
        return unit
    is_broken = any(each.rule == rules.UNIT_BROKEN for each in unit.findings)
    if is_broken or len(wanted) == 1:
        for kind in wanted:
            left[unit.number, kind.id] = left_out(unit.number, kind.id, unit.findings)
        return unit
    findings, cards, sides, off = Findings(), list[FiledCard](), 0, list[OffCard]()
    for kind in wanted:
        (alone,) = made_cards(shop, (kind,), (unit.number,), InLine())
        findings.extend(alone.findings)
        cards += alone.cards
        sides += alone.sides
        off += alone.off_cards
        if alone.findings.has_errors:
            left[unit.number, kind.id] = left_out(unit.number, kind.id, alone.findings)
    return UnitCards(unit.number, findings, tuple(cards), sides, tuple(off))


def _on_sheets(
    shop: PrintShop, order: SheetOrder, cards: Sequence[FiledCard], findings: Findings
) -> PrintRun | None:
    """Write *cards* as one PDF, or nothing if the sheets cannot be made or are not proved."""
    caption = f"{shop.loaded.fleet.name}, {dated(shop.loaded)}"
    sheets = impose([card.as_drawn() for card in cards], caption, order.printing, findings)
    if sheets is None:
        return None
    asked = imposed_order(shop, cards, order.printing, order.path.name, caption)
    if not is_proved(prove_imposed(sheets, asked), findings):
        return None
    path = write_whole(order.path, sheets)
    printed: dict[str, tuple[CardKind, ...]] = {}
    for card in cards:
        printed[card.unit] = (*printed.get(card.unit, ()), card.kind)
    sides = sum(count_pages(card.pdf) for card in cards)
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
