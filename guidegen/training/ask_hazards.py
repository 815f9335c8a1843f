"""Questions for hazards.

Takes in a guide; gives out drafts that ask which hazard it warns of right before a step.
Refuses wrong answers that could be meant too: those of the same procedure, and those that share
a telling word with a hazard of the step.
"""

import re
from collections.abc import Iterator, Mapping

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

_Hazards = tuple[Mapping[str, Text], Mapping[str, frozenset[str]], frozenset[str]]
"""All hazards by id, the telling words of each, and those of the step's procedure."""


def hazard_drafts(guide: Guide) -> Iterator[Draft]:
    """Yield a draft for each caution of *guide*."""
    cautions = [
        (placed, block)
        for placed in told_apart(guide)
        for block in placed.procedure.blocks
        if isinstance(block, Caution)
    ]
    hazards = {block.hazard.id: block.hazard for _, block in cautions}
    told = {id_: _telling(text) for id_, text in hazards.items()}
    of_procedure: dict[str, frozenset[str]] = {}
    for placed, caution in cautions:
        so_far = of_procedure.get(placed.procedure.id, frozenset())
        of_procedure[placed.procedure.id] = so_far | told[caution.hazard.id]
    for placed, caution in cautions:
        step = _guarded(placed, caution)
        if step is None:
            continue
        texts = (placed.procedure.title, step.text, caution.hazard)
        if any(map(names_truck, texts)):
            continue
        own = of_procedure[placed.procedure.id]
        asking = _asking(placed, caution, step.text)
        yield Draft(
            kind=asking.kind,
            subject=asking.subject,
            weight=_WEIGHTS[caution.signal],
            write=_writer(asking, caution.hazard, (hazards, told, own)),
        )


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


def _writer(asking: Asking, right: Text, hazards: _Hazards) -> Write:
    texts, told, own = hazards

    def write(lots: Lots) -> Question | None:
        choices = [
            text
            for id_, text in texts.items()
            if own.isdisjoint(told[id_]) and not names_truck(text)
        ]
        wrong = drawn_wrong(choices, asking, lots)
        return asking.answered(right, wrong, lots) if len(wrong) >= FEWEST_WRONG else None

    return write


def _telling(text: Text) -> frozenset[str]:
    """Return the words that tell the hazard, without their endings."""
    words = set(_WORD.findall(plain_words(text))) - _EVERYWHERE
    return frozenset(word.removesuffix("s") for word in words)
