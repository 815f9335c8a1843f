"""A digest of what a procedure file says.

Takes in the table of a file; gives out a few digits that change with any of its words. Refuses to
look at comments, blanks between words and how a value is quoted: they reach no driver.
"""

import hashlib
import json

from guidegen.yaml_nodes import Listing, Node, Scalar, Table

DIGITS = 12
"""Hexadecimal ones: few enough to type, and a change is missed once in 2 to the power of 48."""


def digest_of(table: Table) -> str:
    """Return the digest of *table*, as ``3f2a91bc04de``."""
    text = json.dumps(_plain(table), ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:DIGITS]


def _plain(node: Node) -> object:
    match node:
        case Scalar(text=text):
            return " ".join(text.split())
        case Listing(nodes=nodes):
            return [_plain(each) for each in nodes]
        case Table(entries=entries):
            return {name: _plain(value) for name, (_, value) in entries.items()}
