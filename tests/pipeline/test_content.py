"""The demo fleet's guides: right for each truck, and written as the rules of the trade ask."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.build.read_specs import load_specs
from guidegen.finding import Findings
from guidegen.guide.assemble import assemble_guides
from guidegen.guide.model import Caution, FactRef, Guide, Step, Text
from guidegen.procedures.model import Signal, Words
from guidegen.procedures.words import LAMP_ACTS, SIGNAL_DEFINITIONS
from guidegen.quantity.express import express
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.fleet import JURISDICTIONS
from guidegen.specs.read import read_profile
from guidegen.units.model import Fact
from guidegen.units.resolve import FleetSpecs, resolve_units


@pytest.fixture(scope="module")
def loaded(project_root: Path) -> Loaded:
    findings = Findings()
    fleet = load_fleet(open_project(project_root), findings)
    assert [finding.what for finding in findings] == []
    assert fleet is not None
    return fleet


@pytest.fixture(scope="module")
def specs(project_root: Path) -> FleetSpecs:
    found = load_specs(open_project(project_root), Findings())
    assert found is not None
    return found


@pytest.fixture(scope="module")
def guides(loaded: Loaded) -> dict[str, Guide]:
    return dict(loaded.guides)


def texts(guide: Guide) -> list[Text]:
    found = []
    for chapter in guide.chapters:
        for procedure in chapter.procedures:
            found += [procedure.title, *procedure.expect, *procedure.if_not]
            for block in procedure.blocks:
                match block:
                    case Step(text=text):
                        found.append(text)
                    case Caution():
                        found += [block.hazard, block.consequence, block.avoid]
    return found


def words(guide: Guide) -> str:
    parts = [part for text in texts(guide) for part in text.parts]
    return " ".join(part.text for part in parts if isinstance(part, Words))


def ids(guide: Guide) -> set[str]:
    return {procedure.id for chapter in guide.chapters for procedure in chapter.procedures}


def test_all_eight_trucks_have_a_guide(loaded: Loaded) -> None:
    assert sorted(loaded.guides) == sorted(loaded.unit_numbers)
    assert len(loaded.guides) == 8


def test_every_procedure_of_the_library_is_in_some_guide_of_the_demo_fleet(
    loaded: Loaded, guides: dict[str, Guide]
) -> None:
    """So that the demo fleet exercises every branch; the pedal is the one kind it lacks."""
    used = set().union(*(ids(guide) for guide in guides.values()))

    assert set(loaded.library) - used <= {"parking-brake-pedal", "open-hood"} | {
        name for name in loaded.library if name.startswith("automatic-transmission-fluid")
    } | {"power-steering-fluid-hot"}


def test_the_electric_truck_has_no_word_of_oil_def_or_exhaust(guides: dict[str, Guide]) -> None:
    text = words(guides["E-02"])

    assert not re.search(r"\b(DEF|exhaust|engine|oil|diesel|dipstick|fuel)\b", text)


def test_no_page_of_the_electric_truck_has_a_word_of_oil_def_or_exhaust(demo: Path) -> None:
    """But the sheets that are about another truck as well, and the quiz with its wrong answers."""
    folder = demo / "site" / "E-02"
    others = ("from-", "quiz")
    pages = [page for page in folder.rglob("*.html") if not page.name.startswith(others)]
    index = folder / "search-data.js"

    assert len(pages) >= 10
    for file in (*pages, index):
        text = re.sub(r"<(script|style)\b.*?</\1>", " ", file.read_text("utf-8"), flags=re.DOTALL)
        said = re.sub(r"<[^>]+>", " ", text)
        assert not re.findall(r"\b(?:DEF|exhaust|oils?|dipstick|diesel)\b", said, re.IGNORECASE)


def test_the_truck_without_aftertreatment_has_no_word_of_def_or_regeneration(
    guides: dict[str, Guide],
) -> None:
    assert not re.search(r"\bDEF\b|regenerat", words(guides["T-04"]))


@pytest.mark.parametrize(
    ("unit", "there", "not_there"),
    [
        ("T-17", {"parking-brake-knob", "inter-axle-lock"}, {"differential-lock", "brake-fluid"}),
        ("T-17", {"couple-trailer", "tug-test", "headlamps-knob"}, {"clutch-pedal", "dump-body"}),
        ("T-18", {"differential-lock", "tank-drain-automatic"}, {"tank-drain-manual"}),
        ("T-04", {"tank-drain-manual", "engine-brake"}, {"parked-regeneration", "def-fill"}),
        (
            "T-04",
            {"clutch-fluid", "drive-off-manual"},
            {"mirror-heat", "def-frozen", "filter-lamp"},
        ),
        ("T-04", {"headlamps-pull-knob"}, {"steering-column", "slide-fifth-wheel"}),
        ("D-31", {"pto", "differential-lock"}, {"cruise"} - {"cruise"}),
        ("D-31", {"dump-body", "drive-off-automatic", "headlamps-switches"}, {"trailer-lines"}),
        ("K-22", {"suspension-dump"}, {"brake-fluid"}),
        ("K-22", {"drive-off-automated", "headlamps-stalk"}, {"brake-failure-hydraulic"}),
        ("V-08", {"tilt-cab", "brake-fluid", "reserve-pump-check"}, {"tilt-hood", "air-build-up"}),
        ("V-08", {"brake-failure-hydraulic"}, {"brake-failure-air", "regeneration-inhibit"}),
        ("R-12", {"gas-leak-check", "gas-shut-off"}, {"def-fill", "parked-regeneration"}),
        ("R-12", {"gas-fill", "gas-level", "fire-gas"}, {"fire", "fuel-level", "heater-cord"}),
        ("E-02", {"high-voltage-shut-off", "charge-check"}, {"start-up", "engine-oil-cold"}),
        (
            "E-02",
            {"charge-truck", "regenerative-braking", "high-voltage-water"},
            {"fire", "idling"},
        ),
        (
            "E-02",
            {"gauges-electric", "drive-off-electric"},
            {"gauges", "exhaust-look", "cold-start"},
        ),
    ],
)
def test_each_truck_gets_its_own_procedures(
    guides: dict[str, Guide], unit: str, there: set[str], not_there: set[str]
) -> None:
    assert there <= ids(guides[unit])
    assert not not_there & ids(guides[unit])


def test_near_identical_trucks_differ_only_where_the_retrofit_does(
    guides: dict[str, Guide],
) -> None:
    assert ids(guides["T-18"]) ^ ids(guides["T-17"]) == {
        "differential-lock",
        "lamp-differential-lock",
        "idle-adjustment",
        "tank-drain-automatic",
        "tank-drain-manual",
    }


def test_every_caution_comes_before_the_step_that_it_guards(guides: dict[str, Guide]) -> None:
    """ANSI Z535.6 practice, and procedure writing in general: always before, never within."""
    for guide in guides.values():
        for chapter in guide.chapters:
            for procedure in chapter.procedures:
                order = [block.id for block in procedure.blocks]
                for block in procedure.blocks:
                    if isinstance(block, Caution):
                        assert order.index(block.id) < order.index(block.guards)


def test_steps_have_at_most_twenty_words(guides: dict[str, Guide]) -> None:
    """ASD-STE100: a sentence of a procedure has at most 20 words."""
    for guide in guides.values():
        for chapter in guide.chapters:
            for procedure in chapter.procedures:
                for block in procedure.blocks:
                    if isinstance(block, Step):
                        written = " ".join(
                            part.text if isinstance(part, Words) else "value"
                            for part in block.text.parts
                        )
                        assert len(written.split()) <= 20, written


def test_every_sentence_that_a_driver_reads_has_at_most_twenty_words(
    guides: dict[str, Guide],
) -> None:
    """ASD-STE100 asks it of procedures and lets descriptions have 25; house style is 20 for all."""
    for guide in guides.values():
        for text in texts(guide):
            written = "".join(
                part.text if isinstance(part, Words) else "value" for part in text.parts
            )
            for sentence in re.split(r"(?<=[.!?])\s+(?=[A-Z])", written):
                assert len(sentence.split()) <= 20, (text.id, sentence)


def test_signal_words_are_those_of_the_standard_with_its_definitions() -> None:
    """ANSI Z535.6 (2007 on): will / could kill or injure seriously; minor or moderate; damage."""
    assert [signal.value for signal in Signal] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    assert "will cause death or serious injury" in SIGNAL_DEFINITIONS["DANGER"]
    assert "could cause death or serious injury" in SIGNAL_DEFINITIONS["WARNING"]
    assert "minor or moderate injury" in SIGNAL_DEFINITIONS["CAUTION"]
    assert "injury" in SIGNAL_DEFINITIONS["NOTICE"]
    assert "Not about injury" in SIGNAL_DEFINITIONS["NOTICE"]


def test_a_notice_speaks_of_no_injury_and_the_others_do(guides: dict[str, Guide]) -> None:
    """Definitions of ANSI Z535.6: NOTICE is for practices not related to personal injury."""
    injury = re.compile(r"\b(kill|crush|injur|burn you|die|death)", re.IGNORECASE)
    for guide in guides.values():
        for chapter in guide.chapters:
            for procedure in chapter.procedures:
                for block in procedure.blocks:
                    if isinstance(block, Caution) and block.signal is Signal.NOTICE:
                        written = " ".join(
                            part.text for part in block.consequence.parts if isinstance(part, Words)
                        )
                        assert not injury.search(written), block.id


def test_danger_is_kept_for_the_most_extreme_cases(loaded: Loaded) -> None:
    """ANSI Z535.6 limits it to them; a tenth as the bound is common practice, no source."""
    cautions = [c for template in loaded.library.values() for c in template.cautions]

    share = sum(c.signal is Signal.DANGER for c in cautions) / len(cautions)

    assert 0 < share <= 0.1


def psi(fact: Fact, end: str) -> float:
    value = fact.value
    if isinstance(value, QuantityRange):
        value = value.low if end == "low" else value.high
    assert isinstance(value, Quantity)
    return float(value.exact) / 6894.757293168  # NIST SP 811: 1 psi in pascal


def test_air_pressures_lie_in_the_order_of_the_rules(guides: dict[str, Guide]) -> None:
    """20 <= spring apply <= 45 < low-air warning < cut-in < cut-out < 150 psi.

    CDL manual section 5 (spring brakes), FMVSS 121 S5.1.5 (warning at 60 psi at least) and
    S5.1.1 (cut-in), California Vehicle Code 26503 (safety valve at 150 psi at most).
    """
    with_air = [guide for guide in guides.values() if "brakes.air.cut_out" in guide.facts]
    assert len(with_air) == 6
    for guide in with_air:
        low = psi(guide.facts["brakes.air.spring_apply"], "low")
        high = psi(guide.facts["brakes.air.spring_apply"], "high")
        warning = psi(guide.facts["brakes.air.low_air_warning"], "low")
        cut_in = psi(guide.facts["brakes.air.cut_in"], "low")
        cut_out = psi(guide.facts["brakes.air.cut_out"], "low")
        assert 19.99 <= low < high <= 45.01
        assert 59.99 <= warning < cut_in < cut_out < 150


def test_limits_of_the_law_name_their_source(guides: dict[str, Guide]) -> None:
    law = {n: f for n, f in guides["T-17"].facts.items() if n.startswith("law.") and f.shown}

    assert law
    for name, fact in law.items():
        assert getattr(fact.provenance, "source", ""), name


def test_the_profile_of_the_demo_fleet_holds_the_published_limits(
    guides: dict[str, Guide],
) -> None:
    """CDL manual section 5.3: 85 to 100 psi in 45 s; loss of 2 / 3 and 3 / 4 psi a minute."""
    facts = guides["T-17"].facts
    found = {
        name.removeprefix("law."): str(fact.value.amount)
        for name, fact in facts.items()
        if name.startswith("law.air") and isinstance(fact.value, Quantity)
    }

    assert found == {
        "air_build_up_from": "85",
        "air_build_up_to": "100",
        "air_build_up_time": "45",
        "air_loss_time": "1",
        "air_static_loss_single": "2",
        "air_static_loss_combination": "3",
        "air_applied_loss_single": "3",
        "air_applied_loss_combination": "4",
    }


@pytest.fixture(scope="module")
def guides_under(
    specs: FleetSpecs, loaded: Loaded, project_root: Path
) -> Callable[[str], dict[str, Guide]]:
    """The demo fleet's guides as if it were of another jurisdiction; no finding is let pass."""

    def fit(jurisdiction: str) -> dict[str, Guide]:
        findings = Findings()
        path = project_root / "site_templates" / "profiles" / f"{jurisdiction}.yml"
        profile = read_profile(path.name, path.read_bytes(), findings)
        assert profile is not None
        units = resolve_units(replace(specs, profile=profile), findings)
        fitted = assemble_guides(units.values(), loaded.library, findings)
        assert [finding.what for finding in findings] == []
        return dict(fitted)

    return fit


