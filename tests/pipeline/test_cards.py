"""Cards of the demo fleet: published with the site, proved, and printed from the command line."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pytest

Run = Callable[..., Any]
UNITS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")
CARDS = ("start-up", "round", "brakes", "fluids", "lamps", "end-of-day", "emergency", "visor")


@pytest.mark.parametrize("unit", UNITS)
def test_every_truck_has_its_whole_set(demo: Path, unit: str) -> None:
    folder = demo / "site" / unit / "cards"

    assert sorted(path.name for path in folder.iterdir()) == sorted(f"{c}.pdf" for c in CARDS)
    assert all(path.read_bytes().startswith(b"%PDF-") for path in folder.iterdir())


def test_the_report_counts_what_was_read_back_of_the_cards(demo: Path) -> None:
    report = json.loads((demo / "site" / "office" / "proof.json").read_text(encoding="utf-8"))
    pages = 0
    for path in (demo / "site").rglob("*.pdf"):
        with pikepdf.open(path) as pdf:
            pages += len(pdf.pages)

    assert report["printed"]["sides"] == report["printed"]["codes"] == pages
    assert all(count > 0 for count in report["printed"].values())


def test_a_card_of_another_truck_fails_the_proof(run: Run, few_built: Path) -> None:
    site = few_built / "site"
    shutil.copy(site / "T-18" / "cards" / "brakes.pdf", site / "T-17" / "cards" / "brakes.pdf")

    ran = run("prove", "--format", "json", folder=few_built)

    told = json.loads(ran.out)
    assert ran.code == 1
    assert {finding["unit"] for finding in told["findings"]} == {"T-17"}
    assert all(finding["rule"].startswith("paper-") for finding in told["findings"])


def test_a_card_that_is_gone_fails_the_proof(run: Run, few_built: Path) -> None:
    (few_built / "site" / "E-02" / "cards" / "round.pdf").unlink()

    ran = run("prove", "--format", "json", folder=few_built)

    rules = {finding["rule"] for finding in json.loads(ran.out)["findings"]}
    assert ran.code == 1
    assert "page-missing" in rules


def test_a_fleet_that_states_neither_address_nor_date_has_a_site_without_cards(
    run: Run, project: Path
) -> None:
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")
    for other in UNITS[1:]:
        (project / "specs" / "units" / f"{other}.yml").unlink()

    ran = run("build", folder=project)
    refused = run("cards", "D-31", folder=project)

    assert ran.code == 0, ran.err
    assert not list((project / "site").rglob("*.pdf"))
    assert refused.code == 1
    assert "card-without-address" in refused.err
    assert "card-without-date" in refused.err


def test_cards_are_printed_alone_and_on_sheets(run: Run, project: Path) -> None:
    ran = run("cards", "T-17", "--card", "visor", "--stock", "letter", folder=project)

    folder = project / "cards"
    files = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.pdf"))
    assert ran.code == 0, ran.err
    assert ran.out.strip() == "1 cards, 1 sides, 2 files"
    assert files == ["T-17/visor.pdf", "sheets-letter.pdf"]


def test_a_unit_or_card_that_there_is_not_is_wrong_usage(run: Run, project: Path) -> None:
    unit = run("cards", "T-71", folder=project)
    card = run("cards", "T-17", "--card", "brake", folder=project)

    assert (unit.code, card.code) == (2, 2)
    assert "did you mean `T-17`?" in unit.err
    assert "did you mean `brakes`?" in card.err


def test_a_card_too_small_for_its_text_is_a_finding_and_no_file(run: Run, project: Path) -> None:
    ran = run("cards", "T-17", "--card", "emergency", "--size", "pocket", folder=project)

    assert ran.code == 1
    assert "text-taller-than-side" in ran.err
    assert list(project.rglob("*.pdf")) == []


def test_check_reports_a_card_that_names_what_there_is_not(run: Run, project: Path) -> None:
    fleet = project / "specs" / "fleet.yml"
    typed = "cards:\n  - {id: winter, title: Winter, size: a6, procedures: [cold-strat]}\n"
    fleet.write_text(fleet.read_text(encoding="utf-8") + typed, encoding="utf-8", newline="\n")

    ran = run("check", folder=project)

    assert ran.code == 1
    assert "error[card-names-unknown] there is no procedure `cold-strat`" in ran.err
    assert "did you mean `cold-start`?" in ran.err


def test_a_fleets_own_card_is_printed(run: Run, project: Path) -> None:
    fleet = project / "specs" / "fleet.yml"
    typed = "cards:\n  - {id: winter, title: Winter, size: a6, procedures: [cold-start]}\n"
    fleet.write_text(fleet.read_text(encoding="utf-8") + typed, encoding="utf-8", newline="\n")

    ran = run("cards", "T-17", "--card", "winter", folder=project)

    assert ran.code == 0, ran.err
    assert (project / "cards" / "T-17" / "winter.pdf").is_file()


def test_a_fault_of_the_fleet_file_does_not_hide_how_many_trucks_wait(
    run: Run, project: Path
) -> None:
    fleet = project / "specs" / "fleet.yml"
    text = fleet.read_text(encoding="utf-8")
    fleet.write_text(text.replace("issued: 2026-11-20", "issued: 20 Nov"), encoding="utf-8")

    ran = run("check", folder=project)

    assert "error[not-a-date] `issued: 20 Nov` is no date" in ran.err
    assert "0 of 8 guides are ready" in ran.out
