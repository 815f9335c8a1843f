"""Why each stop comes where it does.

Takes in the tasks of the round in order, with the world before each; gives out reasons, and the
words for them.
Refuses a stop without a reason.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from guidegen.procedures.model import RoundPart
from guidegen.procedures.words import STATES
from guidegen.round.model import Reason, ReasonKind, State
from guidegen.round.states import World, meets, needs_of, words_of
from guidegen.round.tasks import Task

REASONS = MappingProxyType(
    {
        ReasonKind.FIRST: "Before every other check.",
        ReasonKind.COLD: "Before the first start, while the engine is off and cold.",
        ReasonKind.NEEDS: "It begins with: {}.",
        ReasonKind.BEFORE: "While this still holds: {}.",
        ReasonKind.ENDS: "After all that needs: {}.",
        ReasonKind.FOR: "For {}.",
        ReasonKind.DONE_WITH: "Nothing after it needs: {}.",
        ReasonKind.ANY_TIME: "At any time, and here it costs the least walk.",
        ReasonKind.SAME_PLACE: "Same place as the stop before.",
        ReasonKind.ON_THE_WAY: "On the same walk around the truck.",
    }
)
"""Words of each kind; the braces take states, or stops."""

PREMISES = MappingProxyType(
    {
        "cold": "The truck has stood since its last run, and its engine is cold.",
        "guessed": "The plan is not to scale: width, cab, axles and places are the usual ones.",
        "length": "The overall length is not on record, so the plan shows a usual one.",
    }
)
"""What a round takes for granted."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A task at its place in the round."""

    task: Task
    world: World
    """Before it."""

    after: World
    is_far: bool
    """Whether the driver has walked to it from the stop before."""

    is_on_the_way: bool
    """Whether it is done on a walk around the truck that an earlier stop began."""


@lru_cache(maxsize=256)
def reasons_for(placed: tuple[Placed, ...]) -> tuple[tuple[Reason, ...], ...]:
    """Return the reasons of every stop, in order."""
    explaining = _Explaining(placed)
    return tuple(explaining.reasons(number) for number in range(len(placed)))


def reason_words(reason: Reason) -> str:
    """Return the words of *reason*: one sentence."""
    if reason.kind is ReasonKind.FOR:
        return REASONS[reason.kind].format(_stops_in_words(reason.stops))
    # Some words hold a comma or an "and" themselves.
    states = "; ".join(STATES[aspect][state] for aspect, state in reason.states)
    return REASONS[reason.kind].format(states)


