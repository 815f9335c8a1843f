"""Conditions in the tables of a procedure file.

Takes in a table; gives out the condition that one of its parts holds.
Refuses conditions that cannot be read, and reports their dead parts.
"""

from guidegen.procedures.condition import read_condition
from guidegen.procedures.condition_check import check_condition
from guidegen.procedures.condition_model import Condition
from guidegen.procedures.table_reader import TableReader


def read_when(reader: TableReader, name: str) -> Condition | None:
    """Return the condition *name* of a table, with its dead parts reported; None if none."""
    scalar = reader.text(name)
    condition = read_condition(scalar, reader.findings) if scalar else None
    if condition is not None:
        check_condition(condition, reader.findings)
    return condition
