"""The pages on which a driver finds the truck.

Takes in the fleet and its guides; gives out the list of trucks by yard, as HTML: on the fleet
page, or in a large fleet on pages that it leads to, so that no tablet loads ten thousand rows.
Refuses to leave a truck out: one without a guide is named, so that its driver does not search.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.guide.counting_order import in_counting_order
from guidegen.site.frame import Frame
from guidegen.site.model import FleetView
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import TruckLine
from guidegen.site.truck_list import LIST_PATH

FLEET_PAGE = "index.html"
MOST_LISTED = 300
"""Trucks on one page: about 70 kB of HTML, and a hand's breadth of scroll bar."""

_NO_YARD = "no-yard"
"""Name of the page of trucks whose yard is not on record."""


@dataclass(frozen=True, slots=True)
class TruckPage:
    """Some trucks of one yard, on a page of their own."""

    path: str
    trucks: tuple[TruckLine, ...]


@dataclass(frozen=True, slots=True)
class YardLines:
    """The trucks of one yard."""

    name: str
    """Empty for the trucks whose yard is not on record."""

    phone: str
    count: int
    trucks: tuple[TruckLine, ...]
    """Those that are listed here; none if they have pages of their own."""

    pages: tuple[TruckPage, ...] = ()
    """Where they are listed in a large fleet."""


@dataclass(frozen=True, slots=True)
class FleetPageView:
    """For ``fleet.html.j2``."""

    yards: tuple[YardLines, ...]
    held_back: tuple[str, ...]
    """Numbers of trucks without a guide."""

    is_whole: bool
    """Whether the page is the fleet page, and not one of the pages that it leads to."""

    fleet_page: str = FLEET_PAGE
    list_path: str = ""
    """Where the script finds the trucks that are not listed on the page; empty if all are."""


def draw_fleet_pages(
    fleet: FleetView,
    trucks: Sequence[TruckLine],
    held_back: Iterable[str],
    templates: PageTemplates,
) -> Iterator[tuple[str, str]]:
    """Yield the pages that list the trucks by path, as HTML, the fleet page first.

    Trucks stand by yard in the fleet's order, then by number.

    Args:
        fleet: The fleet.
        trucks: One line a truck that has a guide.
        held_back: Numbers of the trucks that have none.
        templates: The page templates.
    """
    is_large = len(trucks) > MOST_LISTED
    list_path = LIST_PATH if is_large else ""
    yards = tuple(_yards(fleet, trucks, is_large=is_large))
    waiting = tuple(sorted(held_back, key=in_counting_order))
    view = FleetPageView(yards, waiting, is_whole=True, list_path=list_path)
    yield FLEET_PAGE, templates.fleet.render(view=view)
    for yard in yards:
        for page in yard.pages:
            listed = YardLines(yard.name, yard.phone, yard.count, page.trucks)
            view = FleetPageView((listed,), (), is_whole=False, list_path=list_path)
            yield page.path, templates.fleet.render(view=view)


def is_yard_page(path: str) -> bool:
    """Say whether *path*, from the root of the site, is of a page that lists a yard's trucks."""
    return path.startswith(("yard-", f"{_NO_YARD}.")) and path.endswith(".html")


def fill_fleet_page(frame: Frame, trucks: str) -> bytes:
    """Return the fleet page, or one that it leads to: *trucks*, which is HTML, in its frame."""
    return frame.fill({"trucks": trucks}).encode()


def _yards(fleet: FleetView, trucks: Sequence[TruckLine], *, is_large: bool) -> Iterator[YardLines]:
    known = {yard.name: yard for yard in fleet.yards}
    for name, lines in _by_yard(known, trucks).items():
        yard = known.get(name)
        phone = yard.phone if yard else ""
        if is_large:
            pages = tuple(_pages(f"yard-{yard.id}" if yard else _NO_YARD, lines))
            yield YardLines(name, phone, len(lines), (), pages)
        else:
            yield YardLines(name, phone, len(lines), tuple(lines))


def _by_yard(
    known: Iterable[str], trucks: Sequence[TruckLine]
) -> Mapping[str, Sequence[TruckLine]]:
    """Return the lines by name of the yard, those without one last; no yard is empty."""
    by_yard: dict[str, list[TruckLine]] = {name: [] for name in known}
    for line in sorted(trucks, key=lambda truck: in_counting_order(truck.number)):
        by_yard.setdefault(line.yard, []).append(line)
    unlisted = by_yard.pop("", [])
    return {name: lines for name, lines in (*by_yard.items(), ("", unlisted)) if lines}


def _pages(name: str, lines: Sequence[TruckLine]) -> Iterator[TruckPage]:
    for start in range(0, len(lines), MOST_LISTED):
        # No id of a yard holds a dot.
        place = "" if start == 0 else f".{start // MOST_LISTED + 1}"
        yield TruckPage(f"{name}{place}.html", tuple(lines[start : start + MOST_LISTED]))