@pytest.mark.parametrize("jurisdiction", JURISDICTIONS)
def test_library_fits_every_truck_under_every_jurisdiction(
    jurisdiction: str, loaded: Loaded, guides_under: Callable[[str], dict[str, Guide]]
) -> None:
    fitted = guides_under(jurisdiction)

    assert sorted(fitted) == sorted(loaded.unit_numbers)


def facts_named(guide: Guide) -> set[str]:
    return {part.name for text in texts(guide) for part in text.parts if isinstance(part, FactRef)}


@pytest.mark.parametrize(
    ("jurisdiction", "has_distances", "has_idling_limit"),
    [
        ("us", True, False),
        ("us-california", False, True),
        ("ontario", False, False),
        ("british-columbia", False, False),
        ("uk", False, False),
    ],
)
def test_limits_of_one_jurisdiction_are_in_no_other_ones_guides(
    jurisdiction: str,
    guides_under: Callable[[str], dict[str, Guide]],
    *,
    has_distances: bool,
    has_idling_limit: bool,
) -> None:
    """Distances: 49 CFR 392.22(b), other countries differ. Idling: 13 CCR 2485, California."""
    guide = guides_under(jurisdiction)["T-17"]

    assert ("law.warning_device_far_one_way" in facts_named(guide)) is has_distances
    assert ("law.idling_limit" in facts_named(guide)) is has_idling_limit


