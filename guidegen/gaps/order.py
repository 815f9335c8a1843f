"""Which gap to close first.

Takes in the gaps of a fleet; gives out how many trucks each gap alone frees, and an order in which
to close them all. Refuses to count a truck as freed by a gap while it lacks anything else, or while
it has a fault that no gap explains.

The order is greedy: of all trucks that wait, those next whose gaps free the most trucks for each
gap that is closed. A truck that waits for one gap alone comes before one that waits for two, unless
the two free more than twice as many. Finding the best order of all is a set cover, and takes too
long for a large fleet.

What is counted is sure: a truck may be free sooner, if what is found makes another gap pointless.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from guidegen.gaps.catalog import PLACES
from guidegen.gaps.model import FleetGaps, Grade, UnitGaps

_LOOKED_AT = 60
"""Sets of gaps that are weighed at each step, those with the fewest gaps: in a fleet of which every
truck lacks something else, weighing all of them takes minutes."""


@dataclass(frozen=True, slots=True)
class Closing:
    """One gap in the order in which they are closed."""

    name: str
    """Dotted name of the gap."""

    grade: Grade
    """The gravest that it has on any truck."""

    lacking: tuple[str, ...]
    """Numbers of the trucks whose guide hangs on it."""

    frees_alone: int
    """Trucks that lack nothing else: closing this gap frees these, whatever is found."""

    freed: tuple[str, ...]
    """Numbers of the trucks that are free once this gap is closed after those before it."""

    freed_so_far: int


def waiting(fleet: FleetGaps) -> Mapping[str, frozenset[str]]:
    """Return what each truck needs that gaps alone hold back, by unit number."""
    return {
        number: unit.needed
        for number, unit in fleet.units.items()
        if unit.is_held_back and not unit.has_other_faults
    }


def closing_order(fleet: FleetGaps) -> tuple[Closing, ...]:
    """Return all gaps that guides hang on, in the order in which closing them frees most trucks.

    Trucks that other faults hold back too are never counted as freed; what only they lack
    comes last.
    """
    needs = waiting(fleet)
    lacking: dict[str, list[str]] = {}
    grades: dict[str, Grade] = {}
    for number, unit in fleet.units.items():
        if not unit.is_held_back:
            continue
        for gap in unit.gaps:
            if gap.grade.is_needed:
                lacking.setdefault(gap.name, []).append(number)
                gravest = grades.get(gap.name, gap.grade)
                grades[gap.name] = min(gap.grade, gravest, key=lambda each: each.rank)
    alone = Counter(name for need in needs.values() if len(need) == 1 for name in need)
    closed: set[str] = set()
    free: set[str] = set()
    order = []
    for name in _greedy(needs, lacking):
        closed.add(name)
        freed = tuple(n for n in lacking[name] if n in needs and needs[n] <= closed)
        free |= set(freed)
        order.append(
            Closing(name, grades[name], tuple(lacking[name]), alone[name], freed, len(free))
        )
    return tuple(order)


def _greedy(needs: Mapping[str, frozenset[str]], lacking: Mapping[str, list[str]]) -> Iterator[str]:
    """Yield every name of *lacking* once."""
    left = Counter(needs.values())
    closed: set[str] = set()
    while left:
        nearest = sorted(left, key=lambda need: (len(need), -left[need], _places(need)))[
            :_LOOKED_AT
        ]
        # The first of several that are worth the same is the one with the fewest gaps.
        best = max(nearest, key=lambda need: _worth(need, left))
        # Within one step, what most trucks lack comes first: it also helps those that wait on.
        for name in sorted(best, key=lambda each: (-len(lacking[each]), PLACES[each])):
            closed.add(name)
            yield name
        rest: Counter[frozenset[str]] = Counter()
        for need, count in left.items():
            if not need <= best:
                rest[need - best] += count
        left = rest
    others = [name for name in lacking if name not in closed]
    yield from sorted(others, key=lambda each: (-len(lacking[each]), PLACES[each]))


def _places(need: frozenset[str]) -> list[int]:
    return sorted(PLACES[name] for name in need)


def _worth(need: frozenset[str], left: Mapping[frozenset[str], int]) -> Fraction:
    """Return how many trucks are freed for each gap of *need*."""
    freed = sum(count for other, count in left.items() if other <= need)
    return Fraction(freed, len(need))


def smallest_set(unit: UnitGaps) -> tuple[str, ...]:
    """Return the names of the gaps that are enough for the guide of *unit*, in order.

    It is the smallest set that is enough whatever is found.
    """
    return tuple(gap.name for gap in unit.gaps if gap.grade.is_needed)
