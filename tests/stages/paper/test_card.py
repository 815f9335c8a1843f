"""Cards as PDF: nothing is clipped, shrunk or dropped."""

import io
from dataclasses import replace

import pikepdf
import pytest
from printed import ISSUE, PAPER, card_of, draw, kind, press, sides, theme
from sample_fleet import TRUCKS, Warn, procedure

from guidegen.decks.model import Card
from guidegen.finding import Findings
from guidegen.guide.model import Caution
from guidegen.paper.card import CardPress
from guidegen.paper.matter import Matter
from guidegen.procedures.model import Signal

TRUCK = TRUCKS[0]
BY_ID = {each.id: each for chapter in TRUCK.chapters for each in chapter.procedures}
BUILD_UP = BY_ID["air-build-up"]
PLAIN = "Walk once around the truck and look under it for leaks of any kind."
WARNING = Warn(
    Signal.WARNING,
    "The hood is heavy and can fall.",
    "It can crush your hand.",
    "Lock the prop before you reach in.",
)


def long_procedure(steps: int, every: int = 4) -> tuple[str | Warn, ...]:
    lines: list[str | Warn] = []
    for number in range(1, steps + 1):
        if number % every == 0:
            lines.append(WARNING)
        lines.append(f"Look at place number {number}. {PLAIN}")
    return tuple(lines)


def test_all_texts_of_a_procedure_stand_on_its_card_in_order() -> None:
    (text,) = sides(draw(card_of(BUILD_UP), TRUCK))

    position = 0
    for block in BUILD_UP.blocks:
        if isinstance(block, Caution):
            wanted = [block.hazard, block.consequence, block.avoid]
        else:
            wanted = [block.text]
        for each in wanted:
            words = Matter(TRUCK).words(each).replace("\xa0", " ")
            found = text.find(words, position)
            assert found >= 0, words
            position = found


def test_each_side_says_truck_card_revision_date_and_page() -> None:
    pdf = draw(card_of(procedure("long", "Long work", long_procedure(40))), TRUCK)

    texts = sides(pdf)

    assert len(texts) > 2
    for number, text in enumerate(texts, start=1):
        assert f"{TRUCK.number} Sample {number} of {len(texts)} " in text
        assert "Revision 1a2b3c4d, 2026-11-20" in text
        assert "Do not read while driving. Park first." in text


def test_a_long_text_goes_on_and_each_caution_stays_with_its_step() -> None:
    work = procedure("long", "Long work", long_procedure(40))

    texts = sides(draw(card_of(work), TRUCK))

    assert len(texts) >= 3
    whole = " ".join(texts)
    for number in range(1, 41):
        assert f"Look at place number {number}. Walk" in whole
    for number in range(4, 41, 4):
        home = next(text for text in texts if f"place number {number}. Walk" in text)
        before, _, _ = home.partition(f"{number} Look at place number {number}.")
        assert before.rstrip().endswith("Lock the prop before you reach in.")


def test_a_side_that_begins_within_a_procedure_says_which() -> None:
    texts = sides(draw(card_of(procedure("long", "Long work", long_procedure(40))), TRUCK))

    assert "continued:" not in texts[0]
    assert all("continued: Long work" in text for text in texts[1:])


def test_a_step_taller_than_a_side_is_a_finding_at_its_text() -> None:
    step = " ".join([PLAIN] * 12)
    findings = Findings()

    pdf = press().draw(
        card_of(procedure("tall", "Tall work", (step,)), size="pocket"),
        Matter(TRUCK),
        ISSUE,
        findings,
    )

    assert pdf is None
    (finding,) = findings
    assert finding.rule.name == "text-taller-than-side"
    assert (
        finding.what == "step 1 of `tall` is taller than one side of card `sample`, size `pocket`"
    )
    assert finding.unit == TRUCK.number


def test_a_word_wider_than_a_side_is_a_finding() -> None:
    findings = Findings()
    work = procedure("wide", "Wide work", ("Turn the " + "x" * 90 + " knob.",))

    pdf = press().draw(card_of(work), Matter(TRUCK), ISSUE, findings)

    assert pdf is None
    assert [finding.rule.name for finding in findings] == ["word-wider-than-side"]


