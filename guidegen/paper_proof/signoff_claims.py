"""What a sign-off sheet must say.

Takes in the guide of a truck, the sheet's issue and the guide of the truck that the driver knows,
if there is one; gives out what differs, a line for every procedure with what is to be seen and the
cautions to be read aloud, and the blanks to be signed.
Refuses names: who signs is written by hand.
"""

from collections.abc import Iterator
from decimal import Decimal

from guidegen.guide.model import Caution, Chapter, Guide, Procedure
from guidegen.paper_proof.booklet_claims import HOLES
from guidegen.paper_proof.model import CodePlace, Expected, Group, PaperCounts, Part, Piece
from guidegen.paper_proof.pieces import LEAST_SMALL
from guidegen.paper_proof.sheet_claims import (
    SheetOrder,
    piece_of_words,
    sheet_head,
    sheet_opening,
)
from guidegen.paper_proof.signoff_differences import facts_of_known, groups_of_differences
from guidegen.procedures.model import Signal
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_ACTS
from guidegen.proof.read_text import fold, pattern_of
from guidegen.training.words import SIGNOFF_WORDS

_NOTES = ("no_license", "all_cautions", "by_hand")
_COLUMNS = ("shows", "cautions", "done", "more", "initials")
_SIGN = ("signature", "date")


def claims_of_signoff(order: SheetOrder, known: Guide | None = None) -> Expected:
    """Return all that the PDF of a sign-off sheet must say.

    Args:
        order: Of which truck, on which paper.
        known: Guide of the truck that the driver is signed off on, if there is one.
    """
    guide, title = order.guide, SIGNOFF_WORDS["signoff"]
    if known is not None:
        title = f"{SIGNOFF_WORDS['signoff_knows']} {known.number}"
    notes = (*(SIGNOFF_WORDS[note] for note in _NOTES), LABELS["handbook_first"])
    return Expected(
        file=f"{guide.number}/signoff{f'-from-{known.number}' if known else ''}.pdf",
        guide=guide,
        document=f"{guide.number}: {title}",
        side=order.side,
        head=sheet_head(title, order),
        groups=(
            sheet_opening(title, notes, order),
            *(groups_of_differences(known, order) if known else ()),
            *(group for chapter in guide.chapters for group in _chapter(chapter, order)),
            _signatures(order),
        ),
        link=order.issue.link,
        bleed=Decimal(0),
        safe=HOLES,
        spoken=frozenset({order.issue.link}),
        span=order.span,
        counts=PaperCounts(procedures=sum(len(each.procedures) for each in guide.chapters)),
        code=CodePlace.FIRST_BODY,
        others=facts_of_known(known) if known else {},
    )


def _chapter(chapter: Chapter, order: SheetOrder) -> Iterator[Group]:
    columns = fold(" ".join(SIGNOFF_WORDS[column] for column in _COLUMNS))
    yield Group(tuple(_chapter_opening(chapter, columns, order)))
    for procedure in chapter.procedures:
        yield Group(tuple(_line(procedure)), opens=False, running=columns)


def _chapter_opening(chapter: Chapter, columns: str, order: SheetOrder) -> Iterator[Piece]:
    title = CHAPTERS[chapter.id]
    yield piece_of_words(title, f"heading `{title}`", order.span)
    if any(procedure.lamp for procedure in chapter.procedures):
        yield piece_of_words(SIGNOFF_WORDS["lamp_shows"], "the note on lamps", order.span)
    yield piece_of_words(columns, f"columns of `{title}`", order.span, LEAST_SMALL)


def _line(procedure: Procedure) -> Iterator[Piece]:
    title, of = procedure.title, f"`{procedure.id}`"
    shows = _shows(procedure)
    words = f"{pattern_of(title)} {shows}" if shows else pattern_of(title)
    yield Piece(Part.STEP, words, f"line of {of}", title.span)
    cautions = " ".join(_cautions(procedure))
    if cautions:
        of = f"cautions of {of}"
        yield Piece(Part.TALLY, cautions, of, procedure.span, LEAST_SMALL)


def _shows(procedure: Procedure) -> str:
    """Return the pattern of what is to be seen, or of what a lamp asks for."""
    if procedure.lamp is not None:
        return fold(LAMP_ACTS[procedure.lamp.act])
    return pattern_of(procedure.expect[0]) if procedure.expect else ""


def _cautions(procedure: Procedure) -> Iterator[str]:
    found = [block.signal for block in procedure.blocks if isinstance(block, Caution)]
    for signal in Signal:
        count = found.count(signal)
        if count:
            yield signal.value if count == 1 else f"{count} \u00d7 {signal.value}"


def _signatures(order: SheetOrder) -> Group:
    lines = (
        " ".join(SIGNOFF_WORDS[word] for word in (who, *_SIGN)) for who in ("driver", "trainer")
    )
    return Group(tuple(piece_of_words(line, f"blank `{line}`", order.span) for line in lines))
