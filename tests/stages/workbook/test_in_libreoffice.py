"""The workbook as another spreadsheet program reads and prints it: LibreOffice Calc.

`convert` hands the demo's workbook to LibreOffice, and beside it one in which something is wrong of
each kind, so that nothing is looked for that could not be found. The PDF is read by Poppler.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import openpyxl
import pytest
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from guidegen.build.project import open_project
from guidegen.build.workbook_files import export_workbook
from guidegen.finding import Findings

FLEET = "fleet"
FAULTY = "faulty"
# OpenDocument 1.3, part 4, 5.12 has the errors; LibreOffice prints those of its own as Err:502.
ERROR = re.compile(r"#(?:REF!|NAME\?|VALUE!|DIV/0!|NUM!|NULL!|N/A)|Err:[0-9]+")
TOO_NARROW = "###"
LONGEST_WORD = 25
PATIENCE = 540
"""Seconds: a loaded machine is slow, not wrong."""


@dataclass(frozen=True)
class Converted:
    exported: Workbook
    back: Workbook
    """The same after LibreOffice has read and written it."""

    printed: str
    """Text of its PDF."""

    faulty: Workbook
    faulty_printed: str


@pytest.fixture(scope="module")
def converted(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Converted:
    folder = tmp_path_factory.mktemp("libreoffice")
    made = export_workbook(open_project(project_root), Findings())
    assert made is not None
    (folder / f"{FLEET}.xlsx").write_bytes(made[0])
    write_faulty(folder / f"{FAULTY}.xlsx")
    for kind in ("pdf", "xlsx"):
        convert(folder, kind)
    return Converted(
        openpyxl.load_workbook(folder / f"{FLEET}.xlsx"),
        openpyxl.load_workbook(folder / "made" / f"{FLEET}.xlsx", data_only=True),
        printed(folder / "made" / f"{FLEET}.pdf"),
        openpyxl.load_workbook(folder / "made" / f"{FAULTY}.xlsx", data_only=True),
        printed(folder / "made" / f"{FAULTY}.pdf"),
    )


def convert(folder: Path, kind: str) -> None:
    """Let LibreOffice write both workbooks of *folder* as files of *kind*, in one run.

    Its settings are in a folder of their own: those of whoever runs the tests change nothing, and
    an office that is open does not take the work over.
    """
    named = os.environ.get("GUIDEGEN_OFFICE")
    program = named or shutil.which("soffice.com") or shutil.which("soffice")
    assert program, "install LibreOffice Calc, or name its `soffice` in GUIDEGEN_OFFICE"
    profile = (folder / "profile").as_uri()
    files = [f"{FLEET}.xlsx", f"{FAULTY}.xlsx"]
    subprocess.run(
        [
            *(program, f"-env:UserInstallation={profile}", "--headless", "--norestore"),
            *("--convert-to", kind, "--outdir", "made", *files),
        ],
        cwd=folder,
        check=True,
        capture_output=True,
        timeout=PATIENCE,
    )


def printed(pdf: Path) -> str:
    done = subprocess.run(
        ["pdftotext", "-layout", str(pdf), "-"],
        check=True,
        capture_output=True,
        timeout=PATIENCE,
    )
    return done.stdout.decode("utf-8")


def write_faulty(path: Path) -> None:
    """Write a workbook with a reference to nothing, a name of nothing and a narrow number."""
    book = Workbook()
    sheet = book.active
    assert isinstance(sheet, Worksheet)
    for row, formula in enumerate(("=A1048577+1", "=NOSUCH(1)", "=1/0"), start=1):
        sheet.cell(row, 1, formula)
    sheet["C5"] = 123456789
    sheet.column_dimensions["C"].width = 3
    book.save(path)


def values(sheet: Worksheet) -> dict[str, object]:
    """Return what cells hold; an empty text is nothing, as LibreOffice has it."""
    return {
        cell.coordinate: cell.value
        for line in sheet.iter_rows()
        for cell in line
        if cell.value not in {None, ""}
    }


def errors(book: Workbook) -> Iterator[str]:
    for sheet in book.worksheets:
        for place, value in values(sheet).items():
            is_error = sheet[place].data_type == "e"
            if is_error or (isinstance(value, str) and ERROR.fullmatch(value)):
                yield f"{sheet.title}!{place}: {value}"


def seen_words(book: Workbook) -> Iterator[str]:
    """Yield the words of all cells that are printed; one as wide as its column can be broken."""
    for sheet in book.worksheets:
        hidden = {
            column
            for each in sheet.column_dimensions.values()
            if each.hidden
            for column in range(each.min or 0, (each.max or 0) + 1)
        }
        for place, value in values(sheet).items() if sheet.sheet_state == "visible" else ():
            cell = sheet[place]
            if cell.column not in hidden and not sheet.row_dimensions[cell.row].hidden:
                yield from (word for word in str(value).split() if len(word) <= LONGEST_WORD)


def test_all_sheets_come_back_in_order_and_what_was_hidden_stays_hidden(
    converted: Converted,
) -> None:
    before = [(each.title, each.sheet_state == "visible") for each in converted.exported]
    after = [(each.title, each.sheet_state == "visible") for each in converted.back]

    assert after == before
    assert len(before) > 10


def test_every_value_comes_back_as_it_was_exported(converted: Converted) -> None:
    before = {each.title: values(each) for each in converted.exported.worksheets}
    after = {each.title: values(each) for each in converted.back.worksheets}

    assert after == before
    assert sum(map(len, before.values())) > 10_000


def test_no_cell_holds_an_error(converted: Converted) -> None:
    assert len(list(errors(converted.faulty))) == 3
    assert list(errors(converted.back)) == []
    assert ERROR.search(converted.faulty_printed)
    assert ERROR.search(converted.printed) is None


def test_everything_that_is_seen_is_printed_and_fits(converted: Converted) -> None:
    assert TOO_NARROW in converted.faulty_printed
    assert TOO_NARROW not in converted.printed

    seen = list(seen_words(converted.exported))
    assert len(seen) > 10_000
    assert set(seen) - set(converted.printed.split()) == set()
