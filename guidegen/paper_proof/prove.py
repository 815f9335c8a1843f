"""The proof of printed matter.

Takes in the bytes of a PDF and all that it must say; gives out a verdict.
Refuses to guess: what cannot be read back is not proved.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guidegen.decks.model import Card, Issue
from guidegen.guide.model import Guide
from guidegen.paper_proof import rules
from guidegen.paper_proof.booklet_claims import BookletOrder, claims_of_booklet
from guidegen.paper_proof.card_claims import claims_of_card
from guidegen.paper_proof.compare_code import CodeFaults, compare_code
from guidegen.paper_proof.compare_flow import compare_flow
from guidegen.paper_proof.compare_groups import Groups
from guidegen.paper_proof.compare_head import Head, compare_head
from guidegen.paper_proof.compare_index import Index
from guidegen.paper_proof.compare_ink import Ink
from guidegen.paper_proof.compare_paper import compare_file, compare_paper, safe_of, trim_of
from guidegen.paper_proof.compare_words import Words
from guidegen.paper_proof.logo import ON_CARDS, ON_COVERS, ON_SHEETS, LogoRead, without_logo
from guidegen.paper_proof.model import CodePlace, Expected, PaperCounts, PaperVerdict, Part
from guidegen.paper_proof.page_named import (
    compare_bookmarks,
    compare_links,
    compare_pages,
    sides_of,
)
from guidegen.paper_proof.placed import Placed, wanted_of
from guidegen.paper_proof.quiz_claims import claims_of_quiz
from guidegen.paper_proof.read_pdf import PdfRead, UnreadablePdf
from guidegen.paper_proof.sheet_claims import SheetOrder
from guidegen.paper_proof.sheet_model import SideRead, TextRead
from guidegen.paper_proof.siblings import ProvedCards, Reading
from guidegen.paper_proof.signoff_claims import claims_of_signoff
from guidegen.paper_proof.stream import Stream, stream_of
from guidegen.paper_proof.unchecked import UNCHECKED
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults
from guidegen.proof.read_text import fold
from guidegen.training.model import Quiz


def prove_card(  # noqa: PLR0913, PLR0917 -- what was drawn, what should have been, what is known
    pdf: bytes,
    card: Card,
    guide: Guide,
    issue: Issue,
    values: Values | None = None,
    known: ProvedCards | None = None,
    logo: LogoRead | None = None,
) -> PaperVerdict:
    """Return what the proof finds of the PDF of one card.

    Args:
        pdf: What was drawn.
        card: What should have been drawn.
        guide: Of the truck.
        issue: What each side must say of its origin.
        values: Of the truck, with what was proved of them before; saves reading them again.
        known: Cards of other trucks that were proved; what is the same is not read again.
        logo: The fleet's mark, if its theme states one.
    """
    expected = claims_of_card(card, guide, issue)
    if known is None:
        return prove_paper(pdf, expected, values, logo)
    counts = known.found(pdf, expected, card.kind.id)
    if counts is not None:
        return PaperVerdict(counts, (), UNCHECKED)
    verdict, reading = _proved_and_read(pdf, expected, values, logo)
    if verdict.is_proved and reading is not None:
        known.keep(pdf, expected, card.kind.id, verdict.counts, reading)
    return verdict


def prove_booklet(pdf: bytes, order: BookletOrder, logo: LogoRead | None = None) -> PaperVerdict:
    """Return what the proof finds of the PDF of a booklet."""
    return prove_paper(pdf, claims_of_booklet(order), logo=logo)


def prove_quiz_sheet(
    pdf: bytes, quiz: Quiz, order: SheetOrder, logo: LogoRead | None = None
) -> PaperVerdict:
    """Return what the proof finds of the PDF of a quiz with its key."""
    return prove_paper(pdf, claims_of_quiz(quiz, order), logo=logo)


def prove_signoff(
    pdf: bytes, order: SheetOrder, known: Guide | None = None, logo: LogoRead | None = None
) -> PaperVerdict:
    """Return what the proof finds of the PDF of a sign-off sheet.

    Args:
        pdf: What was drawn.
        order: Of which truck, on which paper.
        known: Guide of the truck that the driver is signed off on, if there is one.
        logo: The fleet's mark, if its theme states one.
    """
    return prove_paper(pdf, claims_of_signoff(order, known), logo=logo)


def prove_cards(
    drawn: Iterable[tuple[Card, bytes]],
    guide: Guide,
    issue: Issue,
    known: ProvedCards | None = None,
    logo: LogoRead | None = None,
) -> PaperVerdict:
    """Return what the proof finds of all cards of one truck, each with its PDF.

    Args:
        drawn: The cards as they were dealt, with what was drawn.
        guide: Of the truck.
        issue: What each side must say of its origin.
        known: Keep it while trucks of one edition follow one another: see `ProvedCards`.
        logo: The fleet's mark, if its theme states one.
    """
    values = Values(guide.facts)
    verdicts = (prove_card(pdf, card, guide, issue, values, known, logo) for card, pdf in drawn)
    return sum(verdicts, PaperVerdict(PaperCounts(), (), UNCHECKED))


def prove_paper(
    pdf: bytes, expected: Expected, values: Values | None = None, logo: LogoRead | None = None
) -> PaperVerdict:
    """Return what the proof finds of *pdf*, which must say what is *expected* and nothing else."""
    return _proved_and_read(pdf, expected, values, logo)[0]


def _proved_and_read(
    pdf: bytes, expected: Expected, values: Values | None, logo: LogoRead | None
) -> tuple[PaperVerdict, Reading | None]:
    if logo is not None:
        expected = replace(expected, spoken=expected.spoken | {fold(logo.alt)})
    faults = Faults(expected.guide.number, expected.file)
    counts, reading = PaperCounts(), None
    try:
        with PdfRead(pdf) as read:
            known = values or Values({**expected.guide.facts, **expected.others})
            counts, reading = _Proof(expected, read, known, faults, logo).prove()
    except UnreadablePdf as error:
        faults.add(
            rules.NOT_READABLE,
            f"cannot be opened: {error}",
            fix="draw it again",
            span=expected.span,
        )
    for question, what in expected.unsound.items():
        faults.add(
            rules.QUESTION_UNSOUND,
            f"asks `{question}`, of which {what}",
            fix="repair what writes the quiz",
            span=expected.span,
            mark=question,
        )
    return PaperVerdict(counts, tuple(faults.found), UNCHECKED), reading


@dataclass(frozen=True, slots=True)
class _Proof:
    expected: Expected
    pdf: PdfRead
    values: Values
    faults: Faults
    logo: LogoRead | None

    def prove(self) -> tuple[PaperCounts, Reading]:
        compare_file(self.pdf, self.expected, self.values, self.faults)
        whole, sides, codes = list[SideRead](), list[SideRead](), list[int]()
        for number in range(len(self.pdf)):
            whole.append(self.pdf.side(number))
            side = self._without_logo(whole[-1], number)
            sides.append(side)
            codes.append(self._code(side, number))
        compare_paper(sides, self.expected, self.values, self.faults)
        counts = self._compare(sides, sum(map(bool, codes)))
        return counts, Reading(tuple(whole), codes[0] if codes else 0)

    def _compare(self, sides: list[SideRead], codes: int) -> PaperCounts:
        body, rest = self._parted(sides)
        words = Words(tuple(wanted_of(self.expected.groups)), body, self.values, self.faults)
        words.compare()
        groups = Groups(self.expected, sides, body, self.pdf.picture, self.faults)
        groups.compare(words.placed)
        index = Index(self.expected.index, rest, self.values, self.faults)
        index.compare()
        named = (*words.pages, *index.named)
        at = sides_of(words.placed, body)
        compare_pages(named, at, self.faults)
        wanted = self.expected.bookmarks or ()
        compare_bookmarks(wanted, self.pdf.bookmark_sides, at, self.faults)
        compare_links(sides, named, self.faults)
        for number, side in enumerate(sides):
            mark = f"side {number + 1}"
            Ink(side, safe_of(side, self.expected), mark, self.faults).compare()
            texts = [text for text in side.texts if not text.is_head]
            compare_flow(texts, _in_figures(words.placed, body, number), mark, self.faults)
            label = self.expected.continued
            goes_on = groups.opens_side(number, words.placed)
            head = Head(
                () if self.expected.is_bound and number == 0 else self.expected.head,
                number,
                len(sides),
                groups.chapter_of(number, words.placed),
                goes_on,
                label,
                self.expected.span,
            )
            around = [text for text in side.texts if text.is_head and not self._leads(text)]
            compare_head(head, around, self.values, self.faults)
        return replace(
            self._found(words.placed), sides=len(sides), codes=codes, values=words.read_values
        )

    def _without_logo(self, side: SideRead, number: int) -> SideRead:
        on_each = self.expected.code is CodePlace.EACH_HEAD
        if self.logo is None or not (on_each or number == 0):
            return side
        place = ON_CARDS if on_each else ON_COVERS if self.expected.is_bound else ON_SHEETS
        return without_logo(side, self.logo, place, f"side {number + 1}", self.faults)

    def _parted(self, sides: list[SideRead]) -> tuple[Stream, Stream]:
        """Return the body, to the heading of the index if there is one, and what follows it."""
        reads = [
            (number, text)
            for number, side in enumerate(sides)
            for text in side.texts
            if not text.is_head
        ]
        end = len(reads)
        if self.expected.index:
            heading = self.expected.groups[-1].pieces[-1].pattern
            last = [at for at, (_, text) in enumerate(reads) if text.text.strip() == heading]
            end = last[-1] + 1 if last else end
        return stream_of(reads[:end]), stream_of(reads[end:])

    def _leads(self, text: TextRead) -> bool:
        """Whether it is a line of dots, which leads from words to the number of a page."""
        return self.expected.is_bound and not text.text.strip(" .")

    def _code(self, side: SideRead, number: int) -> int:
        in_body = self.expected.code is CodePlace.FIRST_BODY
        if not self.expected.link or (number and in_body):
            return 0
        return compare_code(
            side,
            trim_of(side, self.expected),
            self.expected.link,
            lambda box, dots: self.pdf.picture(number, box, dots),
            CodeFaults(self.faults, f"side {number + 1}"),
        )

    def _found(self, placed: list[Placed]) -> PaperCounts:
        """Return what the body holds, if every piece of it was found."""
        wanted = sum(len(group.pieces) for group in self.expected.groups)
        return self.expected.counts if len(placed) == wanted else PaperCounts()


def _in_figures(placed: list[Placed], body: Stream, side: int) -> frozenset[int]:
    return frozenset(
        read.place
        for each in placed
        if each.wanted.piece.part is Part.FIGURE and each.sides(body)[0] == side
        for read in each.reads(body)
    )
