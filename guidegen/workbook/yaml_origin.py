"""Where a value comes from, changed in a spec file where it stands.

Takes in the text of a file and one part of an origin: document, day or who; gives out the text
with that part put beside its value. Refuses to put it where there is no value.
"""

from guidegen.specs.equipment import Equipment
from guidegen.workbook.model import steps_of
from guidegen.workbook.yaml_edit import Editor, UneditableText, key_order
from guidegen.yaml_nodes import Listing, Scalar, Table

_PARTS = ("value", "source", "quoted", "recorded")
_RECORDED = ("on", "by")


def set_origin(text: str, name: str, value: str) -> str:
    """Return *text* with *value* for a part of where a value, or all of the file, comes from.

    A bare value becomes a table in braces that holds it.

    Args:
        text: Of the file.
        name: Of the part, as `guidegen.workbook.model.origin_of` has it.
        value: On one line.

    Raises:
        UneditableText: If there is no value, or it is written in a way that cannot be edited.
    """
    editor = Editor(text)
    steps = steps_of(name)
    parts = steps[-2:] if steps[-2:-1] == ["recorded"] else steps[-1:]
    way = steps[: -len(parts)]
    holder = editor.find(way) if way else editor.table
    if isinstance(holder, Scalar | Listing):
        editor = Editor(editor.wrap(holder))
        holder = editor.find(way)
    if not isinstance(holder, Table):
        raise UneditableText(name)
    order = _PARTS if way else key_order(Equipment)
    node = holder.get(parts[0])
    if node is None:
        return editor.add(holder, order, parts[0], (parts[1:], value))
    if len(parts) > 1:
        if not isinstance(node, Table):
            raise UneditableText(name)
        inner = node.get(parts[1])
        if inner is None:
            return editor.add(node, _RECORDED, parts[1], ([], value))
        holder, node = node, inner
    is_flow = editor.is_flow(holder)
    return editor.replace(node, value, is_flow=is_flow, key=holder.key_span(parts[-1]))
