"""Sign-off sheets for drivers who know another truck: every pair of the demo fleet, and faults."""

from dataclasses import replace

import pytest
from plants.fields import PLANTED
from plants.paper_press import Shop
from plants.signoff_faults import SIGNOFF_KINDS
from plants.training_faults import Sheet, TrainingShop

from guidegen.differences.compare import compare_guides
from guidegen.guide.model import Guide
from guidegen.paper_proof.model import Expected, Part, Piece
from guidegen.paper_proof.signoff_claims import claims_of_signoff
from guidegen.procedures.words import LABELS

UNITS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")


@pytest.fixture(scope="session")
def trainers(shop: Shop) -> TrainingShop:
    return TrainingShop(shop)


def pieces_of(expected: Expected, part: Part) -> list[Piece]:
    return [piece for group in expected.groups for piece in group.pieces if piece.part is part]


def sheets_for(unit: str, trainers: TrainingShop, size: str = "letter") -> list[Sheet]:
    return [trainers.signoff(unit, size, known) for known in UNITS if known != unit]


@pytest.mark.parametrize("unit", ["E-02", "T-17"])
def test_the_sheet_from_every_other_truck_is_proved(unit: str, trainers: TrainingShop) -> None:
    for sheet in sheets_for(unit, trainers):
        verdict = sheet.prove(trainers.draw(sheet))

        assert verdict.failures == (), sheet.name
        assert verdict.counts.codes == 1
        assert verdict.counts.values > 0


@pytest.mark.parametrize("pair", [("T-17", "E-02"), ("V-08", "D-31")], ids="-".join)
def test_a_sheet_on_the_other_stock_is_proved(
    pair: tuple[str, str], trainers: TrainingShop
) -> None:
    known, given = pair
    sheet = trainers.signoff(given, "a4", known)

    assert sheet.prove(trainers.draw(sheet)).failures == ()


@pytest.mark.parametrize("unit", UNITS)
def test_as_many_differences_are_asked_for_as_the_comparison_finds(
    unit: str, trainers: TrainingShop
) -> None:
    for sheet in sheets_for(unit, trainers):
        known, given = sheet.known, sheet.order.guide
        assert known is not None

        asked = pieces_of(claims_of_signoff(sheet.order, known), Part.DIFFERENCE)

        assert len(asked) == len(compare_guides(known, given).differences)


def test_what_is_on_record_of_the_known_truck_stands_under_its_number_and_comes_first(
    trainers: TrainingShop,
) -> None:
    for sheet in sheets_for("E-02", trainers):
        assert sheet.known is not None
        expected = claims_of_signoff(sheet.order, sheet.known)
        values = [
            piece
            for group in expected.groups
            for piece in group.pieces
            if "\0known:" in piece.pattern and piece.part is not Part.DIFFERENCE
        ]
        assert values
        for piece in values:
            assert piece.pattern.startswith(f"{sheet.known.number}: \0known:")
        for group in expected.groups:
            sides = [piece for piece in group.pieces if piece.part is Part.SIDE_OF_TWO]
            if len(sides) == 2:
                numbers = [piece.trucks for piece in sides]
                assert numbers == [(sheet.known.number,), ("E-02",)]


def test_trucks_that_differ_in_nothing_get_a_sheet_that_says_so(trainers: TrainingShop) -> None:
    sheet = trainers.signoff("T-17", known="T-17")
    assert sheet.known is not None
    twin: Guide = replace(sheet.known, number="T-99")
    sheet = replace(sheet, known=twin)

    expected = claims_of_signoff(sheet.order, twin)

    assert pieces_of(expected, Part.DIFFERENCE) == []
    said = [piece.pattern for piece in pieces_of(expected, Part.TEXT)]
    assert LABELS["no_differences"] in said
    assert sheet.prove(trainers.draw(sheet)).failures == ()


@pytest.mark.parametrize("kind", SIGNOFF_KINDS)
def test_every_fault_planted_in_what_differs_is_caught_by_the_rule_that_is_named(
    kind: str, trainers: TrainingShop, request: pytest.FixtureRequest
) -> None:
    planted = 0
    missed = list[str]()
    for plant in SIGNOFF_KINDS[kind](trainers):
        planted += 1
        found = plant.order.rules_of(plant.pdf)
        if not plant.rules & found:
            missed.append(f"{plant.what}: {sorted(found)}")

    request.node.user_properties.append((PLANTED, (planted, planted - len(missed))))
    assert missed == []
    assert planted
