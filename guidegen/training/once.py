"""What follows from one procedure of a guide, worked out once.

Takes in a function of a procedure and its chapter; gives out the same function, which remembers.
Refuses to compare: editions that are fitted together share their procedures, and one that is made
anew is worked out anew, though it may read alike.
"""

from collections.abc import Callable
from typing import TypeVar

from guidegen.guide.model import Procedure
from guidegen.training.draft import Placed

R = TypeVar("R")

_MOST = 4096
"""Procedures that are remembered: those of some ten thousand editions of one fleet."""


def once_a_procedure(work: Callable[[Placed], R]) -> Callable[[Placed], R]:
    """Return *work*, done once for each procedure; what it gives out must not be changed."""
    known: dict[tuple[str, int], tuple[Procedure, R]] = {}

    def remembered(placed: Placed) -> R:
        # The procedure is kept, so that no other can come to have its number.
        key = (placed.chapter, id(placed.procedure))
        if key not in known:
            if len(known) >= _MOST:
                known.clear()
            known[key] = (placed.procedure, work(placed))
        return known[key][1]

    return remembered
