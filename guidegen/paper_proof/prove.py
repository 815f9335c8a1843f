"""The proof of printed matter.

Takes in the bytes of a PDF and all that it must say; gives out a verdict.
Refuses to guess: what cannot be read back is not proved.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from guidegen.decks.model import Card, Issue
from guidegen.guide.model import Guide
from guidegen.paper_proof import rules
from guidegen.paper_proof.card_claims import claims_of_card
from guidegen.paper_proof.compare_code import CodeFaults, compare_code
from guidegen.paper_proof.compare_flow import compare_flow
from guidegen.paper_proof.compare_groups import Groups
from guidegen.paper_proof.compare_head import Head, compare_head
from guidegen.paper_proof.compare_ink import Ink
from guidegen.paper_proof.compare_paper import compare_file, compare_paper, safe_of, trim_of
from guidegen.paper_proof.compare_words import Words
from guidegen.paper_proof.model import Expected, PaperCounts, PaperVerdict, Part
from guidegen.paper_proof.placed import Placed, wanted_of
from guidegen.paper_proof.read_pdf import PdfRead, UnreadablePdf
from guidegen.paper_proof.sheet_model import SideRead
from guidegen.paper_proof.stream import Stream, stream_of
from guidegen.paper_proof.unchecked import UNCHECKED
from guidegen.paper_proof.values import Values
from guidegen.proof.faults import Faults


def prove_card(
    pdf: bytes, card: Card, guide: Guide, issue: Issue, values: Values | None = None
) -> PaperVerdict:
    """Return what the proof finds of the PDF of one card.

    Args:
        pdf: What was drawn.
        card: What should have been drawn.
        guide: Of the truck.
        issue: What each side must say of its origin.
        values: Of the truck, with what was proved of them before; saves reading them again.
    """
    return prove_paper(pdf, claims_of_card(card, guide, issue), values)


def prove_cards(drawn: Iterable[tuple[Card, bytes]], guide: Guide, issue: Issue) -> PaperVerdict:
    """Return what the proof finds of all cards of one truck, each with its PDF."""
    values = Values(guide.facts)
    verdicts = (prove_card(pdf, card, guide, issue, values) for card, pdf in drawn)
    return sum(verdicts, PaperVerdict(PaperCounts(), (), UNCHECKED))


def prove_paper(pdf: bytes, expected: Expected, values: Values | None = None) -> PaperVerdict:
    """Return what the proof finds of *pdf*, which must say what is *expected* and nothing else."""
    faults = Faults(expected.guide.number, expected.file)
    counts = PaperCounts()
    try:
        with PdfRead(pdf) as read:
            known = values or Values(expected.guide.facts)
            counts = _Proof(expected, read, known, faults).prove()
    except UnreadablePdf as error:
        faults.add(
            rules.NOT_READABLE,
            f"cannot be opened: {error}",
            fix="draw it again",
            span=expected.span,
        )
    return PaperVerdict(counts, tuple(faults.found), UNCHECKED)


@dataclass(frozen=True, slots=True)
class _Proof:
    expected: Expected
    pdf: PdfRead
    values: Values
    faults: Faults

    def prove(self) -> PaperCounts:
        compare_file(self.pdf, self.expected, self.faults)
        sides, codes = list[SideRead](), 0
        for number in range(len(self.pdf)):
            side = self.pdf.side(number)
            sides.append(side)
            codes += self._code(side, number)
        compare_paper(sides, self.expected, self.faults)
        return self._compare(sides, codes)

    def _compare(self, sides: list[SideRead], codes: int) -> PaperCounts:
        body = stream_of(
            (number, text)
            for number, side in enumerate(sides)
            for text in side.texts
            if not text.is_head
        )
        words = Words(tuple(wanted_of(self.expected.groups)), body, self.values, self.faults)
        words.compare()
        groups = Groups(self.expected, sides, body, self.faults)
        groups.compare(words.placed)
        for number, side in enumerate(sides):
            mark = f"side {number + 1}"
            Ink(side, safe_of(side, self.expected), mark, self.faults).compare()
            texts = [text for text in side.texts if not text.is_head]
            compare_flow(texts, _in_figures(words.placed, body, number), mark, self.faults)
            label = self.expected.continued
            goes_on = groups.opens_side(number, words.placed) if label else ""
            head = Head(self.expected.head, number, len(sides), goes_on, label, self.expected.span)
            around = [text for text in side.texts if text.is_head]
            compare_head(head, around, self.values, self.faults)
        return replace(
            self._found(words.placed), sides=len(sides), codes=codes, values=words.read_values
        )

    def _code(self, side: SideRead, number: int) -> bool:
        if not self.expected.link:
            return False
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
