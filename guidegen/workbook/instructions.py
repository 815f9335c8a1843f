"""The first sheet of a workbook: how it is filled in.

Takes in a workbook that is being written; gives out its first sheet. Refuses words that only
those who know the program understand.
"""

from xlsxwriter import Workbook  # type: ignore[import-untyped]  # it has no hints

from guidegen.specs.fields import NOT_FITTED
from guidegen.workbook.contents import NONE_HERE, UNKNOWN
from guidegen.workbook.looks import CHANGED_SIGN, INHERITED_SIGN, Looks
from guidegen.workbook.model import State
from guidegen.workbook.topics import MODELS, SOURCES, TRUCKS

TITLE = "How to fill in"

_STEPS = (
    (
        "Each row is a truck or a model. Each column is one thing that a driver may need to know;"
        " rest the pointer on a header to read where you find it."
    ),
    (
        "A truck inherits what its model states. Type into a truck's cell only what is other on"
        " that truck. Change a model's cell, and all its trucks that inherit the value follow."
    ),
    (
        "Copy each value from the plate or the handbook with its unit of measurement, as in 110"
        " psi. Type the digits as they stand there: 3.70 stays 3.70."
    ),
    (
        "Say where it stands: the document, the day and who looked it up, for all values of a row"
        f" on the sheets {TRUCKS} and {MODELS}, or for one value in its row of the sheet {SOURCES}."
    ),
    "Where a cell has an arrow, choose from its list.",
    f"A truck without a thing: choose “{NOT_FITTED}” in that thing's column “fitted?”.",
    f"Nobody knows the value: leave the “{UNKNOWN}”. Never guess: drivers act on what stands here.",
    "Clear a cell to take a truck's own value back; the truck then inherits again.",
    (
        "A new truck: enter its number in the first empty row of the sheet Trucks, and choose its"
        " model. Its values go into an empty row at the end of each sheet, where you choose “truck”"
        " and type the number again. It is easier to have the new trucks imported first and to ask"
        " for a fresh workbook: every truck then has its row. A new model goes the same way."
    ),
    (
        "Leave headers, numbers and the order of rows and columns as they are, merge no cells, and"
        " type no formulas. Locked cells have no password; they are locked so that nobody changes"
        " them by accident."
    ),
    (
        "When you are done, save the file and hand it over. It is looked through first: every"
        " change is listed, and nothing is taken over while there is a fault. Your file is never"
        " changed."
    ),
)

_LEGEND = (
    (State.OWN, "110 psi", "bold: stated for this truck or model itself"),
    (
        State.INHERITED,
        f"{INHERITED_SIGN}110 psi",
        "italic, with an arrow: inherited from the model",
    ),
    (State.OWN_NOT_FITTED, NOT_FITTED, "bold, dark: the truck's own word that it is not there"),
    (
        State.NOT_FITTED,
        NONE_HERE,
        f"“{NOT_FITTED}” in italics, or a dash: the truck does not have it",
    ),
    (State.NOT_ON_RECORD, UNKNOWN, "a question mark: not on record"),
    (None, f"{CHANGED_SIGN}115 psi", "marked and yellow: changed by you since the export"),
)


def write_instructions(book: Workbook, looks: Looks, fleet: str, paper: int) -> None:
    """Add the first sheet to *book*."""
    page = book.add_worksheet(TITLE)
    page.set_column(0, 0, 22)
    page.set_column(1, 1, 88)
    page.write_string(0, 0, f"Trucks of {fleet}", looks.title)
    page.set_row(0, 24)
    row = 2
    page.write_string(row, 0, TITLE, looks.heading)
    for number, text in enumerate(_STEPS, 1):
        page.write_string(row + number, 0, f"{number}.", looks.step)
        page.write_string(row + number, 1, text, looks.plain)
        page.set_row(row + number, 15.5 * (1 + len(text) // 92))
    row += len(_STEPS) + 2
    page.write_string(row, 0, "What the cells show", looks.heading)
    for number, (state, sample, says) in enumerate(_LEGEND, 1):
        look = looks.cells[state] if state else looks.changed_sample
        page.write_string(row + number, 0, sample, look)
        page.write_string(row + number, 1, says, looks.plain)
    page.hide_gridlines(2)
    page.set_landscape()
    page.set_paper(paper)
    page.fit_to_pages(1, 1)
    page.protect("", {"format_columns": True, "format_rows": True})
