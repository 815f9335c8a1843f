"""What state a truck can be in during the round, and which states exclude one another.

Takes in states by their words, as procedures name them; gives out worlds: one value for each
aspect of the truck.
Refuses worlds that no truck can be in, such as an engine that runs with the key out.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import product
from types import MappingProxyType

from guidegen.procedures.words import STATES

World = tuple[str, ...]
"""The value of every aspect, in the order of `ASPECTS`; empty where nobody has seen to it."""

Needs = tuple[tuple[int, frozenset[str]], ...]
"""Number of an aspect, and the values of which one must hold."""

Leaves = tuple[tuple[int, str], ...]
"""Number of an aspect, and the word for what it is left in."""

ASPECTS = tuple(STATES)
UNKNOWN = ""

_AT = MappingProxyType({aspect: number for number, aspect in enumerate(ASPECTS)})
ENGINE, KEY, DRIVE = _AT["engine"], _AT["key"], _AT["drive"]
ACCESS, BRAKE, WHEELS = _AT["access"], _AT["parking_brake"], _AT["wheels"]
TRUCK, TRANSMISSION = _AT["truck"], _AT["transmission"]

# An engine that has run a little and stands again is neither cold nor warm: its oil is not back
# in the sump, and its coolant is under pressure. `off` is that state and `off_cold` is before.
_RUNNING = frozenset({"idling", "idling_warm"})
_WARM = frozenset({"idling_warm", "off_warm"})
# A drive system that was on in this round can be switched on again without its first check.
_OFF_AGAIN = "off_again"

_MEANT = MappingProxyType(
    {
        (ENGINE, "off"): frozenset({"off_cold", "off", "off_warm"}),
        (ENGINE, "idling"): _RUNNING,
        (ENGINE, "running"): _RUNNING,
        # A key in the driver's pocket is off.
        (KEY, "off"): frozenset({"off", "out"}),
        (DRIVE, "off"): frozenset({"off", _OFF_AGAIN}),
    }
)
"""What a word lets pass, where that is more than the value of the same name."""

_VALUES = MappingProxyType(
    {
        **{number: frozenset(STATES[aspect]) for number, aspect in enumerate(ASPECTS)},
        ENGINE: frozenset(STATES["engine"]) - {"running"},
        DRIVE: frozenset({*STATES["drive"], _OFF_AGAIN}),
    }
)
"""The values of each aspect: its words, but those that only sum up others."""


def values_of(aspect: int, word: str) -> frozenset[str]:
    """Return the values that satisfy *word*."""
    return _MEANT.get((aspect, word), frozenset({word}))


def number_of(aspect: str) -> int:
    """Return the place of *aspect* in a world."""
    return _AT[aspect]


def all_values(aspect: int) -> frozenset[str]:
    """Return every value that *aspect* can have."""
    return _VALUES[aspect]


def needs_of(states: Iterable[tuple[str, str]]) -> Needs:
    """Return what holds when all of *states* hold; an aspect named twice must satisfy both."""
    return _needs_of(tuple(states))


@lru_cache(maxsize=4096)
def _needs_of(states: tuple[tuple[str, str], ...]) -> Needs:
    found: dict[int, frozenset[str]] = {}
    for aspect, word in states:
        number = _AT[aspect]
        values = values_of(number, word)
        found[number] = found.get(number, values) & values
    return tuple(sorted(found.items()))


def meets(world: World, needs: Needs) -> bool:
    """Whether all of *needs* hold in *world*; what nobody has seen to does not hold."""
    return all(world[aspect] in values for aspect, values in needs)


def is_possible(world: World) -> bool:
    """Whether a truck can be in *world*: the laws of the truck."""
    on = world[KEY] in ("on", UNKNOWN)
    if not on and (world[ENGINE] in _RUNNING or world[DRIVE] == "ready"):
        return False
    held = world[BRAKE] == "set" or world[WHEELS] == "chocked" or world[ACCESS] == "open"
    return not (world[TRUCK] == "moving" and held)


@lru_cache(maxsize=4096)
def can_all_hold(needs: Needs) -> bool:
    """Whether there is a world in which all of *needs* hold."""
    aspects = [aspect for aspect, _ in needs]
    for values in product(*(sorted(values) for _, values in needs)):
        chosen = dict(zip(aspects, values, strict=True))
        if is_possible(tuple(chosen.get(number, UNKNOWN) for number in range(len(ASPECTS)))):
            return True
    return False


def left_in(world: World, leaves: Leaves) -> World:
    """Return the world after *leaves*, with what follows: a key turned off stops the engine."""
    found = list(world)
    stated = dict(leaves)
    for aspect, word in leaves:
        found[aspect] = _value_left(aspect, word, world)
    if found[ENGINE] in _RUNNING and ENGINE in stated:
        found[KEY] = "on"
    if found[DRIVE] == "ready" and DRIVE in stated:
        found[KEY] = "on"
    if found[KEY] in ("off", "out"):
        found[ENGINE] = _stopped(found[ENGINE])
        found[DRIVE] = _OFF_AGAIN if found[DRIVE] == "ready" else found[DRIVE]
    return tuple(found)


def can_check(station: str, world: World, *, cab_tilts: bool) -> bool:
    """Whether a check can be done at *station*.

    An open hood blocks the view from the driver's seat, and somebody may stand at the fan.
    """
    if station == "cab" and world[ACCESS] == "open":
        return False
    return can_stand(station, world, cab_tilts=cab_tilts)


def can_stand(station: str, world: World, *, cab_tilts: bool) -> bool:
    """Whether a driver can be at *station*.

    Nobody sits in a tilted cab, and nobody leaves the seat of a truck that moves or that its
    parking brake does not hold.
    """
    if station == "cab":
        return not (cab_tilts and world[ACCESS] == "open")
    return world[BRAKE] != "released" and world[TRUCK] != "moving"


def world_of(values: Mapping[str, str]) -> World:
    """Return the world with *values* by aspect; the others are not seen to."""
    return tuple(values.get(aspect, UNKNOWN) for aspect in ASPECTS)


def words_of(world: World) -> tuple[tuple[str, str], ...]:
    """Return aspect and state of all that is known, keys of the closed list of states."""
    return tuple(
        (aspect, "off" if value == _OFF_AGAIN else value)
        for aspect, value in zip(ASPECTS, world, strict=True)
        if value != UNKNOWN
    )


def is_running(world: World) -> bool:
    """Whether the engine runs."""
    return world[ENGINE] in _RUNNING


def _value_left(aspect: int, word: str, before: World) -> str:
    if aspect == ENGINE:
        was_warm = before[ENGINE] in _WARM
        if word in ("idling", "running"):
            return "idling_warm" if was_warm else "idling"
        if word == "off":
            return "off_warm" if was_warm else "off"
    if aspect == DRIVE and word == "off":
        return _OFF_AGAIN
    return word


def _stopped(engine: str) -> str:
    return {"idling": "off", "idling_warm": "off_warm"}.get(engine, engine)
