"""The closed lists that the timer of a step chooses from.

Takes in nothing; gives out kinds of timers, what a driver reads when one ends, what a limit asks
and which truck it is for, as procedure files name them.
Refuses words: what drivers read of them stands in ``script_words``.
"""

import enum
from collections.abc import Mapping
from types import MappingProxyType

from guidegen.quantity.model import Dimension


class TimerKind(enum.Enum):
    """What a timer does."""

    STOPWATCH = "stopwatch"
    """Measures how long something takes."""

    COUNTDOWN = "countdown"
    """Runs for a time that a fact states."""


class ReadingKind(enum.Enum):
    """What a driver reads on a gauge when the timer has ended."""

    PRESSURE_FALL = "pressure_fall"
    """By how much the pressure has fallen."""


class Bound(enum.Enum):
    """What a limit asks, in the words of its source."""

    LESS_THAN = "less_than"
    """The limit itself is too much."""

    NO_MORE_THAN = "no_more_than"
    """The limit itself is in order."""

    AT_LEAST = "at_least"
    USUAL = "usual"
    """What it takes as a rule; nothing is judged by it."""


class Rig(enum.Enum):
    """What a limit is for, where it hangs on what is coupled."""

    TRUCK_ALONE = "truck_alone"
    WITH_TRAILER = "with_trailer"


READ_IN: Mapping[ReadingKind, Dimension] = MappingProxyType(
    {ReadingKind.PRESSURE_FALL: Dimension.PRESSURE}
)
"""What each reading is measured in."""
