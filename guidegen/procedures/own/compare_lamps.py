"""What the fleet's words for a lamp have otherwise than the library's.

Takes in both templates; gives out every change, what warns less first. Refuses to weigh words: a
line that is worded otherwise warns less until somebody says that it does not; only lines that call
or tell somebody protect nobody at the truck.
"""

import re
from collections.abc import Iterator, Sequence

from guidegen.procedures.model import ProcedureTemplate, StepTemplate
from guidegen.procedures.own.compare import words_of
from guidegen.procedures.own.model import Change, Kind
from guidegen.procedures.words import LAMP_ACTS
from guidegen.source import Span

ACT = "act"
MEANING = "meaning"
SYMBOL = "symbol"

_TELLS = re.compile(r"(call|tell|report)\b", re.IGNORECASE)
_HOLDS_BACK = re.compile(r"\b(before|not|never|stop)\b", re.IGNORECASE)
_SAYS_WHAT_IS_ON = tuple(LAMP_ACTS)[-1]
_STOPS = frozenset({"stop_now", "stop_soon"})


def compare_lamps(
    old: ProcedureTemplate, new: ProcedureTemplate, places: Sequence[int]
) -> tuple[Change, ...]:
    """Return what the lamp *new* has otherwise than *old* of the library.

    Args:
        old: Of the library.
        new: Of the fleet.
        places: For each step of *new* the number of the library's step; 0 if it is of the fleet.
    """
    changes = (
        *_act(old, new),
        *_meaning(old, new),
        *_lines(old, new, places),
        *_symbol(old, new),
    )
    return tuple(sorted(changes, key=lambda change: change.kind is not Kind.CAUTION))


def answerable(lamp: ProcedureTemplate) -> frozenset[str]:
    """Return all of *lamp*, one of the library, that somebody can answer for."""
    return frozenset({ACT, MEANING, *(step.id for step in lamp.steps)})


def _act(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    assert old.lamp is not None  # noqa: S101 -- both are lamps
    assert new.lamp is not None  # noqa: S101 -- ditto
    was, now = old.lamp.act, new.lamp.act
    if was == now:
        return
    acts = list(LAMP_ACTS)
    is_milder = acts.index(now) > acts.index(was)
    how = (f"`{now}` instead of `{was}`",) if is_milder else ()
    words = LAMP_ACTS[was], LAMP_ACTS[now]
    yield Change(Kind.CAUTION, ACT, *words, old.span, new.span, how)


def _meaning(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    was, now = old.expect[0].text, new.expect[0].text
    if words_of(was) == words_of(now):
        return
    assert old.lamp is not None  # noqa: S101 -- both are lamps
    warns = old.lamp.act != _SAYS_WHAT_IS_ON
    kind, how = (Kind.CAUTION, ("another meaning",)) if warns else (Kind.OTHER, ())
    yield Change(kind, MEANING, words_of(was), words_of(now), was.span, now.span, how)


def _lines(
    old: ProcedureTemplate, new: ProcedureTemplate, places: Sequence[int]
) -> Iterator[Change]:
    kept = dict(zip(places, new.steps, strict=True))
    first = next(place for place, number in enumerate(places) if number)
    assert old.lamp is not None  # noqa: S101 -- both are lamps
    for number, step in enumerate(old.steps, start=1):
        other = kept[number]
        how = tuple(_weaker(step, other))
        if number == 1 and first and old.lamp.act in _STOPS:
            how += ("a line of the fleet comes before it",)
        was, now = words_of(step.text), words_of(other.text)
        if how or was != now:
            kind = Kind.CAUTION if how else Kind.STEP
            yield Change(kind, step.id, was, now, step.text.span, other.text.span, how)
    for place, (number, step) in enumerate(zip(places, new.steps, strict=True)):
        if not number:
            before = next((n for n in reversed(places[:place]) if n), 0)
            name = f"after {before}" if before else "before 1"
            yield Change(Kind.STEP, name, "", words_of(step.text), None, step.text.span)


def _weaker(was: StepTemplate, now: StepTemplate) -> Iterator[str]:
    words = words_of(was.text)
    if words != words_of(now.text) and not _only_tells(words):
        yield "other words"


def _only_tells(words: str) -> bool:
    """Whether a line makes the driver call or tell somebody, and hold back nothing meanwhile."""
    return bool(_TELLS.match(words)) and not _HOLDS_BACK.search(words)


def _symbol(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    (was, was_at), (now, now_at) = _looks(old), _looks(new)
    if was != now:
        yield Change(Kind.OTHER, SYMBOL, was, now, was_at, now_at)


def _looks(lamp: ProcedureTemplate) -> tuple[str, Span | None]:
    """Return in words how *lamp* looks, and where that stands; nothing if nobody says."""
    if len(lamp.expect) == 1:
        return "", None
    return words_of(lamp.expect[1].text), lamp.expect[1].text.span
