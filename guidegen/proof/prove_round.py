"""The page of an inspection round, held against the round and the guide.

Takes in the bytes of the page, the unit and what the page must say; gives out a verdict.
Refuses the order of anything but the round that was planned for the unit's edition.
"""

from guidegen.proof.claims import PageClaims
from guidegen.proof.compare_round import Tour
from guidegen.proof.compare_words import Wording
from guidegen.proof.model import Counts, FileVerdict
from guidegen.proof.prove_page import PageRead, Subject, dress_of, prove_body
from guidegen.proof.round_claims import RoundClaims


def prove_round(unit: Subject, page: PageClaims, claims: RoundClaims, raw: bytes) -> FileVerdict:
    """Hold the page *raw* of the round of *unit* against *claims*."""

    def compare(read: PageRead) -> Counts:
        words = Wording(unit.guide, unit.claims, read.faults, also_fixed=claims.words)
        proved = Tour(claims, read, words, unit.path(page.path)).compare()
        return Counts(values=words.values, labels=words.labels, stops=proved)

    return prove_body(unit, page, raw, (dress_of(unit, page), compare))
