"""Cards on record that are not asked back, printed or recorded as they should: see test_year.py
for those that are.
"""

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from at_prompt import Prompt
from few_trucks import keep
from printed import kind
from sample_fleet import T_17
from sample_printings import FLUIDS, deck, printed

from guidegen.build.printing_files import add_printings
from guidegen.build.project import open_project
from guidegen.printings.deck import deck_bytes
from guidegen.printings.model import PrintedCard
from guidegen.revisions.snapshot import digest_of

RECORD = "records/printings/printings.jsonl"
WORDS = deck_bytes(deck(T_17))


@pytest.fixture
def desk(seed: Path, tmp_path: Path) -> Prompt:
    """One truck whose cab holds a card of another fleet's words, as far as the record knows."""
    folder = keep(Path(shutil.copytree(seed, tmp_path / "fleet")), ["T-17"])
    hung = replace(printed("T-17", "2026-10-01", "fluids"), deck=digest_of(WORDS))
    add_printings(open_project(folder), [hung], {hung.deck: WORDS}, "2026-10-01 05:00")
    return Prompt(folder)


def lines(desk: Prompt) -> list[str]:
    return (desk.folder / RECORD).read_text(encoding="utf-8").splitlines()


def test_cards_that_are_not_proved_are_neither_printed_nor_recorded(
    desk: Prompt, project_root: Path, tmp_path: Path
) -> None:
    shutil.copytree(project_root / "site_templates", desk.folder / "site_templates")
    desk.edit("site_templates/paper/matter.typ", "it.label, strong", '"Pressure", strong')
    out, before = tmp_path / "again.pdf", lines(desk)

    told = desk.run(
        *("reprint", "--card", "fluids", "--out", str(out), "--record", "--date", "2026-11-30"),
        code=1,
    )

    assert "error[paper-" in told
    assert "nothing was printed\n1 card is not in the PDF" in told
    assert told.endswith("nothing was recorded\n")
    assert not out.exists()
    assert lines(desk) == before


def hang_in_pocket_size(desk: Prompt) -> None:
    """Put a card on record that was printed smaller than the fleet states: it will not fit."""
    # All that the demo's trucks get, so that none is asked for as new.
    kinds = [
        kind("half-letter", id=id_, facts=("engine.oil_grade",))
        for id_ in ("emergency", "start-up", "round", "brakes", "lamps", "end-of-day", "visor")
    ]
    words = deck_bytes(deck(T_17, (FLUIDS, *kinds)))
    hung = replace(
        printed("T-17", "2026-10-02"),
        deck=digest_of(words),
        cards=(PrintedCard("emergency", "pocket", digest_of(b"other words")),),
    )
    add_printings(open_project(desk.folder), [hung], {hung.deck: words}, "2026-10-02 05:00")


def test_a_card_that_does_not_fit_holds_no_other_back(desk: Prompt, tmp_path: Path) -> None:
    hang_in_pocket_size(desk)
    out = tmp_path / "again.pdf"
    typed = ("reprint", "T-17", "--out", str(out), "--record", "--date", "2026-11-30")

    told = json.loads(desk.run(*typed, "--format", "json", code=1))

    assert out.is_file()
    assert {each["card"] for each in told["cards"]} == {"emergency", "fluids"}
    (left,) = told["left_out"]
    assert (left["unit"], left["card"]) == ("T-17", "emergency")
    assert all("size `pocket`" in why for why in left["why"])
    assert all("choose a bigger" in act for act in left["do"])
    assert {each["rule"] for each in told["findings"] if each["severity"] == "error"} == {
        "text-taller-than-side"
    }
    assert "emergency" not in lines(desk)[-1]
    assert "fluids" in lines(desk)[-1]

    # What is left is asked for again, and alone nothing is printed of it.
    out.unlink()
    again = desk.run(*typed, code=1)
    assert "T-17 emergency “" in again
    assert "T-17 fluids" not in again
    assert "nothing was printed\n1 card is not in the PDF, and not recorded as printed:" in again
    assert "  T-17 emergency: " in again
    assert again.endswith("nothing was recorded\n")
    assert not out.exists()


def test_cards_with_faults_are_not_put_on_record(desk: Prompt) -> None:
    before = lines(desk)

    told = desk.run("cards", "T-17", "--card", "emergency", "--size", "pocket", "--record", code=1)

    assert "nothing was recorded" in told
    assert lines(desk) == before


def test_a_card_that_was_lost_is_collected_whatever_it_says(desk: Prompt) -> None:
    told = desk.ask(
        *("reprint", "T-17", "--card", "fluids", "--collected", "--record"),
        *("--by", "R. Aldous", "--date", "2026-11-30"),
    )

    assert told["recorded"]
    assert [(e["unit"], e["card"], e["do"]) for e in told["cards"]] == [("T-17", "fluids", "print")]
    last = json.loads(lines(desk)[-1])
    assert (last["act"], last["cards"]) == ("collected", [["fluids", "", ""]])


def test_a_truck_whose_file_cannot_be_read_has_not_retired(desk: Prompt) -> None:
    desk.edit("specs/units/T-17.yml", "unit: T-17", "unit: [T-17")

    told = desk.run("reprint", "--out", "again.pdf", code=1)

    assert "not judged, since their guides are held back: T-17\n" in told
    assert "  T-17 fluids: T-17 has no guide now, so that nobody knows what the card must" in told
    assert "take" not in told.partition("0 cards to print, 0 to take out")[0]


def test_a_clock_set_back_and_a_damaged_record_print_nothing(desk: Prompt, tmp_path: Path) -> None:
    out = tmp_path / "again.pdf"
    early = desk.run("cards", "T-17", "--record", "--date", "2026-09-30", code=1)
    desk.edit(RECORD, "T-17", "T-16")
    damaged = desk.run("reprint", "--out", str(out), code=1)

    assert "error[printing-before-the-last]" in early
    assert "error[printings-damaged] line 1 is not as it was written" in damaged
    assert not out.exists()
    assert not (desk.folder / "cards").exists()


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("--record",), "--record goes with --out or --collected"),
        (("--collected",), "--collected goes with --record"),
        (("--by", "R. A."), "go with --record"),
    ],
)
def test_what_makes_no_sense_is_wrong_usage(
    tmp_path: Path, typed: tuple[str, ...], words: str
) -> None:
    assert words in Prompt(tmp_path).run("reprint", *typed, code=2)
