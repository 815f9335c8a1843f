"""Every figure shows the truck's own values, in their places and in words."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import replace

import pytest
from sample_fleet import SPAN, facts

from guidegen.figures.compose import SKETCHES, figure_of
from guidegen.figures.draw_svg import draw_svg
from guidegen.figures.lamp_glyphs import GLYPHS
from guidegen.figures.model import LETTERS, Box, Circle, Curve, Figure, Line
from guidegen.guide.drawable import axle_groups, why_not_drawn
from guidegen.guide.model import FactRef, Procedure, Text
from guidegen.procedures.figure_kinds import (
    CORD_TABLE_ROWS,
    FIGURE_KINDS,
    FIGURE_WORDS,
    LAMP_SYMBOL,
)
from guidegen.procedures.model import LampSign, Words
from guidegen.quantity.convert import show_pair
from guidegen.quantity.model import Quantity, Sense, System
from guidegen.specs.topics.brakes import PARKING_CONTROLS
from guidegen.specs.topics.electric import CORD_GAUGES
from guidegen.specs.topics.lamps import LAMPS
from guidegen.units.model import Fact
from guidegen.wording import value_words

AIR = {
    "brakes.air.low_air_warning": "75 psi",
    "brakes.air.cut_in": "100 psi",
    "brakes.air.cut_out": "125 psi",
}
TRUCK: Mapping[str, str | list[str]] = {
    **AIR,
    "def_system.gauge_segments": "8",
    "high_voltage.lowest_charge": "25 %",
    "engine.oil_check_state": "warm",
    "engine.oil_between_marks": "4 qt",
    "power_steering.check_state": "hot",
    "transmission.check": "dipstick",
    "transmission.check_state": "idling",
    "axles.configuration": "6x4",
    "tires.steer.count": "2",
    "tires.steer.cold_pressure": "110 psi",
    "tires.drive.count": "8",
    "tires.drive.cold_pressure": "95 psi",
    "parking_brake.control": "push_pull_knob",
    "parking_brake.location": "dash, right of the wheel",
    "law.warning_device_near": "10 ft",
    "law.warning_device_far": "100 ft",
    "law.warning_device_far_one_way": "200 ft",
    "law.warning_device_obstruction_from": "100 ft",
    "law.warning_device_obstruction_to": "500 ft",
    "fuel_tanks.count": "2",
    "fuel_tanks.capacity_each": "120 gal",
    "block_heater.current": "12.5 A",
    "block_heater.voltage": "120 V",
    "block_heater.short_cord": "25 ft",
    "block_heater.short_cord_gauge": "awg_16",
    "block_heater.medium_cord": "50 ft",
    "block_heater.medium_cord_gauge": "awg_14",
    "block_heater.long_cord": "75 ft",
    "block_heater.long_cord_gauge": "awg_12",
    "block_heater.longest_cord": "100 ft",
    "block_heater.longest_cord_gauge": "none",
}
AWG = ("awg_18", "awg_16", "awg_14", "awg_12")
METRIC = ("mm2_1", "mm2_1.5", "mm2_2.5", "mm2_4")
WIDE = 0.62
"""Width of a letter by its height, on the average of bold type; common practice, no source."""


def figure(
    kind: str,
    other: Mapping[str, str | list[str]] | None = None,
    known: Mapping[str, Fact] | None = None,
) -> Figure:
    made = figure_of(asking(kind), known or facts({**TRUCK, **(other or {})}))
    assert made is not None
    return made


def asking(kind: str, lamp: LampSign | None = None) -> Procedure:
    title = Text("p.title", (Words("Check"),), SPAN)
    return Procedure("p", title, "cab", (), (), (), (), SPAN, lamp=lamp, figure=kind)


def words(made: Figure) -> list[str]:
    return [each.says for each in made.writing if isinstance(each.says, str)]


def caption(made: Figure) -> str:
    parts = made.alt.parts
    return "".join(p.text if isinstance(p, Words) else f"<{p.name}>" for p in parts)


def solid_boxes(made: Figure) -> list[Box]:
    return [each for each in made.shapes if isinstance(each, Box) and each.solid]


def marks(made: Figure) -> list[Line]:
    return [each for each in made.shapes if isinstance(each, Line) and each.width == 7]


def spread(made: Figure) -> list[tuple[float, float, float, float]]:
    """Return about where each writing stands: left, top, right, bottom."""
    boxes, known = [], facts(TRUCK)
    for each in made.writing:
        text = (
            value_words(known[each.says.name])
            if isinstance(each.says, FactRef)
            else FIGURE_WORDS[each.says]
        )
        wide = len(text) * LETTERS * WIDE
        left = each.x - {"start": 0.0, "middle": wide / 2, "end": wide}[each.anchor]
        boxes.append((left, each.y - LETTERS * 0.8, left + wide, each.y + LETTERS * 0.2))
    return boxes


def test_every_kind_can_be_drawn() -> None:
    assert {*SKETCHES} == {*FIGURE_KINDS}


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_the_caption_says_every_value_of_the_drawing(kind: str) -> None:
    made = figure(kind)

    drawn = {each.says for each in made.writing if isinstance(each.says, FactRef)}
    said = {part for part in made.alt.parts if isinstance(part, FactRef)}

    assert drawn - said == set()
    assert caption(made).endswith(".")


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_no_word_overlaps_another_or_leaves_the_drawing(kind: str) -> None:
    made = figure(kind)
    boxes = spread(made)

    for place, (left, top, right, bottom) in enumerate(boxes):
        assert left >= 0
        assert top >= 0
        assert right <= made.width
        assert bottom <= made.height
        for other in boxes[place + 1 :]:
            apart = right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
            assert apart, (made.writing[place], other)


@pytest.mark.parametrize("kind", FIGURE_KINDS)
def test_a_figure_needs_no_fact_but_those_it_names(kind: str) -> None:
    needed = {name: TRUCK[name] for name in FIGURE_KINDS[kind]}

    assert figure(kind, known=facts(needed)).shapes


# The dial turns from lower left over 270 degrees: half of 150 psi is straight up, and each 25 psi
# more is an eighth of a turn.
@pytest.mark.parametrize(
    ("place", "eighths"), [(0, 0), (1, 1), (2, 2)], ids=["low air", "cut-in", "cut-out"]
)
def test_each_mark_of_the_air_gauge_stands_at_its_pressure(place: int, eighths: int) -> None:
    made = figure("air_gauge")
    dial = next(each for each in made.shapes if isinstance(each, Circle))
    mark = marks(made)[place]

    turned = math.atan2(mark.x2 - dial.x, dial.y - mark.y2)

    assert turned == pytest.approx(eighths * math.tau / 8, abs=0.01)


def test_the_air_gauge_carries_the_scale_of_the_fleet() -> None:
    typed = facts(TRUCK)
    metric = {}
    for name, fact in typed.items():
        value = fact.value
        if isinstance(value, Quantity) and name in AIR:
            pair = show_pair(value, Sense.NOMINAL, System.METRIC, System.US)
            metric[name] = replace(fact, shown=pair)
    made = figure("air_gauge", known={**typed, **metric})

    assert [word for word in words(made) if word.isdigit()] == [
        *("0", "200", "400", "600", "800", "1000", "1200")
    ]
    assert "kPa" in words(made)
    assert "psi" not in words(made)


@pytest.mark.parametrize(
    ("low", "cut_in", "cut_out"),
    [
        ("50 psi", "70 psi", "95 psi"),
        ("80 psi", "135 psi", "149 psi"),
        ("75 psi", "76 psi", "95 psi"),
    ],
)
def test_the_words_of_the_air_gauge_stay_apart(low: str, cut_in: str, cut_out: str) -> None:
    made = figure("air_gauge", dict(zip(AIR, (low, cut_in, cut_out), strict=True)))
    values = [each.y for each in made.writing if isinstance(each.says, FactRef)]

    assert all(second - first >= 2 * LETTERS for first, second in itertools.pairwise(values))
    assert values[-1] < made.height


@pytest.mark.parametrize("bars", range(2, 17))
def test_the_def_gauge_has_as_many_bars_as_the_truck(bars: int) -> None:
    boxes = solid_boxes(figure("def_gauge", {"def_system.gauge_segments": str(bars)}))

    assert len(boxes) == bars
    assert len({box.width_along for box in boxes}) == 1


def test_the_charge_gauge_is_filled_to_the_least_charge() -> None:
    made = figure("charge_gauge", {"high_voltage.lowest_charge": "50 %"})
    case = next(each for each in made.shapes if isinstance(each, Box))
    filled = solid_boxes(made)[-1]

    assert filled.x + filled.width_along == case.x + case.width_along // 2


@pytest.mark.parametrize(
    ("kind", "fact", "states"),
    [
        ("power_steering_level", "power_steering.check_state", {"cold": "COLD", "hot": "HOT"}),
        (
            "transmission_level",
            "transmission.check_state",
            {"cold": "COLD", "warm": "HOT", "idling": "HOT"},
        ),
    ],
)
def test_no_state_stands_beside_a_mark_of_another(
    kind: str, fact: str, states: Mapping[str, str]
) -> None:
    for state, mark in states.items():
        made = figure(kind, {fact: state})
        shown = [FIGURE_WORDS[word] for word in words(made) if word.startswith("mark_")]

        assert shown == [mark]
        assert ("COLD" in caption(made), "HOT" in caption(made)) == (mark == "COLD", mark == "HOT")


def test_a_sight_glass_is_not_drawn_as_a_dipstick() -> None:
    made = figure("transmission_level", {"transmission.check": "sight_glass"})

    assert "Sight glass" in caption(made)
    assert not any(isinstance(each, Circle) for each in made.shapes)


def test_less_oil_is_nearer_the_tip_of_the_dipstick_than_more() -> None:
    made = figure("engine_dipstick")
    handle = next(each for each in made.shapes if isinstance(each, Circle))
    at = {each.says: each.x for each in made.writing}

    assert abs(handle.x - at["mark_full"]) < abs(handle.x - at["mark_add"])


@pytest.mark.parametrize(
    ("configuration", "counts"),
    [
        ("4x2", {"steer": 2, "drive": 4}),
        ("4x2", {"steer": 2, "drive": 2}),
        ("4x4", {"steer": 2, "drive": 4}),
        ("6x4", {"steer": 2, "drive": 8}),
        ("6x2", {"steer": 2, "drive": 4, "tag": 4}),
        ("8x4", {"steer": 2, "drive": 8, "tag": 2}),
        ("8x4", {"steer": 4, "drive": 8}),
    ],
)
def test_every_tire_is_drawn_once(configuration: str, counts: Mapping[str, int]) -> None:
    known = {f"tires.{position}.count": str(count) for position, count in counts.items()}
    made = figure("tire_plan", {"axles.configuration": configuration, **known})
    tires = solid_boxes(made)

    assert len(tires) == sum(counts.values())
    assert len({(tire.x, tire.y) for tire in tires}) == len(tires)
    assert [word for word in words(made) if word in counts] == list(counts)


@pytest.mark.parametrize(
    ("configuration", "counts"),
    [
        ("6x4", {"steer": 2, "drive": 6}),
        ("6x4", {"steer": 2, "drive": 7}),
        ("4x2", {"steer": 2, "drive": 4, "tag": 2}),
        ("6x2", {"steer": 2, "drive": 4}),
        ("2x2", {"steer": 2, "drive": 4}),
        ("5x2", {"steer": 2, "drive": 4}),
        ("4x2", {"steer": 1, "drive": 4}),
    ],
)
def test_tires_that_do_not_pair_are_not_drawn(
    configuration: str, counts: Mapping[str, int]
) -> None:
    known = {f"tires.{position}.count": str(count) for position, count in counts.items()}
    truck = facts({"axles.configuration": configuration, **known})

    assert axle_groups(truck) is None
    assert why_not_drawn("tire_plan", truck) == "has axles and tires that do not make pairs"


def test_the_fuel_gauge_has_its_needle_at_full_and_says_what_the_tanks_hold() -> None:
    made = figure("fuel_gauge")
    (needle,) = [each for each in made.shapes if isinstance(each, Line) and each.width == 9]
    quarters = [each for each in made.shapes if isinstance(each, Line) and each.width == 3]

    assert needle.x1 == max(each.x1 for each in quarters)
    assert len({after.x1 - before.x1 for before, after in itertools.pairwise(quarters)}) == 1
    assert words(made) == ["empty", "full", "tanks_of"]
    assert caption(made) == (
        "Fuel gauge at full. Fuel tanks: <fuel_tanks.count>. "
        "Each then holds <fuel_tanks.capacity_each>."
    )


def test_the_device_of_a_hill_stands_before_it_and_on_its_side_of_the_truck() -> None:
    """49 CFR 392.22(b)(2)(iv): toward the obstruction, where traffic sees it before the hill."""
    made = figure("warning_devices_hill")
    hill = {each.x1 for each in made.shapes if isinstance(each, Line) and each.width == 5}
    (device,) = [each for each in made.shapes if isinstance(each, Curve)]
    truck = next(each for each in made.shapes if isinstance(each, Box))

    assert int(device.path[1:].split()[0]) < min(hill) <= max(hill) < truck.x
    assert words(made) == ["traffic", "truck", "hill_or_curve", "up_to"]
    assert "<law.warning_device_obstruction_from> and at most" in caption(made)


def rows(made: Figure) -> dict[str, list[Line]]:
    """Return what is drawn behind each gauge of a table of cords, by the gauge's fact."""
    gauges = [
        each
        for each in made.writing
        if isinstance(each.says, FactRef) and each.says.name.endswith("_gauge")
    ]
    lines = [each for each in made.shapes if isinstance(each, Line) and each.x1 > gauges[0].x]
    return {
        each.says.name: [line for line in lines if abs(line.y1 - each.y) <= LETTERS]
        for each in gauges
        if isinstance(each.says, FactRef)
    }


