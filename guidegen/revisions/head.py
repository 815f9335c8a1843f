"""How long the record is, kept beside it.

Takes in the bytes of the record and of this file; gives out what goes into the file, and whether
lines of the record are gone. Refuses to call a longer record wrong: a release that is cut short has
written its lines before it counts them.

Whoever cuts the record and puts back this file as it was goes unseen here; git shows it.
"""

import hashlib
import re

from guidegen.finding import Findings
from guidegen.revisions import rules

_HEAD = re.compile(rb"(0|[1-9][0-9]*) ([0-9a-f]{64})\n")


def head_of(record: bytes) -> bytes:
    """Return the file's line: how many lines *record* has, and the SHA-256 of all of it."""
    count = len(record.splitlines())
    return b"%d %s\n" % (count, hashlib.sha256(record).hexdigest().encode())


def check_head(record: bytes, head: bytes | None, place: str, findings: Findings) -> None:
    """Report lines that are gone from the end of the record, or were put there anew.

    Args:
        record: All of its bytes, in which no line is damaged.
        head: All of the file; none if it is not there.
        place: Path of the record, as findings show it.
        findings: Takes the fault.
    """
    folder = place.rpartition("/")[0]
    if head is None:
        if record:
            findings.add(
                rules.RECORD_WITHOUT_HEAD,
                None,
                what=f"there is no `{folder}/head`, which says how many lines the record has",
                fix=f"get it back from git: `git restore {folder}/head`; else the next release "
                "writes it",
                place=place,
            )
        return
    told = _HEAD.fullmatch(head)
    fix = f"get both files back from git: `git restore {place} {folder}/head`"
    if told is None:
        what = f"`{folder}/head` is not as it was written"
        findings.add(rules.RECORD_DAMAGED, None, what=what, fix=fix, place=f"{folder}/head")
        return
    count, lines = int(told[1]), record.splitlines(keepends=True)
    missing = count - len(lines)
    if missing > 0:
        gone = "1 line is" if missing == 1 else f"{missing} lines are"
        what = f"{gone} gone from the end of the record"
    elif hashlib.sha256(b"".join(lines[:count])).hexdigest().encode() != told[2]:
        what = f"of the first {count} lines of the record, some were written anew"
    else:
        return
    findings.add(rules.RECORD_CUT, None, what=what, fix=fix, place=place)
