"""Where the stations are around one truck, and how far a driver walks between them.

Takes in a guide; gives out the truck's footprint and a walk around it, in millimeters.
Refuses to measure what nobody has measured: width, cab, axles and reach are guesses that say so.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from guidegen.guide.model import Guide
from guidegen.procedures.words import STATIONS
from guidegen.quantity.model import Quantity
from guidegen.units.model import Presence

# Lengths in millimeters. All but the truck's own overall length are common practice, no source:
# they decide which of two ways is shorter and what the plan looks like, and no guide prints them.
WIDTH = 2590
"""About the widest that trucks are built without a permit (102 in); common practice, no source."""

LENGTH_NOT_ON_RECORD = 8500
REACH = 600
"""From the side of the truck to the line that a driver walks along it."""

CLIMB = 1000
"""Into the seat from the ground below the door."""

CABLE = 2000
"""From the truck's corner to an electrical outlet; where a yard has it nobody has recorded."""

HOSE = 1500
"""From the truck's side to a pump."""

_AXLE_SPACING = 1300
_TRACTORS = ("tractor", "sleeper_tractor", "yard_tractor")


@dataclass(frozen=True, slots=True)
class Axle:
    """One axle, seen from above."""

    x: int
    """From the front bumper back."""

    is_steered: bool


@dataclass(frozen=True, slots=True)
class Footprint:
    """A truck from above, in millimeters.

    ``x`` runs from the front bumper back, ``y`` from the middle to the right.
    """

    length: int
    width: int
    hood: int
    """How far the hood reaches back; 0 for a cab over the engine."""

    cab: int
    """How far the cab reaches back."""

    door: int
    """The middle of the driver's door, on the left; a guess."""

    engine: int
    """Where a driver stands at the engine, on the left; a guess."""

    axles: tuple[Axle, ...]
    """Front to rear, guessed from the axle configuration."""

    is_length_known: bool


@dataclass(frozen=True, slots=True)
class Place:
    """A station as a point on the walk around the truck."""

    along: int
    """From the left rear corner forward, across the front and back on the right."""

    off: int
    """Off the walk, to climb or to step aside."""

    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Walk:
    """The line around a truck and the places on it."""

    around: int
    """Its whole length."""

    places: MappingProxyType[str, Place]
    """By station; ``around`` is not among them, since it is the whole line."""

    def between(self, one: Place, other: Place) -> int:
        """Return the shorter way from *one* to *other*; nobody walks through the truck."""
        if one == other:
            return 0
        ahead = (other.along - one.along) % self.around
        return one.off + other.off + min(ahead, self.around - ahead)


def footprint_of(guide: Guide) -> Footprint:
    """Return the footprint of the guide's truck."""
    known = _length(guide)
    length = known or LENGTH_NOT_ON_RECORD
    is_cab_over = _value(guide, "cab_access.kind") in ("tilt_cab", "side_panels")
    hood, cab = (0, 2000) if is_cab_over else (1700, 3300)
    if _value(guide, "identity.body") == "sleeper_tractor":
        cab += 1200
    cab = min(cab, length * 2 // 3)
    return Footprint(
        length=length,
        width=WIDTH,
        hood=hood,
        cab=cab,
        door=hood + 700,
        engine=cab + 300 if is_cab_over else 1000,
        axles=_axles(guide, length, front=1300 if is_cab_over else 1100),
        is_length_known=known > 0,
    )


@lru_cache
def walk_of(truck: Footprint) -> Walk:
    """Return the walk around *truck* with every station.

    It is that of a truck with its hood and doors shut; a hood that tilts forward makes the way
    across the front a little longer, for every order alike.
    """
    side, front = truck.length + 2 * REACH, truck.width + 2 * REACH
    half = truck.width // 2

    def on_left(x: int, off: int = 0, y: int = -half) -> Place:
        return Place(truck.length + REACH - x, off, x, y - off if y == -half else y)

    def on_right(x: int) -> Place:
        return Place(side + front + REACH + x, 0, x, half)

    middle = truck.length // 2
    places = {
        "cab": on_left(truck.door, CLIMB, y=-half * 3 // 5),
        "front": Place(side + front // 2, 0, 0, 0),
        "left_front": on_left(0),
        "right_front": on_right(0),
        "engine": on_left(truck.engine),
        "left_side": on_left(middle),
        "right_side": on_right(middle),
        "left_rear": on_left(truck.length),
        "right_rear": on_right(truck.length),
        "rear": Place(2 * side + front + front // 2, 0, truck.length, 0),
        "outlet": on_left(0, CABLE),
        "pump": on_left(middle, HOSE),
    }
    return Walk(2 * (side + front), MappingProxyType(_apart({key: places[key] for key in _POINTS})))


def _apart(places: Mapping[str, Place]) -> dict[str, Place]:
    """Return *places*, no two on the walk at one point: a way of nothing leads round in circles.

    They are moved by a millimeter, which nobody walks.
    """
    found: dict[str, Place] = {}
    taken: set[int] = set()
    for station, place in places.items():
        along = place.along
        while not place.off and along in taken:
            along += 1
        taken |= set() if place.off else {along}
        found[station] = replace(place, along=along)
    return found


_POINTS = tuple(station for station in STATIONS if station != "around")


def _length(guide: Guide) -> int:
    fact = guide.facts.get("identity.overall_length")
    if fact is None or not isinstance(fact.value, Quantity):
        return 0
    return round(fact.value.exact * 1000)


def _value(guide: Guide, name: str) -> str:
    fact = guide.facts.get(name)
    return str(fact.value) if fact is not None else ""


def _axles(guide: Guide, length: int, front: int) -> tuple[Axle, ...]:
    """Guess the axles: ``8x4`` are eight wheel positions, four of them driven.

    A fourth axle is steered unless the truck has a tag axle.
    """
    wheels, _, driven = _value(guide, "axles.configuration").partition("x")
    count = max(int(wheels) // 2, 2) if wheels.isdigit() and driven.isdigit() else 2
    tag = guide.sections.get("tires.tag")
    has_tag = tag is not None and tag.presence is Presence.GIVEN
    steered = 2 if count > 3 and not has_tag else 1  # noqa: PLR2004 -- the fourth axle
    is_tractor = _value(guide, "identity.body") in _TRACTORS
    last = length - (900 if is_tractor else length // 4)
    rear = count - steered
    # A short truck keeps its rear axles behind its front ones, however many are stated.
    spacing = min(_AXLE_SPACING, max(last - front - 500, 0) // count)
    fronts = [Axle(front + number * spacing, is_steered=True) for number in range(steered)]
    rears = [Axle(last - (rear - 1 - number) * spacing, is_steered=False) for number in range(rear)]
    return (*fronts, *rears)
