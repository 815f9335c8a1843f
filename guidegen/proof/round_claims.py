"""What the page of an inspection round must say.

Takes in a guide and its round; gives out, stop by stop and in order, every text that must be
read, where its title leads and which cautions wait there.
Refuses to ask the printing for words: reasons are put together from the closed tables anew.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from guidegen.guide.model import Caution, Procedure
from guidegen.procedures.model import Signal
from guidegen.procedures.words import STATES
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.round.acts import ACTS
from guidegen.round.model import Leg, Reason, Round, Stop
from guidegen.round.plan_view import PlanView, view_round
from guidegen.round.reasons import PREMISES, REASONS
from guidegen.source import Span


@dataclass(frozen=True, slots=True)
class StopClaims:
    """What one stop must say."""

    number: str
    claims: tuple[Claim, ...]
    """In order: acts, number, title, signal words, station, states, reasons."""

    link: str
    """Where its title must lead, from the unit's folder."""

    signals: tuple[Signal, ...]
    """Of the cautions that wait there, gravest first and each once."""

    span: Span


@dataclass(frozen=True, slots=True)
class RoundClaims:
    """What the page of a round must say."""

    stops: tuple[StopClaims, ...]
    premises: tuple[str, ...]
    """Keys, in order."""

    words: Mapping[tuple[Mark, str], str]
    """Fixed words that only this page has, by mark and key."""

    plan: PlanView
    places: Mapping[str, tuple[int, ...]]
    """Numbers of the stops by station, as the plan must show them."""


def round_claims_of(
    procedures: Mapping[str, Procedure], leaf_of: Mapping[str, str], tour: Round
) -> RoundClaims:
    """Return what the page of *tour* must say on the trucks of its edition.

    Args:
        procedures: Of the edition's guide, by id.
        leaf_of: Name of the page that each stands on, by its id.
        tour: The round.
    """
    plan = view_round(tour)
    places: dict[str, tuple[int, ...]] = {}
    for stop in tour.stops:
        places[stop.station] = (*places.get(stop.station, ()), stop.number)
    pairs = zip(tour.stops, tour.legs, strict=True)
    return RoundClaims(
        tuple(
            _claims_of(stop, leg, tour, (leaf_of[stop.procedure], procedures[stop.procedure]))
            for stop, leg in pairs
        ),
        tour.premises,
        dict(_words(tour, plan)),
        plan,
        places,
    )


def _claims_of(stop: Stop, leg: Leg, tour: Round, place: tuple[str, Procedure]) -> StopClaims:
    leaf, procedure = place
    within = Within(stop=str(stop.number))
    signals = tuple(_waiting(stop, tour, procedure))
    claims = [Claim(Mark.ACT, change.act, within) for change in leg.changes]
    claims.append(Claim(Mark.NUMBER, str(stop.number), within))
    if stop.step is None:
        claims.append(Claim(Mark.PROCEDURE_LINK, procedure.id, within))
    else:
        claims.append(Claim(Mark.TEXT, _step_of(stop), within))
    for signal in signals:
        inner = within._replace(waiting=signal.value)
        claims.append(Claim(Mark.SIGNAL_WORD, signal.value, inner))
    claims.append(Claim(Mark.STATION, stop.station, within))
    claims += [Claim(Mark.STATE, f"{aspect}.{state}", within) for aspect, state in stop.state]
    claims += [Claim(Mark.WHY, _key_of(stop, reason), within) for reason in stop.reasons]
    link = f"{leaf}.html#{procedure.id}"
    return StopClaims(str(stop.number), tuple(claims), link, signals, procedure.span)


def _waiting(stop: Stop, tour: Round, procedure: Procedure) -> Iterator[Signal]:
    """Yield the signals of what a driver meets at *stop*; a later step keeps its own cautions."""
    later = {_step_of(e) for e in tour.stops if e.step and e.procedure == stop.procedure}
    met: set[Signal] = set()
    for block in procedure.blocks:
        if isinstance(block, Caution):
            is_met = block.guards == _step_of(stop) if stop.step else block.guards not in later
            met |= {block.signal} if is_met else set()
    yield from sorted(met, key=list(Signal).index)


def _step_of(stop: Stop) -> str:
    return f"{stop.procedure}.steps.{stop.step}"


def _key_of(stop: Stop, reason: Reason) -> str:
    return f"{stop.number}.{reason.kind.value}"


def _words(tour: Round, plan: PlanView) -> Iterator[tuple[tuple[Mark, str], str]]:
    yield from (((Mark.ACT, key), words) for key, words in ACTS.items())
    yield from (((Mark.PREMISE, key), words) for key, words in PREMISES.items())
    for stop in tour.stops:
        for reason in stop.reasons:
            yield (Mark.WHY, _key_of(stop, reason)), _reason(reason)
    yield (Mark.PLAN_WORDS, "title"), plan.title
    yield (Mark.PLAN_WORDS, "description"), plan.description
    for line in plan.writings:
        yield (Mark.PLAN, line.key), line.text


def _reason(reason: Reason) -> str:
    """Return the sentence of *reason*: its kind's words with states or stops in the braces."""
    begin, braces, end = REASONS[reason.kind].partition("{}")
    if not braces:
        return begin
    states = [STATES[aspect][state] for aspect, state in reason.states]
    return begin + ("; ".join(states) if states else _stops(reason.stops)) + end


def _stops(numbers: Iterable[int]) -> str:
    words = [str(number) for number in numbers]
    if len(words) < 2:  # noqa: PLR2004 -- one or more
        return f"stop {''.join(words)}"
    return f"stops {', '.join(words[:-1])} and {words[-1]}"
