"""What went wrong where the words of a sheet are not those that must stand there.

Takes in the pieces that were not found and the words that stand in their place; records what a
person would say of it. Refuses to keep quiet about words that it cannot explain.
"""

import re
from dataclasses import dataclass
from difflib import SequenceMatcher

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.match import match, words_of
from guidegen.paper_proof.model import Part, Piece
from guidegen.paper_proof.placed import Wanted
from guidegen.paper_proof.stream import Stream
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import plain

_SEE_TEMPLATE = "repair the template that draws {of}"
_LONGEST = 100
_ALIKE = 0.6
"""Share of letters from which on words are taken for the changed form of others."""

_ALIKE_WITH_OTHERS = frozenset({Part.TALLY, Part.SIDE_OF_TWO})
"""Parts of which many read the same: where one stands says nothing of another."""

_MISSING = {
    Part.CAUTION: rules.CAUTION_MISSING,
    Part.TALLY: rules.CAUTION_MISSING,
    Part.STEP: rules.STEP_MISSING,
    Part.DIFFERENCE: rules.DIFFERENCE_MISSING,
    Part.SIDE_OF_TWO: rules.SIDE_NOT_TOLD,
    Part.VALUE: rules.VALUE_MISSING,
    Part.FIGURE: rules.FIGURE_DIFFERS,
}


@dataclass(frozen=True, slots=True)
class Gap:
    """A stretch where the words are not those that must stand there."""

    missing: tuple[Wanted, ...]
    stray: str
    """Words that stand there instead."""

    wanted: tuple[Wanted, ...]
    """All pieces."""

    stream: Stream
    values: Values
    position: int
    """Where it begins."""

    def elsewhere(self, piece: Piece) -> int | None:
        """Return where *piece* stands instead, if it stands as often as it is wanted."""
        if piece.part in _ALIKE_WITH_OTHERS:
            return None
        text, pattern = self.stream.text, _whole(piece)
        places = [e for e in self.stream.starts if match(pattern, text, e, self.values)]
        wanted = sum(_whole(each.piece) == pattern for each in self.wanted)
        if not places or len(places) < wanted:
            return None
        return min(places, key=lambda place: abs(place - self.position))


def _whole(piece: Piece) -> str:
    return f"{piece.pattern} {piece.after}" if piece.after else piece.pattern


def report_gap(gap: Gap, faults: Faults) -> None:
    """Record what is wrong in *gap*."""
    explained = not gap.stray
    for wanted in gap.missing:
        rule, what, uses_stray = _fault_of(wanted.piece, gap)
        explained = explained or uses_stray
        _add(rule, what, wanted.piece, faults)
    if not explained:
        _report_stray(gap, faults)


def _fault_of(piece: Piece, gap: Gap) -> tuple[Rule, str, bool]:
    """Return what is wrong with *piece*, and whether that explains the words in its place."""
    elsewhere = gap.elsewhere(piece)
    if elsewhere is not None:
        side = gap.stream.side(elsewhere) + 1
        if piece.part is Part.CAUTION and elsewhere > gap.position:
            what = f"{piece.of} stands after its step, on side {side}"
            return rules.CAUTION_AFTER_ITS_STEP, what, False
        rule = rules.OUT_OF_ORDER
        if piece.part is Part.DIFFERENCE:
            rule = rules.DIFFERENCE_OUT_OF_ORDER
        return rule, f"{piece.of} stands in another place, on side {side}", False
    expected = plain(piece.pattern)
    if piece.signal and words_of(piece.pattern.removeprefix(piece.signal)).search(gap.stray):
        what = f"{piece.of} reads `{_cut(gap.stray)}` and not `{piece.signal}`"
        return rules.SIGNAL_WORD_DIFFERS, what, True
    if piece.trucks and _is_of_another(piece, gap.stray):
        what = f"{piece.of} reads `{_cut(gap.stray)}` and not `{_cut(expected)}`"
        return rules.SIDE_NOT_TOLD, what, True
    if gap.stray and _is_alike(expected, gap.stray):
        what = f"{piece.of} reads `{_cut(gap.stray)}` and not `{_cut(expected)}`"
        return rules.TEXT_DIFFERS, what, True
    rule = _MISSING.get(piece.part, rules.TEXT_MISSING)
    return rule, f"{piece.of} is missing: `{_cut(expected)}`", False


def _is_of_another(piece: Piece, stray: str) -> bool:
    """Whether *stray* may be *piece* under the number of another truck, or under none."""
    if not stray or any(number not in stray for number in piece.trucks):
        return bool(stray)
    expression, after = "", piece.pattern
    for number in piece.trucks:
        before, _, after = after.partition(number)
        expression += rf"{re.escape(before)}\S+?"
    return re.search(expression + words_of(after).pattern, stray, re.DOTALL) is not None


def _is_alike(expected: str, stray: str) -> bool:
    longest = 3 * len(expected) + 40
    judged = SequenceMatcher(None, expected, stray[:longest], autojunk=False)
    shared = sum(block.size for block in judged.get_matching_blocks())
    return shared >= _ALIKE * max(len(expected), 1)


def _report_stray(gap: Gap, faults: Faults) -> None:
    side = gap.stream.side(gap.position) + 1
    again = next(
        (each.piece for each in gap.wanted if words_of(each.piece.pattern).search(gap.stray)), None
    )
    if again is not None:
        what = f"side {side} shows `{_cut(gap.stray)}` where the guide has it not"
        faults.add(
            rules.UNCLAIMED_TEXT,
            what,
            fix="draw each part once, in the order of the guide",
            span=again.span,
            mark=f"side {side}",
        )
        return
    faults.add(
        rules.UNCLAIMED_TEXT,
        f"side {side} shows `{_cut(gap.stray)}`, which is not in this truck's guide",
        fix="draw what the guide holds and nothing else",
        mark=f"side {side}",
    )


def _add(rule: Rule, what: str, piece: Piece, faults: Faults) -> None:
    fix = _SEE_TEMPLATE.format(of=piece.of)
    faults.add(rule, what, fix=fix, span=piece.span, mark=piece.of)


def _cut(text: str) -> str:
    folded = text.replace("\n", "")
    return folded if len(folded) <= _LONGEST else f"{folded[: _LONGEST - 1]}\u2026"
