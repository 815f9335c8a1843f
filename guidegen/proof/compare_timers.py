"""Whether each timer of a page runs and judges as the guide has it.

Takes in what was read of a page and the steps of its edition; records timers that are missing,
made up or of another kind, limits of another bound or rig, and seconds that are not the fact's.
Refuses seconds that no fact states: the script would judge by them unseen.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from guidegen.guide.model import Guide, Timer
from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims, PageClaims
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder
from guidegen.proof.read_html import Opening
from guidegen.quantity.model import Dimension, Quantity
from guidegen.units.model import Fact

_SEE_TEMPLATE = "repair the macro that draws timers"

TIMER_HOLDERS = frozenset(
    {
        *(Holder.TIMER, Holder.TIMER_KIND, Holder.TIMER_READING),
        *(Holder.TIMER_LINE, Holder.SECONDS),
    }
)
"""What tells a script how to run a timer."""

_Told = tuple[str, str, Holder, str]
"""Step, line, what is told, and as what."""


@dataclass(frozen=True, slots=True)
class Timers:
    """The timers of one page held against the guide."""

    page: PageClaims
    claims: EditionClaims
    guide: Guide
    faults: Faults

    def compare(self, openings: Iterable[Opening]) -> None:
        """Hold what the page tells the script, timer by timer and in order, against the guide."""
        read = [
            (opening.within.timer, opening.within.line, opening.holder, opening.key)
            for opening in openings
            if opening.holder in TIMER_HOLDERS
        ]
        facts = self.guide.facts
        wanted = [told for step, timer in self._timers() for told in _told(step, timer, facts)]
        if read == wanted:
            return
        for told in read:
            if told not in wanted:
                self._add(told, "is not so in the guide")
        for told in wanted:
            if told not in read:
                self._add(told, "is not there")
        if sorted(read) == sorted(wanted) or len(read) != len(set(read)):
            self._add(read[0], "stands there twice or in another order, or others do")

    def _timers(self) -> Iterator[tuple[str, Timer]]:
        for claim in self.page.sequence:
            step = self.claims.steps.get(claim.key)
            if step is not None and step.timer is not None:
                yield step.id, step.timer

    def _add(self, told: _Told, what: str) -> None:
        step, line, holder, key = told
        named = self.claims.steps.get(step)
        place = f'{Holder.TIMER_LINE.value}="{line}" ' if line and holder is Holder.SECONDS else ""
        self.faults.add(
            rules.TIMER_DIFFERS,
            f'{place}{holder.value}="{key}" {what}',
            fix=_SEE_TEMPLATE,
            span=named.text.span if named else None,
            mark=f'{Holder.TIMER.value}="{step}"',
        )


def _told(step: str, timer: Timer, facts: Mapping[str, Fact]) -> Iterator[_Told]:
    yield step, "", Holder.TIMER, step
    yield step, "", Holder.TIMER_KIND, timer.kind.value
    if timer.reading is not None:
        yield step, "", Holder.TIMER_READING, timer.reading.value
    lines = [("time", timer.time)] if timer.time is not None else []
    lines += [(limit.key, limit.fact) for limit in timer.limits]
    for line, fact in lines:
        yield step, line, Holder.TIMER_LINE, line
        seconds = _seconds_of(facts[fact])
        if seconds:
            yield step, line, Holder.SECONDS, seconds
    if timer.only_measures:
        yield step, "no_limit", Holder.TIMER_LINE, "no_limit"


def _seconds_of(fact: Fact) -> str:
    """Return the whole seconds of a time; nothing of a range or of anything else."""
    value = fact.value
    if not isinstance(value, Quantity) or value.dimension is not Dimension.TIME:
        return ""
    seconds = value.amount * (value.measure.factor.numerator // value.measure.factor.denominator)
    return str(int(seconds)) if seconds == int(seconds) else ""
