"""What a driver does between two checks to bring the truck into another state.

Takes in a world; gives out the small acts that are possible in it, each with the world after.
Refuses acts that need a procedure of their own: opening the hood, chocking the wheels, the first
start.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.round.states import (
    ACCESS,
    BRAKE,
    DRIVE,
    ENGINE,
    KEY,
    TRANSMISSION,
    WHEELS,
    World,
    is_running,
    left_in,
)

ACTS = MappingProxyType(
    {
        "key_on": "Turn the key on and do not start.",
        "key_off": "Turn the key off, and leave it in.",
        "key_out": "Turn the key off and take it out.",
        "key_away": "Take the key out.",
        "engine_off": "Turn the key off to stop the engine, and leave it in.",
        "engine_off_key_out": "Stop the engine and take the key out.",
        "drive_off": "Switch the drive system off, and leave the key in.",
        "drive_off_key_out": "Switch the drive system off and take the key out.",
        "engine_again": "Start the engine again.",
        "drive_again": "Switch the drive system on again.",
        "neutral": "Put the transmission in neutral.",
        "brake_set": "Set the parking brake.",
        "brake_released": "Release the parking brake and stay in the seat.",
        "warm_up": "Let the engine idle outdoors until it is warm.",
    }
)
"""Words of each act, by key; in the order in which one is chosen where several serve alike. The
wait comes last, so that checks are done while the engine warms up."""


KINDS = MappingProxyType(
    {
        "engine_again": "start",
        "drive_again": "start",
        "neutral": "selector",
        "brake_set": "brake",
        "brake_released": "brake",
        "warm_up": "wait",
    }
)
"""Acts that are not turns of the key."""


WEAKER = MappingProxyType(
    {
        "key_out": "key_off",
        "engine_off_key_out": "engine_off",
        "drive_off_key_out": "drive_off",
    }
)
"""Acts that leave the key in, by those that take it out.

Whatever can be done with the key off can be done with it out, so a round is sought with the key
taken out each time, and left in afterwards where nothing asks for more and the driver keeps his
seat: nobody leaves a truck with its key in.
"""


@dataclass(frozen=True, slots=True)
class Act:
    """One possible act."""

    key: str
    """Key of `ACTS`."""

    station: str | None
    """Where it is done; none if it takes only time."""

    after: World

    @property
    def kind(self) -> str:
        """What it is worked with: acts of one kind take one another's place."""
        return KINDS.get(self.key, "key")


def acts_in(world: World) -> Iterator[Act]:
    """Yield the acts that are possible in *world*."""
    yield from _turns_of_the_key(world)
    if world[TRANSMISSION] == "park":
        yield Act("neutral", "cab", left_in(world, ((TRANSMISSION, "neutral"),)))
    if world[BRAKE] == "released":
        yield Act("brake_set", "cab", left_in(world, ((BRAKE, "set"),)))
    # Whoever sits behind an open hood sees nobody at the fan: from there things are only ended.
    if world[ACCESS] != "open":
        yield from _beginnings(world)


def _beginnings(world: World) -> Iterator[Act]:
    if world[ENGINE] in ("off", "off_warm") and world[BRAKE] == "set":
        yield Act("engine_again", "cab", left_in(world, ((ENGINE, "idling"),)))
    if world[DRIVE] == "off_again" and world[BRAKE] == "set":
        yield Act("drive_again", "cab", left_in(world, ((DRIVE, "ready"),)))
    if world[BRAKE] == "set" and world[WHEELS] == "chocked":
        yield Act("brake_released", "cab", left_in(world, ((BRAKE, "released"),)))
    if world[ENGINE] == "idling":
        yield Act("warm_up", None, left_in(world, ((ENGINE, "idling_warm"),)))


def leave_key_in(key: str, world: World) -> World:
    """Return the world after the weaker act *key* of `WEAKER`."""
    if key not in WEAKER.values():
        raise ValueError(key)
    return left_in(world, ((KEY, "off"),))


def _turns_of_the_key(world: World) -> Iterator[Act]:
    now = world[KEY]
    if now in ("off", "out"):
        yield Act("key_on", "cab", left_in(world, ((KEY, "on"),)))
    out = "key_out"
    if is_running(world):
        out = "engine_off_key_out"
    elif world[DRIVE] == "ready":
        out = "drive_off_key_out"
    if now == "on":
        yield Act(out, "cab", left_in(world, ((KEY, "out"),)))
    if now == "off":
        yield Act("key_away", "cab", left_in(world, ((KEY, "out"),)))
