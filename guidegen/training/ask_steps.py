"""Questions for the order of steps.

Takes in a guide; gives out drafts that ask for the step right after or before another.
Refuses answers whose place is a matter of taste or of the case: looks could often be taken in
another order, and a step that begins with `If` is not always done.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from guidegen.guide.model import Caution, Guide, Step, Text
from guidegen.training.draft import (
    WEIGHTS,
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

_LOOK_WORDS = "check compare count feel find listen look measure read watch"
_LOOKS = frozenset(_LOOK_WORDS.split())
_CASES = ("if ", "when ")
_GUARDED = 2
"""How much likelier a step with a caution before it is asked for."""


@dataclass(frozen=True, slots=True)
class _Line:
    """A step with what is known of it."""

    text: Text
    words: str
    names_truck: bool
    is_guarded: bool

    @property
    def is_look(self) -> bool:
        return self.words.split(maxsplit=1)[0] in _LOOKS

    @property
    def is_always_done(self) -> bool:
        return not self.words.startswith(_CASES)


def step_drafts(guide: Guide) -> Iterator[Draft]:
    """Yield a draft for each step and the one after it, asked for from either side."""
    for placed in told_apart(guide):
        yield from _drafts_of(placed)


@once_a_procedure
def _drafts_of(placed: Placed) -> tuple[Draft, ...]:
    return tuple(_found_in(placed))


def _found_in(placed: Placed) -> Iterator[Draft]:
    procedure = placed.procedure
    # House rules hold at any time, in no order.
    if procedure.lamp is not None or not procedure.station or names_truck(procedure.title):
        return
    lines = tuple(_lines(placed))
    counts = Counter(line.words for line in lines)
    for pair in pairwise(lines):
        if all(
            counts[line.words] == 1 and line.is_always_done and not line.names_truck
            for line in pair
        ):
            yield from _both_ways(placed, pair, lines)


def _lines(placed: Placed) -> Iterator[_Line]:
    blocks = placed.procedure.blocks
    guarded = {block.guards for block in blocks if isinstance(block, Caution)}
    for block in blocks:
        if isinstance(block, Step):
            text = block.text
            yield _Line(text, plain_words(text), names_truck(text), block.id in guarded)


def _both_ways(
    placed: Placed, pair: tuple[_Line, _Line], lines: tuple[_Line, ...]
) -> Iterator[Draft]:
    first, second = pair
    standing = standing_of_work(placed.chapter, first.text, second.text)
    factor = _GUARDED if first.is_guarded or second.is_guarded else 1
    for kind, quoted, right in (
        (QuestionKind.STEP_AFTER, first, second),
        (QuestionKind.STEP_BEFORE, second, first),
    ):
        if right.is_look:
            continue
        asking = Asking(
            kind=kind,
            subject=quoted.text.id,
            about=(placed.procedure.title, quoted.text),
            where=Where(placed.chapter, placed.procedure.id, right.text.id),
            standing=standing,
            asks=frozenset({text_key(quoted.text.id)}),
        )
        yield Draft(
            kind=kind,
            subject=asking.subject,
            weight=WEIGHTS[standing.rank] * factor,
            write=_writer(asking, right.text, (pair, lines)),
        )


def _writer(
    asking: Asking, right: Text, given: tuple[tuple[_Line, _Line], tuple[_Line, ...]]
) -> Write:
    pair, lines = given

    def write(lots: Lots) -> Question | None:
        said = {line.words for line in pair}
        choices = [line.text for line in lines if not line.names_truck and line.words not in said]
        wrong = drawn_wrong(choices, asking, lots)
        return asking.answered(right, wrong, lots) if len(wrong) >= FEWEST_WRONG else None

    return write
