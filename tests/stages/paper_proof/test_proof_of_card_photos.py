"""Photos on cards: each is claimed, and every fault is caught."""

from dataclasses import replace
from pathlib import Path

import pytest
from photo_cards import FILL, GUIDE, fitted
from plants.card_photo_faults import drawn, given_changed, left_out, order_of, template_changed
from plants.fields import PLANTED
from plants.paper_press import Order, PaperPlant
from printed import ISSUE

from guidegen.paper_proof.card_claims import claims_of_card
from guidegen.paper_proof.prove import prove_card
from guidegen.paper_proof.siblings import ProvedCards

SIZES = ("4x6", "a5", "letter")


def missed(plants: list[PaperPlant]) -> list[str]:
    found = [(plant, plant.order.rules_of(plant.pdf)) for plant in plants]
    return [f"{plant.what}: {sorted(rules)}" for plant, rules in found if not plant.rules & rules]


@pytest.mark.parametrize("size", SIZES)
def test_a_card_with_photos_is_proved(size: str) -> None:
    order = order_of(fitted(size))
    verdict = order.prove(drawn(order.card))

    assert order.card.photos
    assert [each.what for each in verdict.failures] == []


def test_every_photo_of_a_card_is_claimed_or_known_to_be_left_out() -> None:
    card = replace(fitted(), photos=fitted().photos[:1])
    groups = claims_of_card(card, GUIDE, ISSUE).groups

    assert [photo for group in groups for photo in group.photos] == [FILL.photos[0]]
    assert [photo for group in groups for photo in group.left_out] == [FILL.photos[1]]


def test_photos_with_a_fault_are_caught(tmp_path: Path, request: pytest.FixtureRequest) -> None:
    plants = [*given_changed(), *template_changed(tmp_path), *left_out()]
    not_caught = missed(plants)

    counted = len(plants), len(plants) - len(not_caught)
    request.node.user_properties.append((PLANTED, counted))
    assert not_caught == []


def test_the_card_of_a_twin_is_taken_for_proved_with_the_same_photos_only() -> None:
    known, order = ProvedCards(), order_of(fitted())
    twin = replace(GUIDE, number="T-18")
    second = Order(order.card, twin, ISSUE)
    pdf = drawn(order.card)
    assert prove_card(pdf, order.card, GUIDE, ISSUE, None, known).is_proved

    fewer = replace(order.card, photos=order.card.photos[:1])
    assert not prove_card(pdf, fewer, GUIDE, ISSUE, None, known).is_proved
    assert "paper-unit-differs" in second.rules_of(pdf)
