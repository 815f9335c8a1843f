"""What follows from one procedure, worked out once.

Takes in a function of a procedure; gives out the same function, which remembers. Refuses to
compare: editions that are fitted together share their procedures, and one that is made anew is
worked out anew, though it may read alike.
"""

from collections.abc import Callable
from typing import TypeVar

from guidegen.guide.model import Procedure

R = TypeVar("R")

_MOST = 4096
"""Procedures that are remembered: those of some ten thousand editions of one fleet."""


def once_for_each(work: Callable[[Procedure], R]) -> Callable[[Procedure], R]:
    """Return *work*, done once for each procedure; what it gives out must not be changed."""
    known: dict[int, tuple[Procedure, R]] = {}

    def remembered(procedure: Procedure) -> R:
        # The procedure is kept, so that no other can come to have its number.
        found = known.get(id(procedure))
        if found is None:
            if len(known) >= _MOST:
                known.clear()
            found = known[id(procedure)] = procedure, work(procedure)
        return found[1]

    return remembered
