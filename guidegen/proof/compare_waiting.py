"""Whether each stop of a round announces the cautions that wait there, and no others.

Takes in what was read of the page and its stops; records signal words that are missing, made up
or drawn as others, and symbols that are missing or too many.
Refuses a drawing anywhere but beside a signal word that speaks of injury, and in the plan.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.procedures.model import Signal
from guidegen.proof import rules
from guidegen.proof.compare_plan import PLAN
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder
from guidegen.proof.model import Within
from guidegen.proof.read_html import Body, Opening
from guidegen.proof.round_claims import StopClaims

_SEE_TEMPLATE = "repair the template of the inspection round"


@dataclass(frozen=True, slots=True)
class Waiting:
    """The signal words at the stops of one page."""

    stops: Sequence[StopClaims]
    faults: Faults

    def compare(self, body: Body) -> None:
        """Hold signal words, how they are drawn, and symbols against the cautions."""
        opened = [e for e in body.openings if e.holder is Holder.WAITING]
        self._compare_words(opened, body.signals)
        self._compare_symbols(body.symbols)

    def _wanted(self) -> Iterator[tuple[Within, Signal]]:
        for stop in self.stops:
            for signal in stop.signals:
                yield Within(stop=stop.number, waiting=signal.value), signal

    def _compare_words(self, opened: Sequence[Opening], drawn: Sequence[str]) -> None:
        wanted = list(self._wanted())
        if [opening.within for opening in opened] != [within for within, _ in wanted]:
            what = f"{len(opened)} signal words wait at the stops, and not {len(wanted)}"
            self.faults.add(rules.SIGNAL_WORD_DIFFERS, what, fix=_SEE_TEMPLATE)
        if drawn != [signal.value for _, signal in wanted]:
            what = f"they are drawn as `{' '.join(drawn)}`"
            self.faults.add(rules.SIGNAL_WORD_DIFFERS, what, fix=_SEE_TEMPLATE)
        for opening in opened:
            if opening.signal != opening.key:
                what = f"is drawn as `{opening.signal}` and not as `{opening.key}`"
                self._report(rules.SIGNAL_WORD_DIFFERS, what, opening.within)

    def _compare_symbols(self, symbols: Iterable[Within]) -> None:
        drawn = Counter(symbols)
        wanted = {w: 0 if signal is Signal.NOTICE else 1 for w, signal in self._wanted()}
        wanted[Within(figure=PLAN)] = 1
        for within in {**wanted, **drawn}:
            if drawn[within] != wanted.get(within, 0):
                what = f"`{within.waiting}` stands with {drawn[within]} drawings that are seen"
                self._report(rules.ALERT_SYMBOL_DIFFERS, what, within)

    def _report(self, rule: Rule, what: str, within: Within) -> None:
        span = next((stop.span for stop in self.stops if stop.number == within.stop), None)
        mark = f'{Holder.STOP.value}="{within.stop}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, span=span, mark=mark)
