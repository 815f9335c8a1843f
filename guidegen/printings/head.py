"""Which lines the record of printings ends with, kept beside it.

Takes in the record and the bytes of this file; gives out what goes into the file, and whether lines
of the record are gone. Refuses to call a longer record wrong: a run that is cut short has written
its lines before it names them here. A merge leaves the last lines of both clerks, and both count.

Whoever cuts the record and puts back this file as it was goes unseen here; git shows it.
"""

import re

from guidegen.chained_lines import line_hash
from guidegen.finding import Findings
from guidegen.printings import rules
from guidegen.printings.model import PrintRecord

_HEAD = re.compile(rb"([0-9a-f]{64}\n)+")


def head_of(record: PrintRecord) -> bytes:
    """Return the file: the SHA-256 of each line that no other line names, one a line."""
    return "".join(f"{tip}\n" for tip in record.tips).encode()


def check_head(raw: bytes, head: bytes | None, place: str, findings: Findings) -> None:
    """Report lines that are gone from the end of the record, or were put there anew.

    Args:
        raw: All bytes of the record, in which no line is damaged.
        head: All of the file; none if it is not there.
        place: Path of the record, as findings show it.
        findings: Takes the fault.
    """
    file = f"{place.rpartition('/')[0]}/head"
    fix = f"get both files back from git: `git restore {place} {file}`"
    if head is None:
        if raw:
            findings.add(
                rules.PRINTINGS_WITHOUT_HEAD,
                None,
                what=f"there is no `{file}`, which says with which lines the record ends",
                fix=f"get it back from git: `git restore {file}`; else the next printing that is "
                "recorded writes it",
                place=place,
            )
        return
    if not _HEAD.fullmatch(head):
        what = f"`{file}` is not as it was written"
        findings.add(rules.PRINTINGS_DAMAGED, None, what=what, fix=fix, place=file)
        return
    known = {line_hash(line) for line in raw.splitlines(keepends=True)}
    if not set(head.decode().split()) <= known:
        what = "lines are gone from the end of the record, or were written anew"
        findings.add(rules.PRINTINGS_CUT, None, what=what, fix=fix, place=place)
