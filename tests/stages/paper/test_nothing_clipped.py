"""Whatever is written on a card stands inside its side, or the card is not drawn."""

import pypdfium2  # type: ignore[import-untyped]  # it has no hints
import pytest
from printed import ISSUE, kind, press, theme
from sample_fleet import TRUCKS, procedure

from guidegen.decks.model import Card
from guidegen.finding import Findings
from guidegen.paper.glyphs import SPARE, width_at_most
from guidegen.paper.matter import Matter

TRUCK = TRUCKS[0]
SAFE = 3 / 25.4 * 72
"""Points: the seal of a laminate, reference P5 (practice); here it is our own promise."""


def drawn(text: str, size: str) -> tuple[bytes | None, list[str]]:
    findings = Findings()
    card = Card(kind(size), None, (procedure("odd", "Odd work", (text,)),), (), ())
    pdf = press().draw(card, Matter(TRUCK), ISSUE, findings)
    return pdf, [finding.rule.name for finding in findings]


def letters_outside(pdf: bytes) -> list[str]:
    """Return the letters that stand beyond the safe part of the trimmed side."""
    outside = []
    opened = pypdfium2.PdfDocument(pdf)
    for page in opened:
        left, bottom, right, top = page.get_trimbox()
        text = page.get_textpage()
        for index in range(text.count_chars()):
            x1, y1, x2, y2 = text.get_charbox(index)
            is_blank = x1 == x2 or y1 == y2
            within = (
                left + SAFE - 0.5 <= x1
                and x2 <= right - SAFE + 0.5
                and bottom + SAFE - 0.5 <= y1
                and y2 <= top - SAFE + 0.5
            )
            if not is_blank and not within:
                outside.append(text.get_text_range(index, 1))
    opened.close()
    return outside


@pytest.mark.parametrize("size", ["pocket", "4x6"])
def test_a_word_of_any_length_is_within_or_a_finding(size: str) -> None:
    refused = 0
    for letter in "Wxi":
        for count in range(8, 130, 5):
            pdf, rules = drawn(f"Turn the {letter * count} knob.", size)
            if pdf is None:
                assert rules == ["word-wider-than-side"]
                refused += 1
            else:
                assert letters_outside(pdf) == []
    assert 5 < refused < 70


def test_a_text_of_any_length_is_within_or_a_finding() -> None:
    refused = 0
    for count in range(1, 26):
        pdf, rules = drawn("Walk once around the truck. " * count, "pocket")
        if pdf is None:
            assert rules == ["text-taller-than-side"]
            refused += 1
        else:
            assert refused == 0
            assert letters_outside(pdf) == []
            assert lowest_of_body(pdf) > highest_of_foot(pdf)
    assert refused > 10


def test_no_word_is_wider_than_it_is_said_to_be_at_most() -> None:
    for word in ("AVAVAVAV", "Tomorrow", "office/fluffiest", "WWW", "1,234,567", "f,", "“Yes”"):
        pdf, _ = drawn(word, "letter")
        assert pdf is not None
        opened = pypdfium2.PdfDocument(pdf)
        text = opened[0].get_textpage()
        start = text.get_text_range().index(word)
        boxes = [text.get_charbox(index) for index in range(start, start + len(word))]
        width = max(box[2] for box in boxes) - min(box[0] for box in boxes)
        opened.close()
        size = float(theme().sizes["text"])
        assert width / size <= width_at_most(word) <= 2 * SPARE * width / size


def lowest_of_body(pdf: bytes) -> float:
    """Return how far down the text of the last side reaches, in points."""
    return min(box[1] for box in boxes_of(pdf, "Odd work", None))


def highest_of_foot(pdf: bytes) -> float:
    """Return how far up the sentences at the foot reach; they come before the text."""
    return max(box[3] for box in boxes_of(pdf, "Do not read", "Odd work"))


def boxes_of(pdf: bytes, start: str, end: str | None) -> list[tuple[float, ...]]:
    """Return the boxes of the letters from one word to another on the only side of *pdf*."""
    opened = pypdfium2.PdfDocument(pdf)
    (page,) = opened
    text = page.get_textpage()
    words = "".join(text.get_text_range(index, 1) for index in range(text.count_chars()))
    first = words.index(start)
    last = words.index(end, first) if end else len(words)
    boxes = [text.get_charbox(index) for index in range(first, last)]
    opened.close()
    return [box for box in boxes if box[0] < box[2] and box[1] < box[3]]
