"""The page of a quiz, held against the quiz and the guide.

Takes in the bytes of the page, the unit and what the page must say; gives out a verdict.
Refuses any question, answer or key but those of the quiz of the unit's edition.
"""

from guidegen.proof.claims import PageClaims
from guidegen.proof.compare_quiz import Asked
from guidegen.proof.compare_words import Wording
from guidegen.proof.model import Counts, FileVerdict
from guidegen.proof.prove_page import PageRead, Subject, dress_of, prove_body
from guidegen.proof.quiz_claims import QuizClaims


def prove_quiz(unit: Subject, page: PageClaims, claims: QuizClaims, raw: bytes) -> FileVerdict:
    """Hold the page *raw* of the quiz of *unit* against *claims*."""

    def compare(read: PageRead) -> Counts:
        words = Wording(unit.guide, unit.claims, read.faults, also_fixed=claims.words)
        proved = Asked(claims, read, words).compare()
        return Counts(values=words.values, labels=words.labels, questions=proved)

    return prove_body(unit, page, raw, (dress_of(unit, page), compare))
