"""From an inspection round to the view of its page.

Takes in the round of an edition and its guide; gives out the view: the plan, and every stop with
its place, state, reasons and the signal words of the cautions that wait there.
Refuses to repeat steps or cautions: a list that seemed whole would be worked from alone.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.guide.model import Caution, Procedure, Step
from guidegen.procedures.model import Signal
from guidegen.procedures.script_words import ROUND_WORDS
from guidegen.procedures.words import STATES, STATIONS
from guidegen.round.acts import ACTS
from guidegen.round.model import Leg, Round, Stop
from guidegen.round.reasons import PREMISES, reason_words
from guidegen.site.lay_out import Layout, worded
from guidegen.site.round_views import RoundView, StopView
from guidegen.site.views import TextView, Worded
from guidegen.site.ways import ROUND_PAGE, page_head

_ROUND_WORDS = worded(ROUND_WORDS)


def lay_out_round(layout: Layout, tour: Round, plan: Markup, stops: Iterable[Markup]) -> RoundView:
    """Return the view of the page of *tour*, the round of the guide of *layout*.

    Args:
        layout: Of the guide.
        tour: Its round.
        plan: Of the round, as SVG.
        stops: Of the round in order, as they are drawn.
    """
    return RoundView(
        head=page_head("round"),
        premises=tuple(Worded(key, PREMISES[key]) for key in tour.premises),
        plan=plan,
        stops=tuple(stops),
        onward=layout.ways.onward(ROUND_PAGE),
        script_words=_ROUND_WORDS,
    )


def lay_out_stops(layout: Layout, tour: Round) -> Iterator[StopView]:
    """Yield the views of the stops of *tour*, the round of the guide of *layout*, in order."""
    laying = _Laying(layout, tour)
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        yield laying.stop(stop, leg)


@dataclass(frozen=True, slots=True)
class _Laying:
    layout: Layout
    tour: Round

    def stop(self, stop: Stop, leg: Leg) -> StopView:
        procedure = self.layout.drawn[stop.procedure].procedure
        return StopView(
            number=stop.number,
            id=f"stop-{stop.number}",
            acts=tuple(Worded(change.act, ACTS[change.act]) for change in leg.changes),
            href=self.layout.procedure_page(procedure.id),
            procedure=procedure.id,
            title=self.title(stop, procedure),
            is_step=stop.step is not None,
            signals=tuple(
                (signal.value, signal is not Signal.NOTICE)
                for signal in self.signals(stop, procedure)
            ),
            station=Worded(stop.station, STATIONS[stop.station]),
            states=tuple(
                Worded(f"{aspect}.{state}", STATES[aspect][state]) for aspect, state in stop.state
            ),
            reasons=tuple(
                Worded(f"{stop.number}.{reason.kind.value}", reason_words(reason))
                for reason in stop.reasons
            ),
        )

    def title(self, stop: Stop, procedure: Procedure) -> TextView:
        if stop.step is None:
            return self.layout.texts.text(procedure.title)
        step = _step_id(procedure.id, stop.step)
        blocks = (each for each in procedure.blocks if isinstance(each, Step))
        return self.layout.texts.text(next(each.text for each in blocks if each.id == step))

    def signals(self, stop: Stop, procedure: Procedure) -> Sequence[Signal]:
        """Return the signals of the cautions that wait at *stop*, gravest first.

        What guards a step that is a stop of its own waits there.
        """
        own = None if stop.step is None else _step_id(procedure.id, stop.step)
        elsewhere = {
            _step_id(other.procedure, other.step)
            for other in self.tour.stops
            if other.step is not None and other.procedure == procedure.id
        }
        waiting = {
            block.signal
            for block in procedure.blocks
            if isinstance(block, Caution)
            and (block.guards == own if own else block.guards not in elsewhere)
        }
        return [signal for signal in Signal if signal in waiting]


def _step_id(procedure: str, step: str) -> str:
    return f"{procedure}.steps.{step}"
