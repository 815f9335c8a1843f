"""Values and sources in words."""

from dataclasses import replace

import pytest
from sample_fleet import E_04, SPAN, T_17, fact

from guidegen.proof.claims import source_words as proved_source_words
from guidegen.specs.fields import Recorded
from guidegen.units.model import Layer, StatedIn
from guidegen.wording import source_words, value_words

NBSP = "\u00a0"
DASH = "\u2013"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("brakes.air.low_air_warning", f"65{NBSP}psi (450{NBSP}kPa)"),
        ("identity.overall_height", f"13{NBSP}ft{NBSP}6{NBSP}in (4.12{NBSP}m)"),
        ("brakes.air.spring_apply", f"20{DASH}45{NBSP}psi (140{DASH}310{NBSP}kPa)"),
        ("block_heater.voltage", f"120{NBSP}V"),
        ("identity.year", "2019"),
        ("brakes.abs", "yes"),
        ("identity.body", "sleeper tractor"),
        ("engine.oil_grade", "SAE 15W-40, API CK-4"),
        (
            "engine_brake.drops_out",
            "you press the accelerator, you press the clutch pedal and the ABS acts",
        ),
    ],
)
def test_a_value_reads_as_the_driver_knows_it(name: str, words: str) -> None:
    assert value_words(T_17.facts[name]) == words


def test_a_flag_that_is_not_set_reads_no() -> None:
    assert value_words(fact("brakes.abs", "no")) == "no"


def test_one_choice_of_several_stands_alone_and_two_are_joined_by_and() -> None:
    assert value_words(fact("lamps.fitted", ["low_air"])) == "low air pressure"
    two = value_words(fact("lamps.fitted", ["low_air", "abs"]))
    assert two == "low air pressure and anti-lock brakes"


def test_an_amount_that_nobody_converted_prints_as_typed() -> None:
    height = replace(T_17.facts["identity.overall_height"], shown=())
    assert value_words(height) == f"13{NBSP}ft{NBSP}6{NBSP}in"


def test_a_source_names_layer_and_document() -> None:
    assert source_words(E_04.facts["identity.make"]) == (
        "from the model file — maker's handbook, p. 4"
    )


def test_a_value_without_a_document_says_so() -> None:
    assert source_words(T_17.facts["engine.dipstick_location"]) == (
        "from the model file — no document named"
    )


@pytest.mark.parametrize(
    ("layer", "words"),
    [
        (Layer.UNIT, "for this unit — plate"),
        (Layer.FLEET, "from the fleet file — plate"),
        (Layer.PROFILE, "from the jurisdiction profile — plate"),
        (Layer.LIBRARY, "from the library — plate"),
    ],
)
def test_every_layer_has_its_words(layer: Layer, words: str) -> None:
    stated = replace(T_17.facts["identity.gvwr"], provenance=StatedIn(layer, SPAN, "plate"))
    assert source_words(stated) == words


@pytest.mark.parametrize(
    ("by", "words"),
    [
        ("Orla Vint", "for this unit — plate; recorded 2026-03-02 by Orla Vint"),
        ("", "for this unit — plate; recorded 2026-03-02"),
    ],
)
def test_a_dated_value_says_when_it_was_recorded_and_by_whom(by: str, words: str) -> None:
    origin = StatedIn(Layer.UNIT, SPAN, "plate", Recorded("2026-03-02", by, SPAN))
    stated = replace(T_17.facts["identity.gvwr"], provenance=origin)

    assert source_words(stated) == words
    # The proof shares no code with the printing, and must come to the same words.
    assert proved_source_words(stated) == words


def test_a_value_that_was_worked_out_names_what_it_follows_from() -> None:
    assert source_words(T_17.facts["block_heater.current"]) == (
        "worked out from Block heater power, Block heater voltage"
    )
