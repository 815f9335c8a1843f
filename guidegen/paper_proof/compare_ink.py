"""Whether all that is read can be seen.

Takes in one side; records letters that are hidden, pale, covered or out of the safe area, fonts
that do not come with the file, and texts that stand further up or left than those before them.
Refuses to take a side for readable because its words can be copied out of the file.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.sheet_model import Box, DrawnRead, SideRead, TextRead
from guidegen.proof.contrast import Rgba, contrast
from guidegen.proof.faults import Faults

Color = tuple[int, int, int]
"""Red, green and blue, to 255."""

MILLIMETER = 72 / 25.4
"""Points."""

LEAST_CONTRAST = 4.5
"""WCAG 2.2, 1.4.3."""

_SLACK = 0.1 * MILLIMETER
_OVERSHOOT = 0.03
"""Of the height of type: round letters and digits reach a little over the capitals."""

_SLACK_OF_LINES = 0.5 * MILLIMETER
"""The border of a caution stands on the edge of the safe area, half of it outside."""

_NO_INK = 0.1
_PAPER: Color = (255, 255, 255)


@dataclass(frozen=True, slots=True)
class Ink:
    """What is seen of one side."""

    side: SideRead
    safe: Box
    """What the seal of a laminate leaves."""

    mark: str
    """``side 3``."""

    faults: Faults

    def compare(self) -> None:
        """Look at every object of the side."""
        grounds = list[DrawnRead]()
        for each in self.side.objects:
            if isinstance(each, DrawnRead):
                if each.fills:
                    grounds.append(each)
                self._compare_edge(each.box, "a line or picture", _SLACK_OF_LINES)
            elif each.text.strip():
                self._compare_text(each, grounds)
            elif each.box.width > _NO_INK and each.box.height > _NO_INK:
                self._add(rules.TEXT_HIDDEN, "shows letters that cannot be read back from the file")
        for text in self._covered(grounds):
            self._add(rules.TEXT_HIDDEN, f"`{text.text.strip()}` is covered by what is drawn later")

    def _compare_text(self, read: TextRead, grounds: Sequence[DrawnRead]) -> None:
        said = read.text.strip()
        if read.hidden:
            self._add(rules.TEXT_HIDDEN, f"`{said}` is hidden by {read.hidden}")
        if not read.is_embedded:
            self._add(rules.FONT_NOT_EMBEDDED, f"`{said}` is set in `{read.font}`, not in the file")
        apart = min(_apart(read.color, each) for each in _under(read.box, grounds))
        if apart < LEAST_CONTRAST:
            self._add(rules.TEXT_PALE, f"`{said}` has a contrast of {apart:.1f}")
        self._compare_edge(read.box, f"`{said}`", slack_of(read))

    def _compare_edge(self, box: Box, what: str, slack: float) -> None:
        if not self.safe.holds(box, slack):
            self._add(rules.OUTSIDE_SAFE_AREA, f"{what} reaches out of the safe area")

    def _covered(self, grounds: Sequence[DrawnRead]) -> list[TextRead]:
        return [
            text
            for text in self.side.texts
            if text.text.strip()
            and any(each.place > text.place and each.box.touches(text.box) for each in grounds)
        ]

    def _add(self, rule: Rule, what: str) -> None:
        fix = "repair the template or the theme that this comes from"
        self.faults.add(rule, what, fix=fix, mark=self.mark)


def slack_of(read: TextRead) -> float:
    """Return by how many points *read* may reach out of the safe area."""
    return _SLACK + _OVERSHOOT * read.points


def _under(box: Box, grounds: Sequence[DrawnRead]) -> list[Color]:
    """Return the colors that lie under *box*: to the uppermost that lies under all of it."""
    colors = list[Color]()
    for each in reversed(grounds):
        if each.is_path and each.is_plain and each.box.touches(box):
            colors.append(each.color)
            if each.box.holds(box, 0.5):
                return colors
    return [*colors, _PAPER]


@lru_cache(maxsize=4096)
def _apart(type_color: Color, ground: Color) -> float:
    """Return the contrast of two colors; a file has few, and thousands of texts in them."""
    return contrast(_rgba(type_color), _rgba(ground))


def _rgba(color: Color) -> Rgba:
    red, green, blue = color
    return red / 255, green / 255, blue / 255, 1.0
