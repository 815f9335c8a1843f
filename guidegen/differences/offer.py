"""Which trucks a driver may pick as the one that he knows.

Takes in the fleet's guides and the numbers that the office lists; gives out the trucks that
every other truck is compared with. Refuses to grow with the square of the fleet: where nobody
lists any, one truck stands for each edition, and only while the editions are few.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.guide.counting_order import in_counting_order
from guidegen.guide.model import Guide

MOST_EDITIONS = 12
"""Editions up to which each is offered where the office lists no trucks."""

MOST_NAMED = 60
"""Units of a fleet up to which those that share an offered truck's guide are named beside it."""


@dataclass(frozen=True, slots=True)
class KnownTruck:
    """A truck that a driver may know."""

    guide: Guide
    alike: tuple[str, ...] = ()
    """Numbers of other units with the same guide that are named beside it."""


@dataclass(frozen=True, slots=True)
class Offer:
    """The trucks that drivers may pick as known."""

    trucks: tuple[KnownTruck, ...] = ()
    """In counting order."""

    stands_for_edition: bool = False
    """Whether each stands for others with the same guide that are not named beside it."""


def offer_known(guides: Iterable[Guide], trained_on: Sequence[str] | None) -> Offer:
    """Return the trucks that drivers may pick as known.

    Args:
        guides: Every guide of the fleet.
        trained_on: Numbers of the units that drivers are signed off on; numbers without a guide
            are passed over. None if the office has not said.
    """
    by_number = {guide.number: guide for guide in guides}
    ordered = {number: by_number[number] for number in sorted(by_number, key=in_counting_order)}
    if trained_on is not None:
        return Offer(tuple(KnownTruck(guide) for n, guide in ordered.items() if n in trained_on))
    editions = _by_edition(ordered)
    if len(editions) > MOST_EDITIONS:
        return Offer()
    are_named = len(ordered) <= MOST_NAMED
    trucks = tuple(
        KnownTruck(ordered[first], tuple(others) if are_named else ())
        for first, *others in editions.values()
    )
    return Offer(trucks, stands_for_edition=not are_named)


@dataclass(frozen=True, slots=True)
class Choice:
    """What the driver of one truck may choose from."""

    others: tuple[KnownTruck, ...]
    """Trucks to be compared with; without the truck itself."""

    same_guide: tuple[str, ...]
    """Numbers of units with the same guide as the truck itself, which is offered."""

    @property
    def key(self) -> tuple[object, ...]:
        """What two choices share if they name the same trucks."""
        return (self.same_guide, *((each.guide.number, each.alike) for each in self.others))


def choice_for(number: str, offer: Offer) -> Choice:
    """Return what of *offer* the driver of the unit *number* may choose from."""
    others: list[KnownTruck] = []
    same_guide: tuple[str, ...] = ()
    for truck in offer.trucks:
        if truck.guide.number == number:
            same_guide = truck.alike
        else:
            alike = tuple(each for each in truck.alike if each != number)
            others.append(KnownTruck(truck.guide, alike))
    return Choice(tuple(others), same_guide)


def _by_edition(guides: Mapping[str, Guide]) -> Mapping[str, list[str]]:
    editions: dict[str, list[str]] = {}
    for number, guide in guides.items():
        editions.setdefault(guide.edition, []).append(number)
    return editions
