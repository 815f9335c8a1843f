"""All that a card says, as one hash.

Takes in a card and what stands on it; gives out a hash that two cards share if and only if
they read alike and show the same photos. Refuses to take in what is neither: its size and that of
its photos, where lines break, how a symbol is drawn, and number and date of the revision, which
change on every card of a truck when one of them does.
"""

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from guidegen.decks.model import Card
from guidegen.paper.matter import Group, Piece
from guidegen.procedures.words import LABELS

_NOT_SAID = ("drawing", "number", "procedure")
"""Of a piece. A symbol goes by its lamp, whose name, color and act are words; a step that comes to
another place is told from its neighbors."""


def said_on(card: Card, groups: Iterable[Group]) -> str:
    """Return the SHA-256 of all that *card* says, in hexadecimal.

    Args:
        card: Of a truck.
        groups: What stands on it, in order.
    """
    content = {
        "title": card.kind.title,
        "groups": [[_said(piece) for piece in group.pieces] for group in groups],
        "notes": [LABELS["park_first"], LABELS["handbook_first"]],
    }
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _said(piece: Piece) -> dict[str, Any]:
    if piece["kind"] == "photo":
        # Its file goes by the size that has room, and what is read aloud is not on the card.
        return {"photo": piece["photo"]["sha256"], "caption": piece["caption"]}
    return {name: value for name, value in piece.items() if name not in _NOT_SAID}