def printed(guide: Guide, name: str) -> list[str]:
    return [express(amount).replace("\u00a0", " ") for amount in guide.facts[name].shown]


def test_warning_devices_stand_where_the_rule_puts_them(guides: dict[str, Guide]) -> None:
    """49 CFR 392.22(b): two-way 10, 100, 100 ft; divided 10, 100, 200 ft; hill 100 to 500 ft.

    The rule's own metric pairs: 3 m and 30 m (seen in print), 60 m and 150 m.
    """
    guide = guides["T-17"]

    assert printed(guide, "law.warning_device_near") == ["10 ft", "3 m"]
    assert printed(guide, "law.warning_device_far") == ["100 ft", "30 m"]
    assert printed(guide, "law.warning_device_far_one_way") == ["200 ft", "60 m"]
    assert printed(guide, "law.warning_device_obstruction_from") == ["100 ft", "30 m"]
    assert printed(guide, "law.warning_device_obstruction_to") == ["500 ft", "150 m"]
    assert guide.facts["law.warning_device_count"].value == 3  # 49 CFR 393.95(f)


def test_tread_depths_are_those_of_the_rule(
    guides: dict[str, Guide], guides_under: Callable[[str], dict[str, Guide]]
) -> None:
    """49 CFR 393.75(b) and (c): 4/32 and 2/32 in; United Kingdom, goods vehicles: 1 mm."""
    british = guides_under("uk")["T-17"]

    assert printed(guides["T-17"], "law.tread_depth_steer") == ["4/32 in", "3.2 mm"]
    assert printed(guides["T-17"], "law.tread_depth_other") == ["2/32 in", "1.6 mm"]
    assert "1 mm" in printed(british, "law.tread_depth_steer")


