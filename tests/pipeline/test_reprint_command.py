"""Cards of two trucks, on record and asked back, by the command line."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from few_trucks import keep
from pypdfium2 import PdfDocument  # type: ignore[import-untyped]  # it ships no types

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""

TRUCKS = ("T-17", "T-18")
MODEL = Path("specs/models/drumlin-72.yml")
RECORD = Path("records/printings/printings.jsonl")


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8", newline="\n")


def listed(run: Run, folder: Path, *arguments: str) -> dict[str, Any]:
    ran = run("reprint", *arguments, "--format", "json", folder=folder)
    assert ran.code == 0, ran.err
    told: dict[str, Any] = json.loads(ran.out)
    return told


def asked_back(told: dict[str, Any]) -> list[tuple[str, str, str, str]]:
    return [(each["yard"], each["unit"], each["card"], each["kind"]) for each in told["cards"]]


@pytest.fixture(scope="module")
def hung(seed: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two trucks whose card of fluids was printed; since then the governor was set anew."""
    folder = tmp_path_factory.mktemp("hung") / "fleet"
    keep(Path(shutil.copytree(seed, folder)), TRUCKS)
    ran = run(
        *("cards", *TRUCKS, "--card", "fluids", "--size", "a6", "--record"),
        *("--by", "Renske Aldous", "--copies", "2", "--date", "2026-10-01"),
        folder=folder,
    )
    assert ran.code == 0, ran.err
    assert ran.out.endswith("on record in records/printings/printings.jsonl\n")
    assert asked_back(listed(run, folder)) == []
    edit(folder / MODEL, "cut_out: 130 psi", "cut_out: 120 psi")
    return folder


@pytest.fixture
def fleet(hung: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(hung, tmp_path / "fleet"))


def test_the_list_tells_by_yard_what_changed_on_which_card(hung: Path, run: Run) -> None:
    told = listed(run, hung)

    assert asked_back(told) == [
        ("Mill Yard", "T-17", "fluids", "limit"),
        ("Ridge Yard", "T-18", "fluids", "limit"),
    ]
    first = told["cards"][0]
    assert first["changes"] == ["Governed (cut-out) pressure 130 psi → 120 psi"]
    assert first["in_cab"]["printed"] == "2026-10-01"
    assert (first["in_cab"]["copies"], first["in_cab"]["by"]) == (2, "Renske Aldous")
    assert asked_back(listed(run, hung, "--yard", "ridge-yard")) == asked_back(told)[1:]


def test_what_is_printed_anew_and_recorded_is_asked_back_no_more(fleet: Path, run: Run) -> None:
    out = fleet / "again.pdf"

    ran = run(
        *("reprint", "T-18", "--out", str(out), "--record", "--date", "2026-11-30"), folder=fleet
    )

    assert ran.code == 0, ran.err
    assert "1 card to print, 0 to take out, 0 up to date\n" in ran.out
    text = "".join(page.get_textpage().get_text_range() for page in PdfDocument(out))
    assert "T-18" in text
    assert "T-17" not in text
    assert "120 psi" in text.replace("\xa0", " ")
    assert "130 psi" not in text.replace("\xa0", " ")
    with pikepdf.open(out) as pdf:
        assert [float(edge) for edge in pdf.pages[0].MediaBox] == [0, 0, 612, 792]
    line = json.loads((fleet / RECORD).read_text(encoding="utf-8").splitlines()[-1])
    # In the size that the office chose for the card in the cab.
    assert [card[:2] for card in line["cards"]] == [["fluids", "a6"]]
    assert asked_back(listed(run, fleet)) == [("Mill Yard", "T-17", "fluids", "limit")]


def test_cards_that_are_not_proved_are_neither_printed_nor_recorded(fleet: Path, run: Run) -> None:
    shutil.copytree(Path(__file__).parents[2] / "site_templates", fleet / "site_templates")
    before = (fleet / RECORD).read_bytes()
    edit(fleet / "site_templates" / "paper" / "card.typ", "piece.label", '"Pressure"')

    ran = run("reprint", "--out", "again.pdf", "--record", folder=fleet)

    assert ran.code == 1
    assert "error[paper-" in ran.err
    assert "nothing was printed\nnothing was recorded" in ran.out
    assert not (fleet / "again.pdf").exists()
    assert (fleet / RECORD).read_bytes() == before


def test_a_clock_set_back_and_a_damaged_record_print_nothing(fleet: Path, run: Run) -> None:
    early = run("cards", "T-17", "--record", "--date", "2026-09-30", folder=fleet)
    edit(fleet / RECORD, "T-17", "T-16")
    damaged = run("reprint", "--out", "again.pdf", folder=fleet)

    assert (early.code, damaged.code) == (1, 1)
    assert "error[printing-before-the-last]" in early.err
    assert "error[printings-damaged] line 1 is not as it was written" in damaged.err
    assert not (fleet / "again.pdf").exists()


def test_cards_with_faults_are_not_put_on_record(fleet: Path, run: Run) -> None:
    before = (fleet / RECORD).read_bytes()

    ran = run("cards", "T-17", "--card", "emergency", "--size", "pocket", "--record", folder=fleet)

    assert ran.code == 1
    assert "nothing was recorded" in ran.out
    assert (fleet / RECORD).read_bytes() == before


def test_cards_of_a_retired_truck_are_asked_back_until_they_are_collected(
    fleet: Path, run: Run
) -> None:
    (fleet / "specs" / "units" / "T-18.yml").unlink()

    assert asked_back(listed(run, fleet, "T-18")) == [("Ridge Yard", "T-18", "fluids", "retired")]
    collected = run(
        *("reprint", "T-18", "--collected", "--record", "--date", "2026-12-01"), folder=fleet
    )
    assert collected.code == 0, collected.err
    assert asked_back(listed(run, fleet)) == [("Mill Yard", "T-17", "fluids", "limit")]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("--record",), "--record goes with --out or --collected"),
        (("--collected",), "--collected goes with --record"),
        (("--by", "R. A."), "go with --record"),
        (("T-71",), "did you mean `T-17`?"),
        (("--yard", "Mil Yard"), "did you mean `Mill Yard`?"),
        (("--card", "fluid"), "did you mean `fluids`?"),
    ],
)
def test_what_makes_no_sense_is_wrong_usage(
    hung: Path, run: Run, typed: tuple[str, ...], words: str
) -> None:
    ran = run("reprint", *typed, folder=hung)

    assert ran.code == 2
    assert words in ran.err
