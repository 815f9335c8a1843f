"""The table of standings is complete, and grave things stand first."""

import itertools

from guidegen.differences.rank import (
    CHAPTER_STANDINGS,
    CONTROLS,
    FACT_STANDINGS,
    LAMP_STANDINGS,
    SECTION_STANDINGS,
)
from guidegen.differences.standing import RANKS, REASONS, Rank, Reason, Standing
from guidegen.guide.model import STAMPED
from guidegen.procedures.words import CHAPTERS
from guidegen.quantity.model import Sense
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import AmountField, ChoiceField, TextField
from guidegen.specs.profile import FACTS
from guidegen.specs.topics.lamps import LAMPS


def test_every_fact_but_the_identity_has_a_standing() -> None:
    assert set(FACT_STANDINGS) == set(FACTS) - set(STAMPED)


def test_every_thing_that_a_truck_can_have_has_a_standing() -> None:
    assert set(SECTION_STANDINGS) == set(EQUIPMENT_SECTIONS)


def test_every_lamp_has_a_standing() -> None:
    assert set(LAMP_STANDINGS) == set(LAMPS)


def test_every_chapter_has_a_standing() -> None:
    assert set(CHAPTER_STANDINGS) == set(CHAPTERS)


def test_every_rank_and_reason_has_words() -> None:
    assert list(RANKS) == [rank.value for rank in Rank]
    assert set(REASONS) == {reason.value for reason in Reason}


def test_brakes_come_before_all_else_and_conveniences_last() -> None:
    ranks = list(Rank)
    assert ranks[0] is Rank.BRAKES
    assert ranks[-1] is Rank.CONVENIENCES
    order = [Rank.BRAKES, Rank.CONTROLS, Rank.LIMITS, Rank.FLUIDS, Rank.VALUES, Rank.CONVENIENCES]
    places = [ranks.index(rank) for rank in order]
    assert places == sorted(places)


def test_standings_sort_by_rank_and_then_by_reason() -> None:
    standings = [Standing(rank, reason) for rank in Rank for reason in Reason]
    for first, second in itertools.pairwise(standings):
        assert first.order < second.order


def test_everything_about_brakes_stands_with_the_brakes() -> None:
    for name, standing in {**FACT_STANDINGS, **SECTION_STANDINGS}.items():
        if name.startswith(("brakes", "parking_brake", "engine_brake")):
            assert standing.rank is Rank.BRAKES, name


def test_every_limit_stands_with_the_limits_or_before_them() -> None:
    """An upper or lower limit that is passed does damage, so it must not stand among comforts."""
    ranks = list(Rank)
    for name, field in FACTS.items():
        kind = field.field
        if isinstance(kind, AmountField) and kind.sense in (Sense.AT_MOST, Sense.AT_LEAST):
            assert ranks.index(FACT_STANDINGS[name].rank) <= ranks.index(Rank.LIMITS), name


def test_every_fluid_stands_with_the_fluids_or_the_brakes() -> None:
    for name, standing in FACT_STANDINGS.items():
        if name.endswith((".fluid", ".oil", ".oil_grade", ".coolant", ".fuel")):
            assert standing.rank in (Rank.FLUIDS, Rank.BRAKES), name


def test_every_place_of_a_control_is_told_as_a_control() -> None:
    for name, field in FACTS.items():
        if name.endswith(("location", ".control")) and name not in STAMPED:
            assert isinstance(field.field, TextField | ChoiceField)
            assert name in CONTROLS, name


def test_red_lamps_that_stop_the_truck_stand_before_other_lamps() -> None:
    ranks = list(Rank)
    harmless = {"seat_belt", "hazard"}
    for name, lamp in LAMPS.items():
        if lamp.color == "red" and name not in harmless:
            assert ranks.index(LAMP_STANDINGS[name].rank) < ranks.index(Rank.VALUES), name
