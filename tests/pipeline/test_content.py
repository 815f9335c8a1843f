"""The demo fleet's guides: right for each truck, and written as the rules of the trade ask."""

import re
from pathlib import Path

import pytest

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Caution, Guide, Step, Text
from guidegen.procedures.model import Signal, Words
from guidegen.procedures.words import SIGNAL_DEFINITIONS
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.units.model import Fact


@pytest.fixture(scope="module")
def loaded(project_root: Path) -> Loaded:
    findings = Findings()
    fleet = load_fleet(open_project(project_root), findings)
    assert [finding.what for finding in findings] == []
    assert fleet is not None
    return fleet


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

    assert not re.search(r"\b(DEF|exhaust|engine oil|diesel|dipstick|fuel)\b", text)


def test_the_truck_without_aftertreatment_has_no_word_of_def_or_regeneration(
    guides: dict[str, Guide],
) -> None:
    assert not re.search(r"\bDEF\b|regenerat", words(guides["T-04"]))


@pytest.mark.parametrize(
    ("unit", "there", "not_there"),
    [
        ("T-17", {"parking-brake-knob", "inter-axle-lock"}, {"differential-lock", "brake-fluid"}),
        ("T-18", {"differential-lock", "tank-drain-automatic"}, {"tank-drain-manual"}),
        ("T-04", {"tank-drain-manual", "engine-brake"}, {"parked-regeneration", "def-fill"}),
        ("D-31", {"pto", "differential-lock"}, {"cruise"} - {"cruise"}),
        ("K-22", {"suspension-dump"}, {"brake-fluid"}),
        ("V-08", {"tilt-cab", "brake-fluid", "reserve-pump-check"}, {"tilt-hood", "air-build-up"}),
        ("R-12", {"gas-leak-check", "gas-shut-off"}, {"def-fill", "parked-regeneration"}),
        ("E-02", {"high-voltage-shut-off", "charge-check"}, {"start-up", "engine-oil-cold"}),
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
        "air_static_loss_single": "2",
        "air_static_loss_combination": "3",
        "air_applied_loss_single": "3",
        "air_applied_loss_combination": "4",
    }