@dataclass(frozen=True, slots=True)
class _Explaining:
    placed: Sequence[Placed]

    def reasons(self, at: int) -> tuple[Reason, ...]:
        of_state, of_place = self.of_state(at), self.of_place(at)
        if not of_state and not of_place:
            return (Reason(ReasonKind.ANY_TIME),)
        return tuple(reason for reason in (of_state, of_place) if reason)

    def of_state(self, at: int) -> Reason | None:
        here = self.placed[at]
        if here.task.part is RoundPart.FIRST:
            return Reason(ReasonKind.FIRST)
        if here.task.part is RoundPart.MEANS:
            return self.of_means(at)
        gained, ended = self.gained_by(at), self.ended_by(at)
        needs = Reason(ReasonKind.NEEDS, gained)
        candidates = (
            needs if self.waits_for(gained, ended, at) else Reason(ReasonKind.ENDS, ended),
            Reason(ReasonKind.COLD, _cold(here.task)),
            needs,
            Reason(ReasonKind.FOR, stops=self.opened_by(at)),
            Reason(ReasonKind.BEFORE, self.ending_after(at)),
        )
        return next((each for each in candidates if each.states or each.stops), None)

    def of_place(self, at: int) -> Reason | None:
        here = self.placed[at]
        if here.is_on_the_way:
            return Reason(ReasonKind.ON_THE_WAY)
        if at and not here.is_far and here.task.station == self.placed[at - 1].task.station:
            return Reason(ReasonKind.SAME_PLACE)
        return None

    def of_means(self, at: int) -> Reason:
        """Tell which later stops need what a means leaves, or that nothing needs what it ends."""
        here = self.placed[at]
        left = [state for state in words_of(here.after) if state not in words_of(here.world)]
        stops = self.opened_by(at)
        # What is shut is shut because nothing needs it open any more, whatever comes next.
        if stops and left != [("access", "shut")]:
            return Reason(ReasonKind.FOR, stops=stops)
        ended = tuple(state for state in words_of(here.world) if state not in words_of(here.after))
        return Reason(ReasonKind.DONE_WITH, ended)

    def opened_by(self, at: int) -> tuple[int, ...]:
        """Return the numbers of the stops that need what the task leaves, until it is undone."""
        here = self.placed[at]
        found = []
        for number, other in enumerate(self.placed[at + 1 :], start=at + 2):
            if _is_undone(here, other.world):
                break
            if not meets(_without(here, other.world), other.task.needs):
                found.append(number)
            if _is_undone(here, other.after):
                break
        return tuple(found)

    def ended_by(self, at: int) -> tuple[State, ...]:
        """Return the states that the task ends for good and that stops before it need."""
        here = self.placed[at]
        asked = dict.fromkeys(s for before in self.placed[:at] for s in before.task.asks)
        later = {here.after, *(w for p in self.placed[at + 1 :] for w in (p.world, p.after))}
        ended = [
            state
            for state in asked
            if _holds(state, here.world) and not any(_holds(state, world) for world in later)
        ]
        return _weightiest(ended)

    def gained_by(self, at: int) -> tuple[State, ...]:
        """Return what the task needs that did not hold all the time before it."""
        here = self.placed[at]
        begun = [p for p in self.placed[:at] if p.task.part is not RoundPart.FIRST]
        worlds = {world for p in begun for world in (p.world, p.after)}
        gained = [s for s in here.task.asks if not all(_holds(s, world) for world in worlds)]
        return _weightiest(gained)

    def waits_for(self, gained: Iterable[State], ended: Iterable[State], at: int) -> bool:
        """Whether what was *gained* came about after all stops that need what the task *ended*."""
        ends = set(ended)
        asking = [n for n, before in enumerate(self.placed[:at]) if ends & set(before.task.asks)]
        since = max((self.held_since(state, at) for state in gained), default=0)
        return bool(ends) and since > max(asking, default=at) + 1

    def held_since(self, state: State, at: int) -> int:
        """Return the place of the first stop from which on *state* holds until the stop *at*."""
        since = at
        while since and all(
            _holds(state, world)
            for world in (self.placed[since - 1].world, self.placed[since - 1].after)
        ):
            since -= 1
        return since

    def ending_after(self, at: int) -> tuple[State, ...]:
        """Return what the task needs and what another one ends first after it.

        What holds until the last stop could be done at any time.
        """
        here = self.placed[at]
        for later in self.placed[at:-1]:
            ending = [state for state in here.task.asks if not _holds(state, later.after)]
            if ending:
                return () if later is here else _weightiest(ending)
        return ()


@lru_cache(maxsize=10_000)
def _holds(state: State, world: World) -> bool:
    return meets(world, needs_of([state]))


def _cold(task: Task) -> tuple[State, ...]:
    cold = ("engine", "off_cold")
    return (cold,) if cold in task.asks else ()


def _without(here: Placed, world: World) -> World:
    """Return *world* as it would be in what *here* changes, had *here* not been done."""
    changed = {
        aspect: before
        for aspect, (before, after) in enumerate(zip(here.world, here.after, strict=True))
        if before != after
    }
    return tuple(changed.get(aspect, value) for aspect, value in enumerate(world))


def _is_undone(here: Placed, world: World) -> bool:
    """Whether nothing of what *here* has changed is left in *world*."""
    return not any(
        before != after and world[aspect] == after
        for aspect, (before, after) in enumerate(zip(here.world, here.after, strict=True))
    )


def _weightiest(states: Iterable[State]) -> tuple[State, ...]:
    """Return one state an aspect, and no key where the engine or the drive system tells more."""
    found: dict[str, State] = {}
    for state in states:
        found.setdefault(state[0], state)
    if found.keys() & {"engine", "drive"}:
        found.pop("key", None)
    return tuple(found.values())


def _stops_in_words(numbers: tuple[int, ...]) -> str:
    if len(numbers) == 1:
        return f"stop {numbers[0]}"
    *most, last = numbers
    return f"stops {', '.join(map(str, most))} and {last}"
