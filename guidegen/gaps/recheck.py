"""Values that are older than the fleet wants them to be.

Takes in units, the day and the fleet's own limit; gives out the values to be checked again, each
once, with the trucks that have it. Refuses to know what day it is: the day is passed in.
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Old:
    """One value that was recorded too long ago."""

    name: str
    """Dotted name of the fact."""

    on: str
    """Day on which it was recorded, as ``2026-03-02``."""

    by: str
    """Who recorded it; empty if nobody said."""

    source: str
    place: str
    """``path:line:column`` of the value."""

    units: Sequence[str]
    """Numbers of the trucks that have it."""
