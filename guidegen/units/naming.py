"""Several units in one breath.

Takes in unit numbers; gives out words for a note.
Refuses to list a fleet: beyond a dozen it counts.
"""

from collections.abc import Collection

MOST_NAMED = 12
"""Units that are named; of more it is said how many."""


def named_units(numbers: Collection[str]) -> str:
    """Return *numbers* as words.

    >>> named_units(["T-17", "T-18"])
    'T-17, T-18'
    """
    many = len(numbers) > MOST_NAMED
    return f"{len(numbers):,} trucks" if many else ", ".join(numbers)
