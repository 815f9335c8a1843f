"""Cards of a batch of units, drawn and proved by whoever does the work.

Takes in what all cards of an order share, and numbers of units; gives out the cards of each unit
as PDF. Refuses half a set: a unit's cards are given out when all of them could be drawn and are
proved.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from guidegen.build.load import Loaded
from guidegen.build.off_card import OffCard, off_card
from guidegen.build.parcel import Parcel
from guidegen.build.print_shop import PrintShop, open_print_shop
from guidegen.decks.model import CardKind
from guidegen.finding import Findings
from guidegen.paper.card import BLEED
from guidegen.paper.impose import DrawnCard
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_cards
from guidegen.paper_proof.siblings import ProvedCards

MOST_IN_BATCH = 16
"""Units whose cards are in memory at once for each worker; a set takes about 0.5 MB."""


@dataclass(frozen=True, slots=True)
class FiledCard:
    """One card of one truck as it is filed."""

    unit: str
    kind: CardKind
    pdf: bytes = field(repr=False)
    """One page a side, in order."""

    @property
    def path(self) -> str:
        """Where it is filed, below the folder of all cards."""
        return f"{self.unit}/{self.kind.id}.pdf"

    @property
    def name(self) -> str:
        """As findings and sheets call it."""
        return f"{self.unit} {self.kind.id}"

    def as_drawn(self) -> DrawnCard:
        """Return it for laying on sheets."""
        return DrawnCard(
            name=self.name,
            side=self.kind.side,
            bleed=BLEED,
            # No card is handed out whose proof finds anything drawn nearer to its trim.
            free=self.kind.side.free,
            pdf=self.pdf,
            span=self.kind.span,
        )


@dataclass(frozen=True, slots=True)
class UnitCards:
    """What came of the cards of one unit."""

    number: str
    findings: Findings
    cards: tuple[FiledCard, ...] = ()
    """None if one of them has faults."""

    sides: int = 0
    off_cards: tuple[OffCard, ...] = ()
    """Photos that have no room on these cards."""


@dataclass(frozen=True, slots=True, eq=False)
class CardJob:
    """What all cards of an order share; can be sent to other processes and machines."""

    loaded: Loaded
    kinds: tuple[CardKind, ...]
    parcel: Parcel | None
    """None where nothing is sent."""

    shop: PrintShop | None
    """Never sent: whoever is given a parcel opens a shop from it."""

    def __reduce__(self) -> tuple[object, ...]:
        return CardJob, (self.loaded, self.kinds, self.parcel, None)


def print_batch(job: CardJob, batch: tuple[str, ...]) -> tuple[UnitCards, ...]:
    """Return what came of the cards of each unit of *batch*."""
    bench = _bench_of(job)
    return tuple(bench.print_unit(number, job.kinds) for number in batch)


def batches_of(units: Sequence[str], loaded: Loaded) -> Iterator[tuple[str, ...]]:
    """Yield *units* in batches, each of one edition.

    Args:
        units: Those of one edition next to one another.
        loaded: The fleet.
    """
    batch: list[str] = []
    for number in units:
        is_other = bool(batch) and loaded.guides.edition_of(batch[-1]) != loaded.guides.edition_of(
            number
        )
        if is_other or len(batch) == MOST_IN_BATCH:
            yield tuple(batch)
            batch = []
        batch.append(number)
    if batch:
        yield tuple(batch)


@dataclass(frozen=True, slots=True)
class _Bench:
    """What one process keeps from unit to unit."""

    shop: PrintShop
    known: ProvedCards

    def print_unit(self, number: str, kinds: tuple[CardKind, ...]) -> UnitCards:
        own, shop = Findings(), self.shop
        printed = list(shop.cards(number, kinds, own))
        guide = shop.loaded.guides[number]
        drawn = ((each.card, each.pdf) for each in printed)
        if own.has_errors:
            return UnitCards(number, own)
        verdict = prove_cards(drawn, guide, shop.issue(guide), self.known, shop.logo)
        if not is_proved(verdict, own):
            return UnitCards(number, own)
        cards = tuple(FiledCard(number, each.card.kind, each.pdf) for each in printed)
        off = tuple(off for each in printed for off in off_card(each.card))
        return UnitCards(number, own, cards, verdict.counts.sides, off)


def is_proved(verdict: PaperVerdict, findings: Findings) -> bool:
    """Whether *verdict* finds no failure; *findings* take those that it finds."""
    findings.extend(failure.as_finding() for failure in verdict.failures)
    return verdict.is_proved


@lru_cache(maxsize=1)
def _bench_of(job: CardJob) -> _Bench:
    shop = job.shop
    if shop is None:
        assert job.parcel is not None  # noqa: S101 -- whoever sends a job puts one in
        # Its faults were told when the order was taken.
        shop = open_print_shop(job.parcel.unpacked(), job.loaded, Findings())
        assert shop is not None  # noqa: S101 -- ditto
    return _Bench(shop, ProvedCards())
