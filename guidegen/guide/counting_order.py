"""The order in which people look for a unit number.

Takes in a number; gives out a sort key by which T-9 comes before T-17.
Refuses nothing: a number without digits sorts by its letters.
"""

import re

_DIGITS = re.compile(r"(\d+)")


def in_counting_order(number: str) -> list[tuple[int, str]]:
    """Return the sort key of a unit's *number*."""
    return [(int(part), "") if part.isdigit() else (0, part) for part in _DIGITS.split(number)]