def test_the_table_of_cords_has_each_gauge_in_the_row_of_its_length() -> None:
    made = figure("cord_table")
    at = {each.says.name: each.y for each in made.writing if isinstance(each.says, FactRef)}
    cords = [name for name in at if name.endswith("_cord")]

    assert len(cords) == 4
    assert [at[name] for name in cords] == sorted(at[name] for name in cords)
    assert [at[f"{name}_gauge"] for name in cords] == [at[name] for name in cords]


@pytest.mark.parametrize("thin_to_thick", [AWG, METRIC], ids=["awg", "metric"])
def test_a_thicker_cord_has_a_thicker_stroke_and_none_a_cross(
    thin_to_thick: tuple[str, ...],
) -> None:
    gauges = dict(zip((f"{cord}_gauge" for cord in CORD_TABLE_ROWS), thin_to_thick, strict=True))
    strokes = rows(figure("cord_table", gauges))
    widths = [strokes[name][0].width for name in gauges]
    without = rows(figure("cord_table"))["block_heater.longest_cord_gauge"]

    assert [len(lines) for lines in strokes.values()] == [1] * 4
    assert widths == sorted(set(widths))
    assert len(without) == 2
    assert all(line.y1 != line.y2 for line in without)


def test_every_gauge_that_a_spec_can_state_can_be_drawn() -> None:
    for gauge in CORD_GAUGES:
        assert figure("cord_table", {"block_heater.short_cord_gauge": gauge}).shapes


