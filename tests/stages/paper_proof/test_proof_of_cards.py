from dataclasses import replace

import pytest
from plants.paper_press import Shop

from guidegen.decks.sizes import SIDES
from guidegen.guide.model import Caution, Step
from guidegen.paper_proof.model import PaperCounts
from guidegen.paper_proof.prove import prove_card, prove_cards
from guidegen.paper_proof.unchecked import UNCHECKED

UNITS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")


@pytest.mark.parametrize("unit", UNITS)
def test_all_cards_of_a_truck_are_proved(unit: str, shop: Shop) -> None:
    orders = [order for kind in shop.kinds if (order := shop.order(unit, kind)) is not None]
    drawn = [(order.card, shop.whole(order)) for order in orders]

    verdict = prove_cards(drawn, orders[0].guide, orders[0].issue)

    blocks = [
        block
        for order in orders
        for procedure in (*order.card.procedures, *order.card.lamps)
        for block in procedure.blocks
    ]
    assert verdict.failures == ()
    assert verdict.is_proved
    assert verdict.unchecked == UNCHECKED
    assert verdict.counts.codes == verdict.counts.sides
    assert verdict.counts.steps == sum(isinstance(block, Step) for block in blocks)
    assert verdict.counts.cautions == sum(isinstance(block, Caution) for block in blocks)
    assert verdict.counts.values >= sum(len(order.card.facts) for order in orders)


@pytest.mark.parametrize("size", sorted(set(SIDES) - {"pocket"}))
def test_cards_of_every_size_are_proved(size: str, shop: Shop) -> None:
    for kind in ("brakes", "fluids", "lamps"):
        order = shop.order("T-17", kind, size)
        assert order is not None
        assert order.prove(shop.whole(order)).failures == ()


@pytest.mark.parametrize("unit", ["D-31", "E-02", "K-22", "R-12", "T-17", "V-08"])
def test_a_lying_card_is_proved(unit: str, shop: Shop) -> None:
    order = shop.order(unit, "round", "pocket")
    assert order is not None
    assert order.prove(shop.whole(order)).failures == ()


def test_the_card_of_one_truck_does_not_pass_for_that_of_its_twin(shop: Shop) -> None:
    order, twin = shop.order("T-17", "brakes"), shop.order("T-18", "brakes")
    assert order is not None
    assert twin is not None

    found = twin.rules_of(shop.whole(order))

    assert {"paper-unit-differs", "paper-title-differs", "paper-code-differs"} <= found


def test_a_card_of_an_older_guide_does_not_pass(shop: Shop) -> None:
    order = shop.order("T-17", "brakes")
    assert order is not None
    newer = replace(order.issue, revision="0badcafe", link=order.issue.link[:-8] + "0badcafe")

    verdict = prove_card(shop.whole(order), order.card, order.guide, newer)

    assert {each.rule.name for each in verdict.failures} == {
        "paper-revision-differs",
        "paper-code-differs",
    }


def test_a_failure_names_the_truck_the_file_and_the_place_in_the_library(shop: Shop) -> None:
    order = shop.order("T-17", "brakes")
    assert order is not None
    given = shop.given(order)
    step = given["groups"][0]["pieces"].pop()

    failure = order.prove(shop.draw(order, lambda _: given)).failures[0]

    assert failure.unit == "T-17"
    assert failure.page == "T-17/cards/brakes.pdf"
    assert failure.rule.name == "paper-step-missing"
    first = order.card.procedures[0].id
    assert failure.mark == f"step 1 of `{first}`"
    assert failure.place.startswith(f"site_templates/procedures/{first}.yml:")
    assert step["text"][0][0] in failure.what


def test_nothing_is_counted_of_a_card_that_is_not_wholly_read(shop: Shop) -> None:
    order = shop.order("T-17", "brakes")
    assert order is not None
    given = shop.given(order)
    given["groups"][0]["pieces"].pop()

    counts = order.prove(shop.draw(order, lambda _: given)).counts

    assert (counts.procedures, counts.steps, counts.cautions) == (0, 0, 0)


def test_counts_of_several_cards_add_up() -> None:
    one = PaperCounts(sides=2, procedures=3, steps=4, cautions=5, values=6, codes=2)

    assert one + one == PaperCounts(4, 6, 8, 10, 12, 4)
