"""The demo fleet beside the lists of three places, and what happens when a procedure is missing."""

import json
import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.build.cover import FleetCoverage, cover_fleet
from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.coverage.check import check_coverage, cover
from guidegen.coverage.model import CoverageList, Entry, ListedItem, Need, State, UnitCoverage
from guidegen.coverage.pages import PAGES
from guidegen.coverage.report import coverage_as_json, format_coverage
from guidegen.finding import Findings
from guidegen.guide.model import Chapter, Guide
from guidegen.source import SourceFile, Span
from guidegen.units.model import Presence, SectionState, Unit

ROOT = Path(__file__).parents[3]
SPAN = Span(SourceFile("coverage/mine.yml", ""), 1, 1, 1, 2)
Fleets = Callable[[str], tuple[Loaded, FleetCoverage, Findings]]


@pytest.fixture(scope="module")
def fleets(tmp_path_factory: pytest.TempPathFactory) -> Fleets:
    """The demo fleet as it would be in another place, each loaded once."""
    known: dict[str, tuple[Loaded, FleetCoverage, Findings]] = {}

    def fleet_in(jurisdiction: str) -> tuple[Loaded, FleetCoverage, Findings]:
        if jurisdiction not in known:
            folder = tmp_path_factory.mktemp(jurisdiction)
            shutil.copytree(ROOT / "specs", folder / "specs")
            file = folder / "specs" / "fleet.yml"
            text = file.read_text(encoding="utf-8")
            changed = text.replace("jurisdiction: us\n", f"jurisdiction: {jurisdiction}\n")
            file.write_text(changed, encoding="utf-8")
            known[jurisdiction] = look_at(folder)
        return known[jurisdiction]

    return fleet_in


def look_at(folder: Path) -> tuple[Loaded, FleetCoverage, Findings]:
    findings = Findings()
    project = open_project(folder)
    loaded = load_fleet(project, findings)
    assert [finding.what for finding in findings.errors] == []
    assert loaded is not None
    covered = cover_fleet(project, loaded, findings)
    assert covered is not None
    return loaded, covered, findings


@pytest.mark.parametrize("jurisdiction", ["us", "us-california"])
def test_all_eight_trucks_meet_the_eleven_parts_of_the_united_states(
    fleets: Fleets, jurisdiction: str
) -> None:
    _, covered, findings = fleets(jurisdiction)

    assert [finding.what for finding in findings] == []
    assert len(covered.units) == 8
    for unit in covered.units:
        assert len(unit.entries) == 11
        assert unit.gaps == ()


@pytest.mark.parametrize(
    ("jurisdiction", "items"), [("ontario", 23), ("british-columbia", 23), ("uk", 24)]
)
def test_all_eight_trucks_meet_the_lists_of_canada_and_the_united_kingdom(
    fleets: Fleets, jurisdiction: str, items: int
) -> None:
    _, covered, findings = fleets(jurisdiction)

    assert [finding.what for finding in findings] == []
    assert len(covered.units) == 8
    for unit in covered.units:
        assert len(unit.entries) == items
        assert unit.gaps == ()


def test_only_the_electric_brakes_of_a_trailer_are_outside_the_guides(fleets: Fleets) -> None:
    outside = {
        entry.item.id
        for jurisdiction in ("us", "ontario", "uk")
        for unit in fleets(jurisdiction)[1].units
        for entry in unit.entries
        if entry.state is State.OUTSIDE
    }

    assert outside == {"electric-brake-system"}


