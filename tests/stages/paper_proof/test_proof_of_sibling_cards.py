"""Cards of trucks of one edition are read in full once, and no fault gets through for it."""

from dataclasses import replace

import pytest
from plants.fields import PLANTED
from plants.paper_press import Order, Shop
from plants.sibling_faults import (
    HARMLESS,
    SiblingPlant,
    drawn_otherwise,
    edited_files,
    page_parts,
    put_together,
    stream,
    taken_apart,
)

from guidegen.guide.model import STAMPED
from guidegen.paper_proof.card_claims import claims_of_card
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.plate_stream import use_of
from guidegen.paper_proof.prove import prove_card
from guidegen.paper_proof.read_file import read_file
from guidegen.paper_proof.siblings import ProvedCards

TWINS = ("T-17", "T-18")
"""Made to be of one edition."""


@pytest.fixture(scope="module")
def shop(shop: Shop) -> Shop:
    """The demo fleet, with T-18 a truck like T-17 but for number, VIN, plate and yard."""
    first, second = (shop.guides[unit] for unit in TWINS)
    own = {name: second.facts[name] for name in STAMPED if name in second.facts}
    twin = replace(first, number=second.number, facts={**first.facts, **own})
    tours = {**shop.tours, TWINS[1]: shop.tours[TWINS[0]]}
    guides = {**shop.guides, TWINS[1]: twin}
    return replace(shop, guides=guides, tours=tours, _whole={}, _given={})


def order_of(shop: Shop, unit: str, kind: str) -> Order:
    order = shop.order(unit, kind)
    assert order is not None
    return order


def prove(order: Order, pdf: bytes, known: ProvedCards) -> PaperVerdict:
    return prove_card(pdf, order.card, order.guide, order.issue, None, known)


def knowing(shop: Shop, kind: str) -> ProvedCards:
    """Return what is known when the first twin's card was proved in full."""
    known = ProvedCards()
    first = order_of(shop, TWINS[0], kind)
    assert prove(first, shop.whole(first), known).is_proved
    return known


def is_shared(order: Order, pdf: bytes, known: ProvedCards) -> bool:
    expected = claims_of_card(order.card, order.guide, order.issue)
    return known.found(pdf, expected, order.card.kind.id) is not None


@pytest.mark.parametrize("kind", ["brakes", "round", "emergency", "lamps", "start-up"])
def test_a_sound_card_of_a_twin_is_not_read_in_full_again(kind: str, shop: Shop) -> None:
    known, second = knowing(shop, kind), order_of(shop, TWINS[1], kind)
    pdf = shop.whole(second)

    assert is_shared(second, pdf, known)
    assert prove(second, pdf, known) == second.prove(pdf)


def test_every_fault_in_a_twins_card_is_caught_as_if_no_card_were_known(
    shop: Shop, request: pytest.FixtureRequest
) -> None:
    second = order_of(shop, TWINS[1], "brakes")
    plants = [
        *drawn_otherwise(shop, TWINS[1], "brakes"),
        *edited_files(shop.whole(second)),
        SiblingPlant("the twin's card", shop.whole(order_of(shop, TWINS[0], "brakes"))),
    ]
    missed = list[str]()
    for plant in plants:
        known = knowing(shop, "brakes")
        shared = is_shared(second, plant.pdf, known)
        verdict = prove(second, plant.pdf, known)
        if shared or verdict.is_proved or verdict != second.prove(plant.pdf):
            missed.append(plant.what)

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert missed == []


def test_a_card_with_anything_else_on_its_plate_is_read_in_full(shop: Shop) -> None:
    second, known = order_of(shop, TWINS[1], "brakes"), knowing(shop, "brakes")

    for plant in edited_files(shop.whole(second), HARMLESS):
        assert not is_shared(second, plant.pdf, known), plant.what


def test_a_file_taken_apart_and_put_together_is_still_shared(shop: Shop) -> None:
    second = order_of(shop, TWINS[1], "brakes")
    again = put_together(taken_apart(shop.whole(second)))

    assert is_shared(second, again, knowing(shop, "brakes"))


def test_a_truck_whose_guide_has_another_value_does_not_get_its_twins(shop: Shop) -> None:
    order = order_of(shop, TWINS[1], "brakes")
    expected = claims_of_card(order.card, order.guide, order.issue)
    patterns = [piece.pattern for group in expected.groups for piece in group.pieces]
    name = next(each.split("\0")[1] for each in patterns if "\0" in each)
    fact = order.guide.facts[name]
    other = next(
        each for each in order.guide.facts.values() if each.shown and each.shown != fact.shown
    )
    changed = replace(fact, value=other.value, shown=other.shown)
    guide = replace(order.guide, facts={**order.guide.facts, name: changed})

    verdict = prove(replace(order, guide=guide), shop.whole(order), knowing(shop, "brakes"))

    assert "paper-value-differs" in {each.rule.name for each in verdict.failures}


def test_what_was_proved_of_one_edition_is_forgotten_with_the_next(shop: Shop) -> None:
    known, second = knowing(shop, "brakes"), order_of(shop, TWINS[1], "brakes")
    other = order_of(shop, "E-02", "brakes")
    assert prove(other, shop.whole(other), known).is_proved

    assert not is_shared(second, shop.whole(second), known)


def test_a_file_that_holds_more_than_objects_is_compared_with_none(shop: Shop) -> None:
    pdf = shop.whole(order_of(shop, TWINS[1], "brakes"))

    assert read_file(pdf) is not None
    assert read_file(pdf + b"% more\n") is None
    assert read_file(pdf.replace(b"xref\n0 ", b"more\nxref\n0 ", 1)) is None
    assert read_file(b"") is None


def test_a_plate_that_something_else_draws_too_is_never_shared(shop: Shop) -> None:
    known = ProvedCards()
    for unit in TWINS:
        order = order_of(shop, unit, "brakes")
        objects = taken_apart(shop.whole(order))
        plate, _ = page_parts(objects)
        objects[max(objects) + 1] = b"[%d 0 R]" % plate
        pdf = put_together(objects)
        assert not is_shared(order, pdf, known)
        assert prove(order, pdf, known).is_proved


# Operators and their effect: ISO 32000-1, annex A and 8.4.2.
@pytest.mark.parametrize(
    "drawing",
    [
        b"q",
        b"Q",
        b"q Q Q",
        b"/P BMC q EMC Q",
        b"1 0 0 1 0 0 cm",
        b"q /X0 Do Q",
        b"q /G0 gs Q",
        b"q /S0 sh Q",
        b"q BI /W 1 ID x EI Q",
        b"q (unclosed Q",
        b"3 Tr q Q",
        b"q Q % Q",
    ],
)
def test_a_drawing_that_leaves_something_behind_stands_not_alone(drawing: bytes) -> None:
    assert use_of(drawing) is None


def test_a_drawing_that_leaves_nothing_behind_stands_alone() -> None:
    use = use_of(
        b"/P<</A(q \\) Q)>>BDC\nq 1 0 0 -1 .5 -7 cm/c0 cs 0 scn BT/f0 9 Tf(a)Tj ET f Q EMC"
    )

    assert use is not None
    assert use.names == {b"/c0", b"/f0"}
    assert use.shown == 2
    assert stream(b"q Q")
