"""Questions for hazards.

Takes in a guide; gives out drafts that ask which hazard it warns of right before a step.
Refuses wrong answers that could be meant too: those of the same procedure, and those that share
a telling word with a hazard of the step.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.guide.model import Caution, Guide, Step, Text
from guidegen.procedures.model import Signal
from guidegen.training.draft import (
    Asking,
    Draft,
    Placed,
    Write,
    drawn_wrong,
    names_truck,
    plain_words,
    standing_of_work,
    told_apart,
)
from guidegen.training.fleet_values import FEWEST_WRONG
from guidegen.training.lots import Lots
from guidegen.training.model import Question, QuestionKind, Where, text_key
from guidegen.training.once import once_a_procedure

_WEIGHTS: Mapping[Signal, int] = {
    Signal.DANGER: 12,
    Signal.WARNING: 8,
    Signal.CAUTION: 2,
    Signal.NOTICE: 1,
}
"""How much likelier a caution of each signal word is asked for than another; an own choice."""

_WORD = re.compile(r"[a-z]{4,}")
_EVERYWHERE_WORDS = (
    "after another away before behind between can close comes does down each even from goes hide "
    "into keep keeps long make makes more most near nothing open other outside over people person "
    "right shut soon stay still than that them then there they thing things this through truck "
    "under when where while with without work your"
)
_EVERYWHERE = frozenset(_EVERYWHERE_WORDS.split())
"""Words that tell no hazard from another."""


@dataclass(frozen=True, slots=True)
class _Hazard:
    """A caution with what is known of it."""

    caution: Caution
    told: frozenset[str]
    """The telling words."""

    asking: Asking | None
    """None if nobody can be asked for it."""

    own: frozenset[str]
    """The telling words of all cautions of its procedure."""


def hazard_drafts(guide: Guide) -> Iterator[Draft]:
    """Yield a draft for each caution of *guide*."""
    by_procedure = [_hazards_of(placed) for placed in told_apart(guide)]
    found = [hazard for hazards in by_procedure for hazard in hazards]
    choices = {each.caution.hazard.id: each for each in found}
    for each in found:
        if each.asking is not None:
            yield Draft(
                kind=each.asking.kind,
                subject=each.asking.subject,
                weight=_WEIGHTS[each.caution.signal],
                write=_writer(each.asking, each, choices),
            )


@once_a_procedure
def _hazards_of(placed: Placed) -> tuple[_Hazard, ...]:
    blocks = placed.procedure.blocks
    cautions = [block for block in blocks if isinstance(block, Caution)]
    told = [_telling(each.hazard) for each in cautions]
    own = frozenset[str]().union(*told)
    return tuple(
        _Hazard(each, words, _asked(placed, each), own)
        for each, words in zip(cautions, told, strict=True)
    )


def _asked(placed: Placed, caution: Caution) -> Asking | None:
    step = _guarded(placed, caution)
    if step is None:
        return None
    texts = (placed.procedure.title, step.text, caution.hazard)
    return None if any(map(names_truck, texts)) else _asking(placed, caution, step.text)


def _guarded(placed: Placed, caution: Caution) -> Step | None:
    """Return the step that *caution* guards; nothing if another step has the same words."""
    steps = [block for block in placed.procedure.blocks if isinstance(block, Step)]
    step = next(each for each in steps if each.id == caution.guards)
    words = [plain_words(each.text) for each in steps]
    return step if words.count(plain_words(step.text)) == 1 else None


def _asking(placed: Placed, caution: Caution, step: Text) -> Asking:
    return Asking(
        kind=QuestionKind.HAZARD,
        subject=caution.id,
        about=(placed.procedure.title, step),
        where=Where(placed.chapter, placed.procedure.id, caution.hazard.id),
        standing=standing_of_work(placed.chapter, step, caution.hazard),
        asks=frozenset({text_key(caution.id)}),
    )


def _writer(asking: Asking, right: _Hazard, hazards: Mapping[str, _Hazard]) -> Write:
    def write(lots: Lots) -> Question | None:
        choices = [
            each.caution.hazard
            for each in hazards.values()
            if right.own.isdisjoint(each.told) and not names_truck(each.caution.hazard)
        ]
        wrong = drawn_wrong(choices, asking, lots)
        return (
            asking.answered(right.caution.hazard, wrong, lots)
            if len(wrong) >= FEWEST_WRONG
            else None
        )

    return write


def _telling(text: Text) -> frozenset[str]:
    """Return the words that tell the hazard, without their endings."""
    words = set(_WORD.findall(plain_words(text))) - _EVERYWHERE
    return frozenset(word.removesuffix("s") for word in words)
