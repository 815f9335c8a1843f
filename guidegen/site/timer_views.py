"""From the timer of a step to its view.

Takes in a timer and the facts of its guide in words; gives out its lines, which say all that it
does without a script, and the exact seconds that a script needs.
Refuses to reckon: measures are printed as everywhere, and seconds are exact or not there.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.guide.model import Timer
from guidegen.procedures.script_words import TIMER_LINES
from guidegen.quantity.model import Dimension, Quantity
from guidegen.site.views import TimerLineView, TimerView, Worded
from guidegen.units.model import Fact


@dataclass(frozen=True, slots=True)
class TimerLayout:
    """Facts of one guide, and how each is printed."""

    facts: Mapping[str, Fact]
    words: Mapping[str, str]

    def view(self, timer: Timer | None) -> TimerView | None:
        """Return the view of *timer*."""
        if timer is None:
            return None
        reading = timer.reading.value if timer.reading else ""
        return TimerView(timer.kind.value, reading, tuple(self._lines(timer)))

    def _lines(self, timer: Timer) -> Iterator[TimerLineView]:
        if timer.time is not None:
            yield self._line("time", "time", timer.time)
        for limit in timer.limits:
            rig = Worded(limit.rig.value, TIMER_LINES[limit.rig.value]) if limit.rig else None
            yield self._line(limit.key, f"{timer.kind.value}.{limit.bound.value}", limit.fact, rig)
        if timer.only_measures:
            yield TimerLineView("no_limit", Worded("no_limit", TIMER_LINES["no_limit"]), "", "")

    def _line(self, key: str, head: str, fact: str, rig: Worded | None = None) -> TimerLineView:
        worded = Worded(head, TIMER_LINES[head])
        return TimerLineView(key, worded, fact, self.words[fact], rig, self._seconds(fact))

    def _seconds(self, fact: str) -> str:
        value = self.facts[fact].value
        if not isinstance(value, Quantity) or value.dimension is not Dimension.TIME:
            return ""
        # Times in records are whole seconds, or halves and tenths of hours, which are that too.
        exact = value.exact
        return str(exact.numerator) if exact.denominator == 1 else ""
