"""Whether a PDF is of the size that was asked for, and is no more than its pages.

Takes in what was read of the file and its sides; records what differs. Refuses what lies over a
page, beside it or behind it: paper shows none of it.
"""

from collections.abc import Iterator, Sequence

from guidegen.finding import Rule
from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_ink import MILLIMETER
from guidegen.paper_proof.match import is_said
from guidegen.paper_proof.model import CodePlace, Expected
from guidegen.paper_proof.read_pdf import PdfRead
from guidegen.paper_proof.sheet_model import Box, SideRead
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import fold

_SLACK = 0.05
"""Points."""

_LINE = 2.0
"""Points: what is drawn around a body is code and logo, and lines that are no thicker."""


def trim_of(side: SideRead, expected: Expected) -> Box:
    """Return the trimmed side: as the page states it, or what the bleed leaves of the paper."""
    return side.trim or side.paper.grown(-float(expected.bleed) * MILLIMETER)


def safe_of(side: SideRead, expected: Expected) -> Box:
    """Return the part of the trimmed side that text may stand on."""
    return trim_of(side, expected).grown(-float(expected.safe) * MILLIMETER)


def compare_file(pdf: PdfRead, expected: Expected, values: Values, faults: Faults) -> None:
    """Hold the file itself against what is expected."""
    if pdf.title != expected.document:
        faults.add(
            rules.TITLE_DIFFERS,
            f"is titled `{pdf.title}` and not `{expected.document}`",
            fix="set the title of the document from the truck and the card",
            span=expected.span,
        )
    for extra in pdf.extras:
        faults.add(
            rules.MORE_THAN_PAGES,
            f"holds {extra}",
            fix="take them out of the file",
            span=expected.span,
        )
    for bookmark in _strange_bookmarks(pdf, expected, values):
        faults.add(
            rules.UNCLAIMED_TEXT,
            f"has the bookmark `{bookmark}`, which is not in this truck's guide, or not there",
            fix="let bookmarks be the headings of the sheet",
            span=expected.span,
        )
    if expected.bookmarks is not None and len(pdf.bookmarks) < len(expected.bookmarks):
        faults.add(
            rules.TEXT_MISSING,
            f"has {len(pdf.bookmarks)} bookmarks and not {len(expected.bookmarks)}",
            fix="let bookmarks be the headings of the sheet",
            span=expected.span,
        )


def _strange_bookmarks(pdf: PdfRead, expected: Expected, values: Values) -> Iterator[str]:
    if expected.bookmarks is None:
        patterns = {piece.pattern for group in expected.groups for piece in group.pieces}
        yield from (each for each in pdf.bookmarks if fold(each) not in patterns)
        return
    for place, bookmark in enumerate(pdf.bookmarks):
        wanted = expected.bookmarks[place : place + 1]
        if not any(is_said(piece.pattern, fold(bookmark), values) for piece in wanted):
            yield bookmark


def compare_paper(
    sides: Sequence[SideRead], expected: Expected, values: Values, faults: Faults
) -> None:
    """Hold the size of each side against what is expected, and what lies over it."""
    for number, side in enumerate(sides, start=1):
        spoken = _faults_of_spoken(side, expected, values)
        for rule, what in (*_faults_of(side, expected), *spoken):
            faults.add(
                rule,
                what,
                fix="repair the template that sets the page",
                span=expected.span,
                mark=f"side {number}",
            )


def _faults_of(side: SideRead, expected: Expected) -> Iterator[tuple[Rule, str]]:
    yield from _faults_of_size(side, expected)
    notes = side.annotations + (0 if expected.is_bound else len(side.links))
    if notes:
        yield rules.MORE_THAN_PAGES, f"has {notes} notes or links over it"
    pictures = sum(each.is_artifact and not each.is_plain for each in side.drawn)
    has_code = bool(expected.link) and expected.code is CodePlace.EACH_HEAD
    if pictures > has_code:
        yield rules.FIGURE_DIFFERS, "has a picture beside the body, and it is no code"
    # Grounds and borders of cautions are marked as the head is, and stand around words.
    body = max((text.box.top for text in side.texts if not text.is_head), default=0.0)
    shapes = [each.box for each in side.drawn if each.is_artifact and each.is_plain]
    if any(box.bottom > body and min(box.width, box.height) > _LINE for box in shapes):
        yield rules.FIGURE_DIFFERS, "has a shape above the body, and it is no line"


def _faults_of_spoken(
    side: SideRead, expected: Expected, values: Values
) -> Iterator[tuple[Rule, str]]:
    for each in side.spoken:
        if each in expected.spoken:
            continue
        if not any(is_said(pattern, fold(each), values) for pattern in expected.spoken):
            yield rules.SPOKEN_DIFFERS, f"says `{each}` aloud for a picture"


def _faults_of_size(side: SideRead, expected: Expected) -> Iterator[tuple[Rule, str]]:
    width, height, bleed = expected.side.width, expected.side.height, expected.bleed
    for what, box, around in (("paper", side.paper, bleed), ("trim", side.trim, 0)):
        if box is None:
            continue
        wanted = [float(each + 2 * around) * MILLIMETER for each in (width, height)]
        if abs(box.width - wanted[0]) > _SLACK or abs(box.height - wanted[1]) > _SLACK:
            measured = f"{box.width / MILLIMETER:.2f} mm by {box.height / MILLIMETER:.2f} mm"
            says = f"{what} measures {measured} and not {width} mm by {height} mm"
            yield rules.SIZE_DIFFERS, f"{says}, {bleed} mm of bleed apart"
    if side.trim is not None and not _is_centered(side.trim, side.paper):
        yield rules.SIZE_DIFFERS, "trim does not lie in the middle of the paper"
    if expected.bleed and side.trim is None:
        yield rules.SIZE_DIFFERS, "page does not say where it is to be trimmed"
    if side.is_turned or not _is_whole(side):
        yield rules.SIZE_DIFFERS, "page is turned, or shows a part of itself"


def _is_whole(side: SideRead) -> bool:
    """Whether viewers show all of the paper, or all that is left when it is trimmed."""
    return side.visible.holds(side.trim or side.paper, _SLACK)


def _is_centered(trim: Box, paper: Box) -> bool:
    return (
        abs((trim.left - paper.left) - (paper.right - trim.right)) < _SLACK
        and abs((trim.bottom - paper.bottom) - (paper.top - trim.top)) < _SLACK
    )
