"""The record of printings: one line of JSON for the cards of a truck, each chained to those before.

Takes in the bytes of the file; gives out its printings, and new printings as lines to append.
Refuses a file in which any byte is another than when it was written: each line ends with the
SHA-256 of itself and names those of all lines that no other had named. So two clerks' lines may
both stand after a merge of their branches, in either order, and the next line ties both.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from guidegen import chained_lines
from guidegen.chained_lines import Broken, Chain
from guidegen.finding import Findings
from guidegen.guide.fingerprint import LENGTH
from guidegen.printings import rules
from guidegen.printings.model import Act, PrintedCard, Printing, PrintRecord

PRINTINGS = Chain(
    rules.PRINTINGS_DAMAGED,
    rules.PRINTING_BEFORE_THE_LAST,
    "a printing",
    merge_fix="keep the lines of both sides, and take out the lines with git's marks",
)

_TEXTS = ("act", "date", "unit", "yard", "revision", "edition", "deck", "by")
_FORM = (
    *("act", "date", "unit", "yard", "revision", "edition", "deck"),
    *("cards", "copies", "by", "before"),
)
_EDITION = re.compile(rf"[0-9a-f]{{{LENGTH}}}")

_PARTS = 3
"""Of a card in a line: its id, size and hash."""


def lines_of(printings: Iterable[Printing], tips: Iterable[str]) -> tuple[bytes, ...]:
    """Return *printings* as lines to append, each with its line break.

    Args:
        printings: In the order in which they are recorded.
        tips: Of the record so far.
    """
    lines: list[bytes] = []
    before = sorted(tips)
    for printing in printings:
        lines.append(_line(printing, before))
        before = [chained_lines.line_hash(lines[-1])]
    return tuple(lines)


def read_printings(path: str, raw: bytes, findings: Findings) -> PrintRecord | None:
    """Return the record in *raw*, or nothing and a finding at the first line that is damaged.

    A line that stands there twice, as a merge by hand can leave it, counts once.

    Args:
        path: Of the file, as findings show it.
        raw: All of its bytes.
        findings: Takes the fault.
    """
    read = _Reading()
    if not PRINTINGS.reads(path, raw, read.add, findings):
        return None
    return PrintRecord(tuple(read.known.values()), tuple(sorted(set(read.known) - read.named)))


@dataclass(slots=True)
class _Reading:
    """What the lines down to one have said."""

    known: dict[str, Printing] = field(default_factory=dict)
    """By what other lines call them."""

    named: set[str] = field(default_factory=set)
    """By other lines."""

    def add(self, line: bytes) -> None:
        """Take in the next line."""
        key = chained_lines.line_hash(line)
        if key in self.known:
            return
        content = chained_lines.opened(line, _FORM)
        printing, before = _printing_from(content), content["before"]
        if _line(printing, before) != line:
            raise Broken("is not in the form in which it was written")
        if not set(before) <= set(self.known):
            raise Broken("follows a line that is gone")
        chained_lines.check_dates(printing.date, (self.known[each].date for each in before))
        self.known[key] = printing
        self.named.update(before)


def _line(printing: Printing, before: list[str]) -> bytes:
    content: dict[str, Any] = {
        "act": printing.act.value,
        "date": printing.date,
        "unit": printing.unit,
        "yard": printing.yard,
        "revision": printing.revision,
        "edition": printing.edition,
        "deck": printing.deck,
        "cards": [[card.id, card.size, card.said] for card in printing.cards],
        "copies": printing.copies,
        "by": printing.by,
        "before": before,
    }
    return chained_lines.sealed(content)


def _printing_from(content: dict[str, Any]) -> Printing:
    cards, copies, before = content["cards"], content["copies"], content["before"]
    is_kind = (
        chained_lines.is_texts([content[name] for name in _TEXTS])
        and isinstance(cards, list)
        and all(chained_lines.is_texts(each) and len(each) == _PARTS for each in cards)
        and chained_lines.is_texts(before)
        and chained_lines.is_number(copies)
    )
    if not is_kind:
        raise Broken("holds a value of another kind than it must")
    if content["act"] not in {act.value for act in Act}:
        raise Broken(f"names an act that there is not, {content['act']}")
    is_printed = content["act"] == Act.PRINTED.value
    hashes = [*before, *([content["deck"], *(card[2] for card in cards)] if is_printed else ())]
    if not chained_lines.are_hashes(hashes) or (
        is_printed and not _EDITION.fullmatch(content["edition"])
    ):
        raise Broken("names no cards")
    return Printing(
        act=Act(content["act"]),
        date=content["date"],
        unit=content["unit"],
        cards=tuple(PrintedCard(*card) for card in cards),
        yard=content["yard"],
        revision=content["revision"],
        edition=content["edition"],
        deck=content["deck"],
        copies=copies,
        by=content["by"],
    )
