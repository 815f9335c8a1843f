"""A text as YAML writes it.

Takes in the text of one value; gives out the text with quotes where it needs them. Refuses to
trust its own judgment: what it gives out has been read back.
"""

from collections.abc import Sequence

from guidegen.finding import Findings
from guidegen.yaml_nodes import Scalar, Table, read_yaml


def in_yaml(text: str, *, is_flow: bool, style: str = "") -> str:
    """Return *text* as a scalar.

    Args:
        text: On one line.
        is_flow: Whether it stands in braces or brackets.
        style: The quote that the value had before; empty for none.
    """
    for written in (*([_quoted(text, style)] if style else [text]), _quoted(text, '"')):
        if _reads_back(written, text, is_flow=is_flow):
            return written
    return _quoted(text, '"')


def list_in_yaml(words: Sequence[str]) -> str:
    """Return *words* as a list in brackets."""
    return f"[{', '.join(in_yaml(word, is_flow=True) for word in words)}]"


def _quoted(text: str, quote: str) -> str:
    if quote == "'":
        return "'" + text.replace("'", "''") + "'"
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _reads_back(written: str, text: str, *, is_flow: bool) -> bool:
    line = f"k: {{v: {written}, w: x}}\n" if is_flow else f"k: {written}\nw: x\n"
    findings = Findings()
    table = read_yaml("", line.encode(), findings)
    holder = table.get("k") if table and is_flow else table
    node = holder.get("v" if is_flow else "k") if isinstance(holder, Table) else None
    is_whole = isinstance(holder, Table) and list(holder.entries)[1:] == ["w"]
    return is_whole and isinstance(node, Scalar) and node.text == text and not len(findings)
