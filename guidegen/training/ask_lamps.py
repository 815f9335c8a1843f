"""Questions for lamps.

Takes in a guide; gives out drafts that ask what a fitted lamp asks of the driver, and which of
the lamps asks for a stop now.
Refuses lamps that ask for one thing or another: where a step begins with `If`, the act depends
on the case, and where it speaks of a stop, the lamp is no wrong answer to which one asks for it.
"""

import re
from collections.abc import Iterator

from guidegen.differences.rank import LAMP_STANDINGS
from guidegen.guide.model import Guide, Step, Text
from guidegen.procedures.model import LampSign
from guidegen.procedures.words import LAMP_ACTS
from guidegen.training.draft import (
    Asking,
    Draft,
    Placed,
    Write,
    drawn_wrong,
    plain_words,
    told_apart,
)
from guidegen.training.fleet_values import FEWEST_WRONG
from guidegen.training.lots import Lots
from guidegen.training.model import Question, QuestionKind, Term, TermKind, Where, text_key

STOP_NOW = "stop_now"
_WEIGHTS = {STOP_NOW: 12, "stop_soon": 8, "report": 4, "know": 1}
"""How much likelier a lamp of each act is asked for than another; an own choice."""

_STOPS = re.compile(r"\b(?:stop|shut|park|pull over|do not drive)")
_ACTS = tuple(Term(TermKind.LAMP_ACT, act) for act in LAMP_ACTS)


def lamp_drafts(guide: Guide) -> Iterator[Draft]:
    """Yield a draft for each lamp that always asks for the same, and for each that says stop."""
    lamps = [
        (placed, placed.procedure.lamp)
        for placed in told_apart(guide)
        if placed.procedure.lamp is not None
    ]
    harmless = [placed.procedure.title for placed, sign in lamps if not _may_stop(placed, sign)]
    for placed, sign in lamps:
        if not any(text.startswith("if ") for text in _steps(placed)):
            asking = _asking(QuestionKind.LAMP_ACT, placed, sign, (placed.procedure.title,))
            write = _act_writer(asking, Term(TermKind.LAMP_ACT, sign.act))
            yield Draft(kind=asking.kind, subject=sign.id, weight=_WEIGHTS[sign.act], write=write)
        if sign.act == STOP_NOW:
            asking = _asking(QuestionKind.STOP_LAMP, placed, sign, ())
            write = _lamp_writer(asking, placed.procedure.title, harmless)
            yield Draft(kind=asking.kind, subject=sign.id, weight=3, write=write)


def _asking(kind: QuestionKind, placed: Placed, sign: LampSign, about: tuple[Text, ...]) -> Asking:
    own = {text_key(placed.procedure.id)}
    return Asking(
        kind=kind,
        subject=sign.id,
        about=about,
        where=Where(placed.chapter, placed.procedure.id, placed.procedure.id),
        standing=LAMP_STANDINGS[sign.id],
        asks=frozenset(own if kind is QuestionKind.LAMP_ACT else {*own, kind.value}),
    )


def _act_writer(asking: Asking, right: Term) -> Write:
    def write(lots: Lots) -> Question:
        return asking.answered(right, tuple(act for act in _ACTS if act != right), lots)

    return write


def _lamp_writer(asking: Asking, right: Text, harmless: list[Text]) -> Write:
    def write(lots: Lots) -> Question | None:
        wrong = drawn_wrong(harmless, asking, lots)
        return asking.answered(right, wrong, lots) if len(wrong) >= FEWEST_WRONG else None

    return write


def _steps(placed: Placed) -> list[str]:
    return [plain_words(block.text) for block in placed.procedure.blocks if isinstance(block, Step)]


def _may_stop(placed: Placed, sign: LampSign) -> bool:
    return sign.act.startswith("stop") or any(_STOPS.search(words) for words in _steps(placed))
