"""The page on which a driver finds the truck.

Takes in the fleet and its guides; gives out the list of trucks by yard, as HTML.
Refuses to leave a truck out: one without a guide is named, so that its driver does not search.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.guide.counting_order import in_counting_order
from guidegen.guide.model import Guide
from guidegen.site.frame import Frame
from guidegen.site.model import FleetView
from guidegen.site.templates import PageTemplates
from guidegen.wording import value_words

_NAMED = ("identity.year", "identity.make", "identity.model_name")
_FOUND_BY = (*_NAMED, "identity.body", "identity.plate", "identity.vin", "identity.yard")


@dataclass(frozen=True, slots=True)
class TruckLine:
    """One truck of the list."""

    number: str
    name: str
    """Year, make and model, as far as they are on record."""

    body: str
    plate: str
    yard: str
    """Name of the yard; empty if it is not on record."""

    found_by: str
    """All that the filter looks in, in small letters."""

    @property
    def href(self) -> str:
        """Path of its start page."""
        return f"{self.number}/index.html"


@dataclass(frozen=True, slots=True)
class YardLines:
    """The trucks of one yard."""

    name: str
    phone: str
    trucks: tuple[TruckLine, ...]


@dataclass(frozen=True, slots=True)
class FleetPageView:
    """For ``fleet.html.j2``."""

    yards: tuple[YardLines, ...]
    unlisted: tuple[TruckLine, ...]
    """Trucks whose yard is not on record."""

    held_back: tuple[str, ...]
    """Numbers of trucks without a guide."""


def truck_line(guide: Guide) -> TruckLine:
    """Return the line of the unit of *guide*."""
    words = {
        name: value_words(guide.facts[name]) if name in guide.facts else "" for name in _FOUND_BY
    }
    return TruckLine(
        number=guide.number,
        name=" ".join(filter(None, (words[name] for name in _NAMED))),
        body=words["identity.body"],
        plate=words["identity.plate"],
        yard=words["identity.yard"],
        found_by=" ".join(filter(None, (guide.number, *words.values()))).lower(),
    )


def draw_fleet_page(
    fleet: FleetView,
    trucks: Iterable[TruckLine],
    held_back: Iterable[str],
    templates: PageTemplates,
) -> str:
    """Return the list of trucks as HTML, by yard in the fleet's order, then by number.

    Args:
        fleet: The fleet.
        trucks: One line a truck that has a guide.
        held_back: Numbers of the trucks that have none.
        templates: The page templates.
    """
    lines = sorted(trucks, key=lambda truck: in_counting_order(truck.number))
    by_yard: dict[str, list[TruckLine]] = {yard.name: [] for yard in fleet.yards}
    for line in lines:
        by_yard.setdefault(line.yard, []).append(line)
    unlisted = by_yard.pop("", [])
    phones = {yard.name: yard.phone for yard in fleet.yards}
    view = FleetPageView(
        yards=tuple(
            YardLines(name, phones.get(name, ""), tuple(found))
            for name, found in by_yard.items()
            if found
        ),
        unlisted=tuple(unlisted),
        held_back=tuple(sorted(held_back, key=in_counting_order)),
    )
    return templates.fleet.render(view=view)


def fill_fleet_page(frame: Frame, trucks: str) -> bytes:
    """Return the fleet page: *trucks*, which is HTML, in its frame."""
    return frame.fill({"trucks": trucks}).encode()