def test_an_item_that_no_procedure_meets_is_a_gap_of_every_truck(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    made_up = replace(covered.coverage_list, items=(item(),))
    findings = Findings()

    check_coverage(
        made_up, [cover(made_up, loaded.units[n], g) for n, g in loaded.guides.items()], findings
    )

    (finding,) = findings
    assert finding.what == "`made-up` (Made up) is met by no procedure of the library"
    assert finding.notes[0].text == "in the guide of D-31, E-02, K-22, R-12, T-04, T-17, T-18, V-08"


def test_the_union_is_not_compared_with_anything(fleets: Fleets) -> None:
    _, covered, findings = fleets("eu")

    assert list(findings) == []
    assert all(unit.entries == () for unit in covered.units)
    assert covered.as_text().splitlines()[-1].strip().startswith("No list of the Union")


def without(guide: Guide, *gone: str) -> Guide:
    chapters = (
        Chapter(chapter.id, tuple(p for p in chapter.procedures if p.id not in gone))
        for chapter in guide.chapters
    )
    return replace(guide, chapters=tuple(chapters))


@pytest.mark.parametrize("jurisdiction", ["us", "ontario", "uk"])
def test_without_its_procedures_every_met_item_is_a_gap(fleets: Fleets, jurisdiction: str) -> None:
    loaded, covered, _ = fleets(jurisdiction)
    checked = 0
    for unit in covered.units:
        for entry in unit.entries:
            if entry.state is not State.MET:
                continue
            gone = {name.partition(".")[0] for name in entry.met_by}
            guide = without(loaded.guides[unit.unit], *gone)
            found = cover(covered.coverage_list, loaded.units[unit.unit], guide)
            assert entry.item.id in {gap.item.id for gap in found.gaps}
            checked += 1
    assert checked > 70


def test_a_thing_that_is_not_fitted_needs_no_procedure(fleets: Fleets) -> None:
    _, covered, _ = fleets("us")
    states = {
        unit.unit: entry.state
        for unit in covered.units
        for entry in unit.entries
        if entry.item.id == "coupling-devices"
    }

    assert {number for number, state in states.items() if state is State.MET} == {
        "T-04",
        "T-17",
        "T-18",
    }
    assert {number for number, state in states.items() if state is State.NOT_NEEDED} == {
        "D-31",
        "E-02",
        "K-22",
        "R-12",
        "V-08",
    }


def item(*needs: Need, outside: str = "", must_stop: bool = False) -> ListedItem:
    return ListedItem(
        "made-up",
        "Made up",
        "a law",
        "of today",
        needs,
        not_needed_when=None,
        outside=outside,
        must_stop=must_stop,
        span=SPAN,
    )


def entry_of(
    loaded: Loaded, covered: FleetCoverage, made_up: ListedItem, number: str = "T-17"
) -> Entry:
    made_up_list = replace(covered.coverage_list, items=(made_up,))
    return cover(made_up_list, loaded.units[number], loaded.guides[number]).entries[0]


def test_what_is_not_on_record_excuses_nobody(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    unit = loaded.units["D-31"]
    unknown = SectionState(Presence.NOT_ON_RECORD, None)
    blank = replace(unit, sections={**unit.sections, "fifth_wheel": unknown})

    found = cover(covered.coverage_list, blank, loaded.guides["D-31"])

    assert [gap.item.id for gap in found.gaps] == ["coupling-devices"]


def test_every_need_must_be_met_and_any_name_of_it_is_enough(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    one = Need(("start-up-gas", "start-up"), None)
    gas = Need(("start-up-gas",), None)

    met = entry_of(loaded, covered, item(one))
    gap = entry_of(loaded, covered, item(one, gas))

    assert (met.state, met.met_by) == (State.MET, ("start-up",))
    assert (gap.state, gap.missing) == (State.GAP, (gas,))


def test_a_step_counts_only_where_the_truck_has_it(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    by_hand = item(Need(("mirrors.steps.by-hand",), None))

    assert entry_of(loaded, covered, by_hand, "T-04").state is State.MET
    assert entry_of(loaded, covered, by_hand, "T-17").state is State.GAP


def test_an_item_outside_the_guide_is_shown_with_its_reason(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    outside = item(outside="the trailer has a sheet of its own")

    assert entry_of(loaded, covered, outside).state is State.OUTSIDE

    made_up = replace(covered.coverage_list, items=(outside,))
    units = [cover(made_up, loaded.units["T-17"], loaded.guides["T-17"])]
    assert "outside     made-up  Made up: the trailer has a sheet of its own" in format_coverage(
        made_up, units
    )


def test_a_procedure_that_never_says_stop_is_told_of(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    belt = item(Need(("seat-belt.steps.fasten",), None), must_stop=True)
    heater = item(Need(("block-heater",), None), must_stop=True)
    made_up = replace(covered.coverage_list, items=(belt, replace(heater, id="heater")))
    findings = Findings()

    unit = cover(made_up, loaded.units["T-17"], loaded.guides["T-17"])
    check_coverage(made_up, [unit], findings)

    assert [entry.stops for entry in unit.entries] == [True, False]
    (finding,) = findings
    assert finding.rule.name == "coverage-without-stop"
    assert not finding.is_error


def test_a_gap_of_several_trucks_is_told_once_with_its_law(fleets: Fleets) -> None:
    loaded, covered, _ = fleets("us")
    horn_only = replace(covered.coverage_list, items=(covered.coverage_list.items[5],))
    findings = Findings()
    units = [
        cover(horn_only, loaded.units[number], without(loaded.guides[number], "horn"))
        for number in ("T-17", "T-18")
    ]

    check_coverage(horn_only, units, findings)

    (finding,) = findings
    assert finding.what == "`horn` (Horn) lacks `horn`"
    assert [note.text for note in finding.notes] == [
        "in the guide of T-17, T-18",
        "listed in 49 CFR 396.11(a)(1), and 392.7(a) for the check before driving",
    ]
    assert finding.unit == ""


def test_the_report_counts_and_names(fleets: Fleets) -> None:
    _, covered, _ = fleets("us")
    text = format_coverage(covered.coverage_list, covered.units)

    assert "D-31: 10 of 11 items met, 1 of things not fitted" in text
    assert re.search(r"^  met +horn +Horn: horn$", text, re.MULTILINE)
    assert re.search(r"^  not fitted +coupling-devices +Coupling devices$", text, re.MULTILINE)


def test_the_report_for_programs_holds_every_item(fleets: Fleets) -> None:
    _, covered, _ = fleets("us")
    record = json.loads(json.dumps(coverage_as_json(covered.coverage_list, covered.units)))

    assert record["list"] == "49-cfr-396-11"
    assert [unit["unit"] for unit in record["units"]] == [unit.unit for unit in covered.units]
    assert all(len(unit["items"]) == 11 for unit in record["units"])
    assert record["units"][0]["items"][5]["met_by"] == ["horn"]


@pytest.mark.parametrize("kind", ["wrong", "right"])
def test_the_examples_of_the_page_leave_a_gap_and_none(kind: str, tmp_path: Path) -> None:
    (page,) = PAGES
    example = page.wrong if kind == "wrong" else page.right
    shutil.copytree(ROOT / "specs", tmp_path / "specs")
    file = tmp_path / "specs" / "units" / "T-17.yml"
    file.write_text(file.read_text(encoding="utf-8") + "\n" + example.text, encoding="utf-8")

    _, _, findings = look_at(tmp_path)

    found = [(finding.rule.name, finding.unit) for finding in findings]
    assert found == ([(page.rule.name, "T-17")] if kind == "wrong" else [])


def test_trucks_that_state_the_same_are_looked_at_once_and_told_alike(
    fleets: Fleets, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _, covered, _ = fleets("us")
    shutil.copytree(ROOT / "specs", tmp_path / "specs")
    units = tmp_path / "specs" / "units"
    text = (units / "T-18.yml").read_text("utf-8")
    # Without VIN and plate, which no two trucks share.
    twin = re.sub(r"(?m)^  (vin|plate):.*\n", "", text)
    for number in ("T-91", "T-92"):
        (units / f"{number}.yml").write_text(twin.replace("T-18", number), "utf-8")
    looked: list[str] = []

    def watched(listed: CoverageList, unit: Unit, guide: Guide) -> UnitCoverage:
        looked.append(unit.number)
        return cover(listed, unit, guide)

    monkeypatch.setattr("guidegen.build.cover.cover", watched)
    loaded, with_twins, _ = look_at(tmp_path)

    assert [each for each in looked if each.startswith("T-9")] == ["T-91"]
    assert with_twins.units == tuple(
        cover(covered.coverage_list, loaded.units[number], guide)
        for number, guide in loaded.guides.items()
    )
