"""Photos on cards: none costs a word, a letter's size or a leaf."""

import io
from dataclasses import replace

import pypdfium2  # type: ignore[import-untyped]  # it has no hints
from photo_cards import FILL, GUIDE, TANK, TURN, bare, fitted, guide_with, photo
from PIL import Image
from printed import ISSUE, PAPER, press, sides, theme
from sample_fleet import procedure

from guidegen.decks.model import Card
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.card import CardPress, groups_of
from guidegen.paper.matter import Matter
from guidegen.paper_proof.card_claims import claims_of_card
from guidegen.paper_proof.prove import prove_card
from guidegen.paper_proof.siblings import ProvedCards

LONG = procedure(
    "long", "Long work", [f"Look at place number {number} with care." for number in range(36)]
)


def drawn(card: Card, guide: Guide = GUIDE) -> bytes:
    findings = Findings()
    pdf = press().draw(card, Matter(guide), ISSUE, findings)
    assert pdf is not None, [each.what for each in findings]
    return pdf


def pictures_in(pdf: bytes) -> list[list[tuple[float, float]]]:
    """Return width and height in millimeters of each picture of dots, side by side."""
    with pypdfium2.PdfDocument(pdf) as opened:
        return [
            [
                ((right - left) / 72 * 25.4, (top - bottom) / 72 * 25.4)
                for left, bottom, right, top in (
                    each.get_bounds()
                    for each in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])
                )
            ]
            for page in opened
        ]


def test_photos_stand_at_their_procedure_and_step_with_their_captions() -> None:
    card = fitted()

    (text,) = sides(drawn(card))

    assert [each.photo for each in card.photos] == list(FILL.photos)
    assert "2 Find the tank. Only the blue cap takes it. WARNING" in text
    ((first, second),) = pictures_in(drawn(card))
    assert abs(first[0] - card.photos[0].edge) < 0.1
    assert abs(second[0] / second[1] - 4 / 3) < 0.01


def test_a_photo_stands_between_no_caution_and_its_step() -> None:
    for group in groups_of(fitted(), Matter(GUIDE)):
        kinds = [piece["kind"] for piece in group.pieces]
        for place, each in enumerate(kinds):
            if each == "caution":
                assert kinds[place + 1] in ("caution", "step")


def test_a_card_with_photos_says_every_word_that_it_says_without() -> None:
    with_photos, without = (sides(drawn(card)) for card in (fitted(), bare()))
    caption = " Only the blue cap takes it."

    assert " ".join(with_photos).replace(caption, "") == " ".join(without)


def test_photos_without_room_are_left_out_and_the_card_is_as_if_there_were_none() -> None:
    guide = guide_with(FILL, LONG)
    full = bare(guide, "4x6")

    card = press().fitted(full, Matter(guide), ISSUE)
    plain = replace(full, procedures=(replace(FILL, photos=()), LONG))

    assert len(sides(drawn(plain, guide))) == 2
    assert card.photos == ()
    assert card.left_out == FILL.photos
    assert sides(drawn(card, guide)) == sides(drawn(plain, guide))


def test_a_card_with_photos_made_twice_gives_the_same_bytes() -> None:
    cold = CardPress.at(PAPER, theme(), "Bluff County Haulage")
    card = cold.fitted(bare(), Matter(GUIDE), ISSUE)

    assert card == fitted()
    first = cold.draw(card, Matter(GUIDE), ISSUE, Findings())
    assert first == drawn(fitted())
    assert cold.draw(card, Matter(GUIDE), ISSUE, Findings()) == first


def test_trucks_of_an_edition_share_what_has_room() -> None:
    warm = CardPress.at(PAPER, theme(), "Bluff County Haulage")
    twin = replace(GUIDE, number="T-18")

    one = warm.fitted(bare(), Matter(GUIDE), ISSUE)
    two = warm.fitted(bare(twin), Matter(twin), ISSUE)
    warm.draw(one, Matter(GUIDE), ISSUE, Findings())
    second = warm.draw(two, Matter(twin), ISSUE, Findings())

    assert one.photos is two.photos
    alone = CardPress.at(PAPER, theme(), "Bluff County Haulage")
    assert second == alone.draw(two, Matter(twin), ISSUE, Findings())
    assert second is not None
    known, first = ProvedCards(), drawn(one)
    assert prove_card(first, one, GUIDE, ISSUE, None, known).is_proved
    assert known.found(second, claims_of_card(two, twin, ISSUE), one.kind.id) is not None


def test_an_upright_photo_is_no_wider_than_its_longer_edge_allows() -> None:
    upright = Image.open(io.BytesIO(TANK)).rotate(90, expand=True)
    file = io.BytesIO()
    upright.save(file, "JPEG")
    tall = replace(TURN, photos=(photo(file.getvalue(), "turn-switch", "step-1"),))
    guide = guide_with(tall)

    card = press().fitted(bare(guide), Matter(guide), ISSUE)

    (((width, height),),) = pictures_in(drawn(card, guide))
    assert abs(height - card.photos[0].edge) < 0.1
    assert abs(width / height - 3 / 4) < 0.01


def test_a_caption_with_a_long_word_stands_below_its_photo() -> None:
    word = "Reservoirverschlussdeckelhalterung"
    shown = replace(FILL, photos=(photo(TANK, "fill-tank", "step-2", f"{word} here"),))
    guide = guide_with(shown)

    card = press().fitted(bare(guide, "4x6"), Matter(guide), ISSUE)

    assert len(card.photos) == 1
    assert word in sides(drawn(card, guide))[0]
