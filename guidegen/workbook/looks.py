"""How the cells of a workbook look.

Takes in a workbook that is being written; gives out its formats. Refuses color as the only sign:
each state also has a letter form or a sign, so that it shows in black and white.
"""

from dataclasses import dataclass
from typing import Any

from xlsxwriter import Workbook  # type: ignore[import-untyped]  # it has no hints
from xlsxwriter.format import Format  # type: ignore[import-untyped]  # ditto

from guidegen.workbook.model import Role, State

TEXT = "@"
"""The format in which a program for spreadsheets keeps what is typed, digit by digit."""

INHERITED_SIGN = "↑ "
CHANGED_SIGN = "» "

_CELL = {"num_format": TEXT, "valign": "top", "text_wrap": True, "border": 1}
_LOOKS: dict[State, dict[str, Any]] = {
    State.OWN: {"bold": True, "bg_color": "#D6E6F5", "border_color": "#7F9DB9"},
    State.INHERITED: {"italic": True, "font_color": "#404040", "border_color": "#A6A6A6"},
    State.OWN_NOT_FITTED: {"bold": True, "bg_color": "#D9D9D9", "border_color": "#7F7F7F"},
    State.NOT_FITTED: {"italic": True, "bg_color": "#D9D9D9", "border_color": "#A6A6A6"},
    State.NOT_ON_RECORD: {"align": "center", "bg_color": "#FCE8CF", "border_color": "#C9A26A"},
    State.NEW: {"border": 4, "border_color": "#A6A6A6"},
}
_KEY = {"bold": True, "bg_color": "#EDEDED", "border": 1, "border_color": "#A6A6A6"}


@dataclass(frozen=True, slots=True)
class Looks:
    """The formats of one workbook."""

    title: Format
    hint: Format
    band: Format
    label: Format
    name: Format
    plain: Format
    step: Format
    heading: Format
    key: Format
    cells: dict[State, Format]
    inherited: Format
    """Adds the sign to a cell that is as it was exported."""

    changed: Format
    """Marks a cell that the clerk changed."""

    changed_sample: Format
    """The same, for the first sheet."""

    def of(self, role: Role, state: State) -> Format:
        """Return the format of a cell."""
        locked = (Role.KIND, Role.KEY, Role.MODEL, Role.NAMED, Role.CALLED, Role.SHOWN)
        is_key = role in locked and state is not State.NEW
        return self.key if is_key else self.cells[state]


def looks_of(book: Workbook) -> Looks:
    """Return the formats, added to *book*."""
    add = book.add_format
    changed = {"bold": True, "bg_color": "#FFF2A8", "font_color": "#000000"}
    return Looks(
        title=add({"bold": True, "font_size": 14}),
        hint=add({"italic": True, "font_color": "#404040"}),
        band=add({"bold": True, "bg_color": "#1F3A54", "font_color": "#FFFFFF"}),
        label=add(
            {"bold": True, "text_wrap": True, "valign": "top", "border": 1, "bg_color": "#E4E4E4"}
        ),
        name=add({"font_size": 7, "font_color": "#595959", "border": 1, "text_wrap": True}),
        plain=add({"text_wrap": True, "valign": "top"}),
        step=add({"align": "right", "valign": "top"}),
        heading=add({"bold": True, "font_size": 12}),
        key=add({**_KEY, "num_format": TEXT, "valign": "top", "text_wrap": True}),
        cells={state: add({**_CELL, "locked": False, **_LOOKS[state]}) for state in State},
        inherited=add({"num_format": f'"{INHERITED_SIGN}"@'}),
        changed=add({"num_format": f'"{CHANGED_SIGN}"@', **changed}),
        changed_sample=add({**_CELL, **changed}),
    )