def test_a_letter_that_the_font_lacks_is_a_finding_and_no_hole() -> None:
    findings = Findings()
    work = procedure("odd", "Odd work", ("Turn the \u70b9 knob \U0001f69a.",))

    pdf = press().draw(card_of(work), Matter(TRUCK), ISSUE, findings)

    assert pdf is None
    (finding,) = findings
    assert finding.rule.name == "letter-without-shape"
    assert "holds `\u70b9\U0001f69a`" in finding.what


def test_a_title_that_the_head_cannot_hold_is_a_finding() -> None:
    findings = Findings()
    card = card_of(BUILD_UP)
    titled = replace(card, kind=kind(title="Brakes and air and all else that stops " * 6))

    assert press().draw(titled, Matter(TRUCK), ISSUE, findings) is None
    assert [finding.rule.name for finding in findings] == ["head-taller-than-band"]


def test_words_of_a_fleet_are_set_and_never_run() -> None:
    typed = "Press #panic(1) and $x^2$ and *this* and `that` <label> @who \\ #import it."

    (text,) = sides(draw(card_of(procedure("typed", "Typed work", (typed,))), TRUCK))

    assert typed in text


def test_the_same_card_gives_the_same_bytes_whatever_was_drawn_before() -> None:
    cold = CardPress.at(PAPER, theme(), "Bluff County Haulage")
    first = cold.draw(card_of(BUILD_UP), Matter(TRUCK), ISSUE, Findings())

    draw(card_of(procedure("other", "Other work", long_procedure(9))), TRUCK)
    again = draw(card_of(BUILD_UP), TRUCK)

    assert first == again


POINTS = {
    # ISO 216 and letter by reference P1 and P2, ID-1 of ISO/IEC 7810 by reference P4; inches are
    # 72 points.
    "4x6": (288, 432),
    "a6": (297.64, 419.53),
    "half-letter": (396, 612),
    "a5": (419.53, 595.28),
    "pocket": (242.65, 153.01),
    "letter": (612, 792),
    "a4": (595.28, 841.89),
}


@pytest.mark.parametrize("size", POINTS)
def test_the_trimmed_side_has_the_size_of_the_standard(size: str) -> None:
    card = Card(kind(size, is_large=True), None, (), ("identity.overall_height",), ())

    with pikepdf.open(io.BytesIO(draw(card, TRUCK))) as pdf:
        left, bottom, right, top = (float(edge) for edge in pdf.pages[0].trimbox.as_list())

    width, height = POINTS[size]
    assert right - left == pytest.approx(width, abs=0.01)
    assert top - bottom == pytest.approx(height, abs=0.01)


def test_a_card_claims_to_be_readable_aloud_and_keepable() -> None:
    with pikepdf.open(io.BytesIO(draw(card_of(BUILD_UP), TRUCK))) as pdf:
        metadata = pdf.open_metadata()
        assert metadata["pdfuaid:part"] == "1"
        assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("2", "A")
        assert bool(pdf.Root.MarkInfo.Marked)
        assert str(pdf.Root.Lang) == "en"


def test_trucks_of_one_edition_drawn_in_a_row_are_as_drawn_alone() -> None:
    facts = ("identity.number", "identity.overall_height")
    sister = replace(TRUCK, number="T-99", facts={**TRUCK.facts})
    for card in (card_of(BUILD_UP), card_of(BUILD_UP, facts=facts)):
        warm = CardPress.at(PAPER, theme(), "Bluff County Haulage")
        for guide in (TRUCK, sister, TRUCK):
            alone = CardPress.at(PAPER, theme(), "Bluff County Haulage")

            drawn = warm.draw(card, Matter(guide), ISSUE, Findings())

            assert drawn == alone.draw(card, Matter(guide), ISSUE, Findings())
            assert drawn is not None
            assert all(text.startswith(f"{guide.number} ") for text in sides(drawn))
