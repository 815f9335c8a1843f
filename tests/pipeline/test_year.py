"""A year of an invented fleet, from an empty workbook to a site that was taken back.

Each step is a command, and each is looked at as the office would.
"""

import json
import shutil
from pathlib import Path
from typing import Any

from at_prompt import Prompt
from clerk import FIRST_ROW, NAME_ROW, Clerk, at_desk
from click.testing import CliRunner
from pypdfium2 import PdfDocument  # type: ignore[import-untyped]  # it ships no types

from guidegen.cli import commands

MODEL = "drumlin-72"
TRUCKS = {"T-01": "7Z9DT72S8MBDV4208", "T-02": "7Z9DT72S3MBDV4214"}
BLANKS = ("?", "\N{EN DASH}")
"""What the workbook shows where nothing is on record, or nothing is fitted."""

LEFT_OUT = "brakes.air.low_air_warning"
"""What the papers do not say, and the guides need."""

CARDS = ("brakes", "visor")
RETROFIT = "Governed (cut-out) pressure 130 psi → 120 psi"


def papers_of(seed: Path, out: Path) -> Clerk:
    """Return the demo fleet's workbook: the papers that the clerk copies from."""
    file = out / "papers.xlsx"
    Prompt(seed).run("workbook", "export", "--out", str(file))
    return at_desk(file.read_bytes())


def copy_rows(papers: Clerk, desk: Clerk, left_out: str) -> None:
    """Enter a model and two trucks of it, all but one value, as a clerk does."""
    for page in papers.book.worksheets:
        names = {cell.column: str(cell.value) for cell in page[NAME_ROW] if cell.value}
        if page.sheet_state != "visible" or not {"unit", "model"} & set(names.values()):
            continue
        column = 1 if page.title in ("Trucks", "Models") else 2
        key = "T-17" if page.title == "Trucks" else MODEL
        row = next(r for r in range(FIRST_ROW, 200) if page.cell(r, column).value == key)
        shown = {name: page.cell(row, place).value for place, name in names.items()}
        typed = {
            name.replace(".", "__"): str(value)
            for name, value in shown.items()
            if value is not None and value not in BLANKS and name != left_out
        }
        if page.title != "Trucks":
            desk.enter(page.title, **typed)
            continue
        for number, vin in TRUCKS.items():
            own = {"unit": number, "identity__vin": vin, "identity__yard": "main-yard"}
            desk.enter(page.title, **{**typed, **own})


def enter(office: Prompt, key: str, name: str, value: str) -> str:
    """Type one value into a fresh workbook and import it; return what the import tells."""
    file = office.folder / "fleet.xlsx"
    office.run("workbook", "export", "--force")
    desk = at_desk(file.read_bytes())
    desk.type(key, name, value)
    file.write_bytes(desk.save())
    return office.run("workbook", "import", str(file), "--apply")


def on_page(folder: Path, unit: str) -> str:
    """Return the words of a truck's brake page, every space plain."""
    return (folder / unit / "air-brakes.html").read_text(encoding="utf-8").replace("\xa0", " ")


def on_sheets(file: Path) -> str:
    with PdfDocument(file) as pdf:
        words = " ".join(page.get_textpage().get_text_range() for page in pdf)
    return " ".join(words.replace("\xa0", " ").split())


def start(folder: Path, seed: Path, templates: Path) -> Prompt:
    """Start a fleet from an empty workbook, into which a clerk copies the papers of two trucks."""
    done = CliRunner().invoke(commands, ["init", str(folder), "--workbook"])
    assert done.exit_code == 0, done.output
    office = Prompt(folder)
    office.edit(
        "specs/fleet.yml", "name: My fleet", "name: Alder County\naddress: https://a.example/"
    )
    # Of the cards two are enough to tell a story.
    shutil.copytree(templates, folder / "site_templates")
    shutil.copy(Path(__file__).parent / "two_cards.yml", folder / "site_templates" / "cards.yml")
    file = folder / "fleet.xlsx"
    desk = at_desk(file.read_bytes())
    copy_rows(papers_of(seed, folder), desk, LEFT_OUT)
    file.write_bytes(desk.save())
    told = office.run("workbook", "import", str(file), "--apply")
    assert "T-02 is new: a truck of model drumlin-72, sheet Trucks, cell A6" in told
    return office


