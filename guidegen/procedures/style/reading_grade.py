"""How many years of school it takes to read a procedure.

Takes in the texts of a procedure; gives out the Flesch-Kincaid grade, and a finding above the
greatest that drivers are asked for. Refuses nothing: that bound is common practice, no source.

Source of both formulas: US Navy 1975 (grade) and Flesch 1948 (ease), as a readability page of the
United States Department of Veterans Affairs prints them.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.finding import Findings
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.style import rules
from guidegen.procedures.style.syllables import syllables
from guidegen.procedures.style.texts import VALUE, plain_text, texts_of

GREATEST_GRADE = 8
"""Common practice, no source; 6 is better."""

_SYLLABLES_OF_A_VALUE = 2
"""A placeholder counts as one word of two syllables: a value is read at a glance."""

_WORD = re.compile(rf"[A-Za-z0-9]+(?:[-/'\u2019][A-Za-z0-9]+)*|{VALUE}")
_SENTENCE_END = re.compile(r"[.!?]+(?=\s|$)")


@dataclass(frozen=True, slots=True)
class Counts:
    """What readability formulas count."""

    words: int
    sentences: int
    syllables: int


def grade(counts: Counts) -> float:
    """Return the Flesch-Kincaid grade: years of school.

    >>> round(grade(Counts(words=100, sentences=5, syllables=150)), 2)
    9.91
    """
    return 0.39 * counts.words / counts.sentences + 11.8 * counts.syllables / counts.words - 15.59


def reading_ease(counts: Counts) -> float:
    """Return the Flesch reading ease: 100 is very easy, 0 is very hard.

    >>> round(reading_ease(Counts(words=100, sentences=5, syllables=150)), 3)
    59.635
    """
    return (
        206.835 - 1.015 * counts.words / counts.sentences - 84.6 * counts.syllables / counts.words
    )


def count(texts: Iterable[str]) -> Counts:
    """Return the counts of *texts*; each text is at least one sentence.

    >>> count(["Park the truck. Set the brake."])
    Counts(words=6, sentences=2, syllables=6)
    """
    words = sentences = spoken = 0
    for text in texts:
        found = _WORD.findall(text)
        words += len(found)
        sentences += max(1, len(_SENTENCE_END.findall(text)))
        spoken += sum(_SYLLABLES_OF_A_VALUE if word == VALUE else syllables(word) for word in found)
    return Counts(words, sentences, spoken)


def procedure_grade(template: ProcedureTemplate) -> float:
    """Return the grade of all texts of *template* together."""
    return grade(count(plain_text(text) for text in texts_of(template)))


def check_reading_grade(template: ProcedureTemplate, findings: Findings) -> None:
    """Report *template* if it asks for more than `GREATEST_GRADE` years of school."""
    reached = procedure_grade(template)
    if reached > GREATEST_GRADE:
        findings.add(
            rules.HARD_TO_READ,
            template.span,
            what=f"`{template.id}` reads at grade {reached:.1f}, and the most is {GREATEST_GRADE}",
            fix="make two sentences of long ones, and take short words for long ones",
        )
