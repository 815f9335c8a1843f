"""Conditions in the tables of a procedure file.

Takes in a table; gives out the condition that one of its parts holds.
Refuses conditions that cannot be read, and reports their dead parts.
"""

from guidegen.procedures import rules
from guidegen.procedures.condition import read_condition
from guidegen.procedures.condition_check import check_condition
from guidegen.procedures.condition_model import Asks, Condition
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.table_reader import TableReader
from guidegen.specs.profile import MODEL


def read_when(reader: TableReader, name: str) -> Condition | None:
    """Return the condition *name* of a table, with its dead parts reported; None if none."""
    scalar = reader.text(name)
    condition = read_condition(scalar, reader.findings) if scalar else None
    if condition is not None:
        check_condition(condition, reader.findings)
    return condition


def read_when_of_guide(reader: TableReader, name: str) -> Condition | None:
    """Return the condition *name* of a table that is asked of guides; None if none.

    Guides of several models can be one edition, so that none of them knows its model.
    """
    condition = read_when(reader, name)
    for leaf in () if condition is None else leaves(condition):
        if (leaf.name if isinstance(leaf, Asks) else leaf.fact) == MODEL.name:
            what = f"`{MODEL.name}` is asked for where nobody knows it any more"
            fix = "ask for what these models have, as in `fitted(fifth_wheel)`"
            reader.findings.add(rules.UNKNOWN_FACT, leaf.span, what=what, fix=fix)
    return condition
