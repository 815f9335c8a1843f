"""What follows from one procedure of a guide, worked out once.

Takes in a function of a procedure and its chapter; gives out the same function, which remembers.
Refuses to compare, as `guidegen.guide.once` does.
"""

from collections.abc import Callable
from typing import TypeVar

from guidegen.guide.model import Procedure
from guidegen.guide.once import once_for_each
from guidegen.training.draft import Placed

R = TypeVar("R")


def once_a_procedure(work: Callable[[Placed], R]) -> Callable[[Placed], R]:
    """Return *work*, done once for each procedure; what it gives out must not be changed."""

    @once_for_each
    def by_chapter(_procedure: Procedure) -> dict[str, R]:
        return {}

    def remembered(placed: Placed) -> R:
        known = by_chapter(placed.procedure)
        if placed.chapter not in known:
            known[placed.chapter] = work(placed)
        return known[placed.chapter]

    return remembered
