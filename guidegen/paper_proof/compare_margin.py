"""What stands on a sheet beside its cards.

Takes in what is drawn on a face apart from its sides, and the trimmed places; records notes that
differ, stand on a card or cannot be read, and trim marks that would have a card cut elsewhere.
Refuses anything else that is drawn there.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import LEAST_CONTRAST, MILLIMETER
from guidegen.paper_proof.pieces import LEAST_SMALL
from guidegen.paper_proof.sheet_model import Box, DrawnRead, TextRead, around
from guidegen.proof.contrast import WHITE, contrast
from guidegen.proof.faults import Faults

STRIP = 14 * MILLIMETER
"""Points at the head and at the foot of a sheet that a note takes; cards that reach into it leave
no waste to write on."""

RULERS = (50 * MILLIMETER, 144.0)
"""Points: what the measuring lines say of themselves, 50 mm and 2 in."""

_THIN = 1.0
_NEAR = 0.1 * MILLIMETER
_EDGE = 1.1 * MILLIMETER
"""Points from the edge of the sheet within which nobody can cut."""

_FIX = "repair what draws notes and trim marks on sheets"


@dataclass(frozen=True, slots=True)
class Margin:
    """What is drawn on one face beside its cards."""

    loose: Sequence[TextRead | DrawnRead]
    trims: Sequence[Box]
    """Of all cards that are cut out of the sheet, those with a blank back too."""

    paper: Box
    foot: frozenset[str]
    """Lines that must stand at the foot, each once."""

    head: frozenset[str]
    """Names that must stand at the head, in any order."""

    mark: str
    faults: Faults

    def compare(self) -> None:
        """Look at every text and line."""
        for rule, what in (*self._faults_of_note(), *self._faults_of_lines()):
            self.faults.add(rule, what, fix=_FIX, mark=self.mark)

    @property
    def has_strips(self) -> bool:
        """Whether there is waste to write on."""
        block = around(self.trims)
        return min(block.bottom, self.paper.height - block.top) >= STRIP

    def _faults_of_note(self) -> Iterator[tuple[Rule, str]]:
        texts = [each for each in self.loose if isinstance(each, TextRead) and each.text.strip()]
        for text in texts:
            said = text.text.strip()
            if not self._is_beside(text.box):
                yield rules.SHEET_NOTE_DIFFERS, f"`{said}` stands on a card or beside the sheet"
            red, green, blue = (part / 255 for part in text.color)
            is_pale = contrast((red, green, blue, 1.0), WHITE) < LEAST_CONTRAST
            if text.hidden or not text.is_embedded or is_pale or text.points < LEAST_SMALL:
                yield rules.SHEET_NOTE_DIFFERS, f"`{said}` cannot be read on paper"
        block = around(self.trims)
        foot = [text.text.strip() for text in texts if text.box.top <= block.bottom]
        head = " ".join(text.text.strip() for text in texts if text.box.bottom >= block.top)
        if Counter(foot) != Counter(self.foot if self.has_strips else ()):
            yield rules.SHEET_NOTE_DIFFERS, f"says at its foot `{'; '.join(foot)}`"
        wanted = self.head if self.has_strips else frozenset()
        if Counter(head.split("; ") if head else ()) != Counter(wanted):
            says = "; ".join(sorted(wanted))
            yield rules.SHEET_NOTE_DIFFERS, f"says at its head `{head}` and not `{says}`"

    def _is_beside(self, box: Box) -> bool:
        return self.paper.holds(box) and not any(trim.touches(box, _NEAR) for trim in self.trims)

    def _is_on_card(self, line: Box) -> bool:
        """Whether *line* is off the sheet, or on a card and not on its edge, where it is cut."""
        x, y = (line.left + line.right) / 2, (line.bottom + line.top) / 2
        if line.width > line.height:
            axis = Box(line.left, y - _NEAR, line.right, y + _NEAR)
        else:
            axis = Box(x - _NEAR, line.bottom, x + _NEAR, line.top)
        is_on = any(trim.touches(axis, 1.5 * _NEAR) for trim in self.trims)
        return is_on or not self.paper.holds(line, _THIN)

    def _faults_of_lines(self) -> Iterator[tuple[Rule, str]]:
        lines = [each for each in self.loose if isinstance(each, DrawnRead)]
        block = around(self.trims)
        upright, level = list[float](), list[float]()
        rulers = list[float]()
        for each in lines:
            box = each.box
            is_line = each.is_path and each.strokes and not each.fills and each.is_plain
            if not is_line or min(box.width, box.height) > _THIN or self._is_on_card(box):
                yield rules.SHEET_MARK_DIFFERS, "has a drawing that is no trim mark"
            elif self.has_strips and box.top < min(STRIP, block.bottom):
                rulers += [box.width] if box.width > box.height else []
            elif box.height > box.width:
                upright.append((box.left + box.right) / 2)
            else:
                level.append((box.bottom + box.top) / 2)
        for found, wanted, along in (
            (upright, {edge for trim in self.trims for edge in (trim.left, trim.right)}, "width"),
            (level, {edge for trim in self.trims for edge in (trim.bottom, trim.top)}, "height"),
        ):
            cuts = self._cuts(wanted, self.paper.width if along == "width" else self.paper.height)
            if not _are_marked(cuts, found):
                yield rules.SHEET_MARK_DIFFERS, f"has not two marks on each cut along its {along}"
        wanted_rulers = RULERS if self.has_strips else ()
        if len(rulers) != len(wanted_rulers) or any(
            abs(one - two) > _THIN
            for one, two in zip(sorted(rulers), sorted(wanted_rulers), strict=True)
        ):
            yield rules.SHEET_MARK_DIFFERS, "has measuring lines of another length than they say"

    def _cuts(self, edges: set[float], length: float) -> list[float]:
        """Return where to cut, without what is the edge of the sheet; each once."""
        cuts = list[float]()
        for edge in sorted(edges):
            if _EDGE < edge < length - _EDGE and not any(abs(edge - cut) <= _NEAR for cut in cuts):
                cuts.append(edge)
        return cuts


def _are_marked(cuts: Sequence[float], marks: Sequence[float]) -> bool:
    """Whether each cut has two marks, and there are no others."""
    counts = [sum(abs(mark - cut) <= _NEAR for mark in marks) for cut in cuts]
    return counts == [2] * len(cuts) and len(marks) == 2 * len(cuts)
