"""The lamp finder, held against the guide.

Takes in the bytes of the page, the unit and what the page must say; gives out a verdict.
Refuses any lamp but those of the unit's edition, and any of them under another color.
"""

from guidegen.proof.claims import PageClaims
from guidegen.proof.compare_lamps import Finder
from guidegen.proof.lamp_claims import LampClaims
from guidegen.proof.model import Counts, FileVerdict
from guidegen.proof.prove_page import PageRead, Subject, dress_of, prove_body


def prove_lamps(unit: Subject, page: PageClaims, claims: LampClaims, raw: bytes) -> FileVerdict:
    """Hold the page *raw* of the lamp finder of *unit* against *claims*."""

    def compare(read: PageRead) -> Counts:
        proved = Finder(claims, read, unit.path(page.path)).compare()
        return Counts(lamps=proved)

    return prove_body(unit, page, raw, (dress_of(unit, page), compare))