def test_a_fleet_is_led_through_a_year(  # noqa: PLR0915 -- a year has many days
    seed: Path, project_root: Path, tmp_path: Path
) -> None:
    web, sheets = tmp_path / "web", tmp_path / "again.pdf"
    office = start(tmp_path / "fleet", seed, project_root / "site_templates")

    # January: one value is not on record, and holds both trucks back until the shop looks it up.
    told = office.run("missing", code=1)
    assert "2 of 2 trucks have no guide because of what is not on record" in told
    assert f"  1. H {LEFT_OUT} (Low-air warning pressure)\n" in told
    assert "alone it frees 2; in this order it frees T-01, T-02" in told
    told = enter(office, MODEL, LEFT_OUT, "65 psi")
    assert f"{MODEL} {LEFT_OUT} not on record → 65 psi, sheet Brakes, cell " in told

    # February: the first release, the first site, the first cards.
    office.run("release", "--by", "I. Quist", "--date", "2026-02-02")
    assert [each["changes"] for each in revisions(office, "T-02")] == [[]]
    office.run("build")
    office.run("publish", str(web))
    assert "130 psi" in on_page(web, "T-02")
    told = office.run("cards", "--all", "--record", "--by", "R. Aldous", "--date", "2026-02-03")
    assert "4 cards" in told

    # June: the shop sets the governor of one truck anew.
    told = enter(office, "T-02", "brakes.air.cut_out", "120 psi")
    assert "T-02 brakes.air.cut_out 130 psi (of the model) → 120 psi, sheet Brakes, cell " in told
    office.run("release", "--by", "I. Quist", "--date", "2026-06-15")
    assert [each["changes"] for each in revisions(office, "T-02")] == [[RETROFIT], []]
    assert len(revisions(office, "T-01")) == 1

    # One card of one truck is wrong now; the other of its cards says the same under an old number.
    told = office.run(
        *("reprint", "--out", str(sheets), "--record", "--date", "2026-06-16", "--by", "R. Aldous")
    )
    assert "Main Yard\n=========\n\nT-02 brakes “Brake check”: a limit changed" in told
    assert f"  {RETROFIT}\n  in the cab: revision 1, printed 2026-02-03 by R. Aldous\n" in told
    assert "1 card to print, 0 to take out, 3 up to date\n1 of these carries an older" in told
    words = on_sheets(sheets)
    assert "T-02 Brake check" in words
    assert "Revision 2, 2026-06-15" in words
    assert "120 psi" in words
    assert "T-01" not in words
    assert "130 psi" not in words

    # The pages follow; the page that the code on the old card opens tells what changed since.
    office.run("build")
    told = office.run("publish", str(web))
    assert "T-02" in told
    assert "120 psi" in on_page(web, "T-02")
    assert "130 psi" in on_page(web, "T-01")
    opened = (web / "T-02" / "index.html").read_text(encoding="utf-8").replace("\xa0", " ")
    old = revisions(office, "T-02")[-1]["digits"]
    assert f'data-digits="{old}"' in opened
    assert RETROFIT in opened

    # Which number did the driver have in hand in March?
    shown = office.ask("show", "T-02", "--revision", "1")
    (value,) = [e["value"] for e in shown["facts"] if e["name"] == "brakes.air.cut_out"]
    assert value.replace("\xa0", " ").startswith("130 psi")

    # November: the site is taken back, and a truck is sold.
    assert "back to version 1" in office.run("publish", str(web), "--rollback")
    assert "130 psi" in on_page(web, "T-02")
    (office.folder / "specs" / "units" / "T-01.yml").unlink()
    sold = office.ask(
        *("reprint", "--yard", "main-yard", "--collected", "--record", "--date", "2026-11-30")
    )
    assert [(e["unit"], e["card"], e["do"]) for e in sold["cards"]] == [
        ("T-01", card, "take out") for card in CARDS
    ]

    # The record tells the whole year, and nothing hangs in a cab that should not.
    lines = (office.folder / "records/printings/printings.jsonl").read_text(encoding="utf-8")
    acts = [(e["date"], e["act"], e["unit"]) for e in map(json.loads, lines.splitlines())]
    assert acts == [
        ("2026-02-03", "printed", "T-01"),
        ("2026-02-03", "printed", "T-02"),
        ("2026-06-16", "printed", "T-02"),
        ("2026-11-30", "collected", "T-01"),
    ]


def revisions(office: Prompt, unit: str) -> list[dict[str, Any]]:
    """Return the revisions of a truck, the newest first."""
    listed: list[dict[str, Any]] = office.ask("history", unit)["revisions"]
    return listed