def test_the_caption_of_the_table_of_cords_leaves_the_last_word_to_the_code() -> None:
    assert caption(figure("cord_table")).endswith("The electrical code of the place comes first.")


@pytest.mark.parametrize("control", PARKING_CONTROLS)
def test_the_parking_brake_is_shown_set_and_then_released(control: str) -> None:
    made = figure("parking_control", {"parking_brake.control": control})

    assert [word for word in words(made) if word in ("set", "released")] == ["set", "released"]
    assert caption(made).endswith("<parking_brake.control>, <parking_brake.location>.")


def test_controls_of_the_parking_brake_look_different() -> None:
    drawn = {
        figure("parking_control", {"parking_brake.control": c}).shapes for c in PARKING_CONTROLS
    }

    assert len(drawn) == len(PARKING_CONTROLS)


@pytest.mark.parametrize(("lamps", "said"), [(["parking_brake"], True), (["abs"], False)])
def test_the_lamp_of_the_parking_switch_is_drawn_only_if_fitted(
    lamps: list[str],
    said: bool,  # noqa: FBT001 -- a parameter of the table
) -> None:
    switch: dict[str, str | list[str]] = {
        "parking_brake.control": "electric_switch",
        "lamps.fitted": lamps,
    }
    made = figure("parking_control", switch)

    assert ("lamp" in caption(made)) is said
    assert any(isinstance(each, Circle) and each.solid for each in made.shapes) is said


def test_every_lamp_has_a_shape_of_its_own() -> None:
    assert {*GLYPHS} == {*LAMPS}
    assert len({(each.strokes, each.solids, each.word) for each in GLYPHS.values()}) == len(LAMPS)


@pytest.mark.parametrize("lamp", LAMPS)
def test_a_lamp_is_named_and_said_to_be_a_sketch(lamp: str) -> None:
    made = figure_of(asking(LAMP_SYMBOL, LampSign(lamp, LAMPS[lamp].color, "know")), {})

    assert made is not None
    assert caption(made) == (
        f"Sketch: {LAMPS[lamp].name}. The symbol in your truck can look different."
    )


def test_a_procedure_without_a_figure_has_none() -> None:
    assert figure_of(replace(asking("air_gauge"), figure=None), facts(TRUCK)) is None


def test_values_are_escaped_and_ink_is_that_of_the_text() -> None:
    values = dict.fromkeys(AIR, 'a & b <i> "c"')
    drawn = draw_svg(figure("air_gauge"), values)

    assert drawn.count('a &amp; b &lt;i&gt; "c"</text>') == len(AIR)
    assert "<i>" not in drawn
    assert "#" not in drawn