def test_nobody_adds_air_at_four_fifths_of_the_cold_pressure_or_less(
    guides: dict[str, Guide],
) -> None:
    """29 CFR 1910.177(f): 80 percent; rounded up, so less than one psi or 10 kPa above it."""
    checked = 0
    for guide in guides.values():
        for name, fact in guide.facts.items():
            if name.endswith(".no_fill_pressure"):
                cold = psi(guide.facts[name.replace("no_fill", "cold")], "low")
                assert -0.001 < psi(fact, "low") - 0.8 * cold < 1.46
                checked += 1
    assert checked == 17


def test_def_freezes_where_the_standard_says(guides: dict[str, Guide]) -> None:
    """ISO 22241 (AUS 32): -11 degrees Celsius, which the API program prints as 12 °F."""
    with_def = {n for n, g in guides.items() if "substance.def_freezing_point" in g.facts}

    assert printed(guides["T-17"], "substance.def_freezing_point") == ["12 °F", "\u221211 °C"]
    assert with_def == {"T-17", "T-18", "D-31", "K-22", "V-08"}


def test_library_covers_what_a_driver_reports_at_the_end_of_the_day(
    guides: dict[str, Guide],
) -> None:
    """49 CFR 396.11(a)(1): eleven parts, each with a procedure that looks at or tests it."""
    parts = {
        "service brakes": {"service-brake-test", "air-brake-look"},
        "parking brake": {"parking-brake-test"},
        "steering": {"steering-check"},
        "lights": {"lights-outside"},
        "tires": {"tires"},
        "horn": {"horn"},
        "wipers": {"wipers"},
        "mirrors": {"mirrors"},
        "coupling": {"fifth-wheel", "trailer-lines"},
        "wheels": {"wheels"},
        "emergency equipment": {"emergency-equipment"},
    }

    for part, procedures in parts.items():
        assert procedures <= ids(guides["T-17"]), part


def test_every_lamp_fitted_has_its_meaning_and_its_act_in_the_guide(
    guides: dict[str, Guide],
) -> None:
    for guide in guides.values():
        fitted = guide.facts["lamps.fitted"].value
        assert isinstance(fitted, tuple)
        lamps = [p.lamp.id for c in guide.chapters for p in c.procedures if p.lamp]
        assert sorted(lamps) == sorted(fitted)


def test_lamps_that_ask_to_stop_come_first(guides: dict[str, Guide]) -> None:
    order = list(LAMP_ACTS)
    for guide in guides.values():
        acts = [order.index(p.lamp.act) for c in guide.chapters for p in c.procedures if p.lamp]
        assert acts == sorted(acts)


def test_the_library_is_whole(loaded: Loaded) -> None:
    """Seventy-five procedures and forty lamps at least."""
    lamps = [template for template in loaded.library.values() if template.lamp]

    assert len(loaded.library) - len(lamps) >= 75
    assert len(lamps) >= 40
