from dataclasses import replace

import pytest
from sample_fleet import T_17, Warn, fact, procedure

from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.procedures.model import Signal
from guidegen.revisions.snapshot import Snapshot
from guidegen.revisions.tell import tell_changes
from guidegen.units.model import Presence, SectionState, StatedIn


def told(known: Guide, given: Guide) -> tuple[str, ...]:
    return tell_changes(Snapshot.of(known), Snapshot.of(given))


def with_facts(**typed: str) -> Guide:
    named = {name.replace("__", "."): value for name, value in typed.items()}
    return replace(T_17, facts={**T_17.facts, **{n: fact(n, v) for n, v in named.items()}})


def with_procedure(changed: Procedure) -> Guide:
    chapters = tuple(
        Chapter(
            chapter.id,
            tuple(changed if each.id == changed.id else each for each in chapter.procedures),
        )
        for chapter in T_17.chapters
    )
    return replace(T_17, chapters=chapters)


WORK = procedure(
    "drain-air-tanks",
    "Drain the air tanks",
    [
        Warn(Signal.WARNING, "Air is under pressure.", "It can hurt you.", "Stand clear."),
        "Pull the cord.",
        "Keep each drain open until no more water comes.",
    ],
    expect=("No water comes.",),
)


def test_a_value_is_told_with_both_amounts_in_the_fleets_first_measure() -> None:
    given = with_facts(brakes__air__cut_out="130 psi")

    assert told(T_17, given) == ("Governed (cut-out) pressure 135 psi → 130 psi",)


def test_a_label_that_several_values_have_is_told_with_its_section() -> None:
    given = with_facts(tires__steer__cold_pressure="105 psi")

    assert told(T_17, given) == ("Steer axle tires: Cold tire pressure 110 psi → 105 psi",)


def test_what_can_hurt_first_comes_first() -> None:
    given = with_facts(
        block_heater__use_below="0 °F", engine__oil_capacity="40 qt", brakes__air__cut_out="130 psi"
    )

    lines = told(T_17, given)

    assert [line.rpartition(" → ")[2] for line in lines] == ["130 psi", "40 qt", "0 °F"]


def test_things_are_told_as_new_or_left_out() -> None:
    fitted = SectionState(Presence.GIVEN, None)
    absent = SectionState(Presence.NOT_FITTED, None)
    before = replace(T_17, sections={**T_17.sections, "differential_lock": absent})
    after = replace(T_17, sections={**T_17.sections, "differential_lock": fitted})

    assert told(before, after) == ("New: differential lock",)
    assert told(after, before) == ("Left out: differential lock",)


@pytest.mark.parametrize(
    ("lines", "parts"),
    [
        (["Pull the cord.", "Keep each drain open."], "steps, cautions"),
        (
            [
                Warn(Signal.WARNING, "Air is under pressure.", "It can hurt you.", "Stand clear."),
                "Pull the ring.",
                "Keep each drain open until no more water comes.",
            ],
            "steps",
        ),
        (
            [
                Warn(Signal.CAUTION, "Air is under pressure.", "It can hurt you.", "Stand clear."),
                "Pull the cord.",
                "Keep each drain open until no more water comes.",
            ],
            "cautions",
        ),
    ],
)
def test_a_procedure_is_told_with_the_parts_that_changed(
    lines: list[str | Warn], parts: str
) -> None:
    changed = procedure(
        "drain-air-tanks", "Drain the air tanks", lines, expect=("No water comes.",)
    )

    known, given = with_procedure(WORK), with_procedure(changed)

    assert told(known, given) == (f"Changed: procedure “Drain the air tanks” ({parts})",)


def test_title_and_limits_of_a_procedure_are_named_too() -> None:
    title = replace(WORK.title, parts=procedure("x", "Drain all air tanks", []).title.parts)
    expect = procedure("drain-air-tanks", "x", [], expect=("A little water comes.",)).expect
    changed = replace(WORK, title=title, expect=expect)

    lines = told(with_procedure(WORK), with_procedure(changed))

    assert lines == ("Changed: procedure “Drain all air tanks” (title, limits)",)


def test_another_place_or_drawing_is_told() -> None:
    moved = replace(WORK, station="right_side", figure="air_gauge")

    assert told(with_procedure(WORK), with_procedure(moved)) == (
        "Changed: procedure “Drain the air tanks” (place and state)",
        "Changed: procedure “Drain the air tanks” (drawing)",
    )


def test_a_procedure_that_comes_or_goes_is_told() -> None:
    last = T_17.chapters[-1]
    fewer = replace(T_17, chapters=(*T_17.chapters[:-1], Chapter(last.id, last.procedures[:-1])))

    assert told(fewer, T_17) == ("New: procedure “Drain the air tanks”",)
    assert told(T_17, fewer) == ("Left out: procedure “Drain the air tanks”",)


def test_the_same_amount_printed_otherwise_and_another_source_are_told_last() -> None:
    cut_out = T_17.facts["brakes.air.cut_out"]
    dryer = T_17.facts["brakes.air.air_dryer"]
    quiet = replace(cut_out, shown=cut_out.shown[:1])
    assert isinstance(dryer.provenance, StatedIn)
    elsewhere = replace(dryer, provenance=replace(dryer.provenance, source="the plate"))
    given = replace(T_17, facts={**T_17.facts, cut_out.name: quiet, dryer.name: elsewhere})

    assert told(T_17, given) == (
        "Printed otherwise: Governed (cut-out) pressure 135 psi (930 kPa) → 135 psi",
        "Changed: the source of 1 value",
    )


def test_a_fleet_that_turns_its_measures_around_gets_one_line() -> None:
    turned = {name: replace(each, shown=each.shown[::-1]) for name, each in T_17.facts.items()}

    (line,) = told(T_17, replace(T_17, facts=turned))

    assert line.startswith("Printed otherwise: ")
    assert line.endswith(" values")


def test_a_plate_that_comes_on_record_is_told_without_naming_it() -> None:
    facts = {name: each for name, each in T_17.facts.items() if name != "identity.plate"}

    assert told(replace(T_17, facts=facts), T_17) == (
        "Changed: which papers of the truck are on record",
    )
