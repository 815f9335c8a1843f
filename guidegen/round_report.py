"""An inspection round as a person or a program reads it.

Takes in a round and the guide of its truck; gives out lines of text, or values for JSON.
Refuses to put a stop anywhere but where the round has it.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from guidegen.guide.model import Guide, Procedure, Step, Text
from guidegen.procedures.model import Words
from guidegen.procedures.words import STATES, STATIONS
from guidegen.round.acts import ACTS
from guidegen.round.model import Round, Stop
from guidegen.round.reasons import PREMISES, reason_words


def format_round(tour: Round, guide: Guide) -> str:
    """Return *tour* as text: what it takes for granted, then stop by stop, each with its why."""
    titles = _titles(guide)
    head = (
        f"the round of {guide.number}: {len(tour.stops)} stops, {tour.changes} changes of state, "
    )
    lines = [head + f"about {_meters(tour.millimeters)} m to walk"]
    lines += [f"  {PREMISES[key]}" for key in tour.premises]
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        lines += [f"      {ACTS[change.act]}" for change in leg.changes]
        lines.append(f"  {stop.number:2}. {_name(stop, titles)}, {STATIONS[stop.station]}")
        lines += [f"      why: {reason_words(reason)}" for reason in stop.reasons]
    return "\n".join(lines) + "\n"


def round_as_json(tour: Round, guide: Guide) -> dict[str, Any]:
    """Return *tour* as plain values; lengths in meters."""
    titles = _titles(guide)
    return {
        "unit": guide.number,
        "changes": tour.changes,
        "meters": _meters(tour.millimeters),
        "premises": [PREMISES[key] for key in tour.premises],
        "stops": [
            {
                "number": stop.number,
                "procedure": stop.procedure,
                "step": stop.step,
                "title": _name(stop, titles),
                "station": STATIONS[stop.station],
                "state": [STATES[aspect][state] for aspect, state in stop.state],
                "before": [ACTS[change.act] for change in leg.changes],
                "why": [reason_words(reason) for reason in stop.reasons],
            }
            for stop, leg in zip(tour.stops, tour.legs, strict=True)
        ],
    }


def _titles(guide: Guide) -> Mapping[str, str]:
    return dict(_named(guide))


def _named(guide: Guide) -> Iterator[tuple[str, str]]:
    for chapter in guide.chapters:
        for procedure in chapter.procedures:
            yield procedure.id, _words(procedure.title)
            yield from _steps(procedure)


def _steps(procedure: Procedure) -> Iterator[tuple[str, str]]:
    for block in procedure.blocks:
        if isinstance(block, Step):
            yield block.id, _words(block.text)


def _name(stop: Stop, titles: Mapping[str, str]) -> str:
    name = stop.procedure if stop.step is None else f"{stop.procedure}.steps.{stop.step}"
    return titles[name].rstrip(".")


def _words(text: Text) -> str:
    return "".join(part.text if isinstance(part, Words) else "…" for part in text.parts)


def _meters(millimeters: int) -> int:
    return round(millimeters / 1000)
