"""Whether a step can be read once and done.

Takes in the text of a step as typed; gives out findings.
Refuses long steps, and two instructions under one number.
"""

import re
from collections.abc import Iterator

from guidegen.finding import Findings
from guidegen.procedures import rules
from guidegen.procedures.placement import place_text
from guidegen.yaml_nodes import Scalar

MOST_WORDS = 20
"""House style: what can be kept in mind from the screen to the control. Common practice, no
source."""

_PLACEHOLDER = re.compile(r"\{\{.*?\}\}", re.DOTALL)
_WORD = re.compile(r"\S*[A-Za-z0-9{]\S*")
_SENTENCE_END = re.compile(r"[.!?][\"')\]]*\s+(?=[\"'(]*[A-Z{])|;\s*(?=\S)")
_LAST_WORD = re.compile(r"[A-Za-z]*$")
_ABBREVIATIONS = frozenset({"approx", "ca", "no", "max", "min", "vs"})
"""Words that end in a point before a value."""
_LONGEST_WORD = 20


def check_step_wording(scalar: Scalar, findings: Findings) -> None:
    """Report a step of more than ``MOST_WORDS`` words or of more than one sentence.

    A placeholder counts as one word. A semicolon ends a sentence: what follows it is a second
    instruction.
    """
    text = _PLACEHOLDER.sub(lambda found: "{" + "}" * (len(found.group()) - 1), scalar.text)
    placement = place_text(scalar)
    count = len(_WORD.findall(text))
    if count > MOST_WORDS:
        findings.add(
            rules.STEP_TOO_LONG,
            scalar.span,
            what=f"this step has {count} words, and the most is {MOST_WORDS}",
            fix="make two steps of it, or leave out what the driver need not know to do it",
        )
    second = next(_starts_of_further_sentences(text), None)
    if second is not None:
        findings.add(
            rules.TWO_INSTRUCTIONS,
            placement.span(second, len(text.rstrip())),
            what="a second instruction begins here in one step",
            fix="make a step of its own of it, with an id of its own; a reason or a result"
            " belongs to the same sentence, to a caution or to `expect`",
        )


def _starts_of_further_sentences(text: str) -> Iterator[int]:
    for found in _SENTENCE_END.finditer(text):
        before = _LAST_WORD.search(text, max(0, found.start() - _LONGEST_WORD), found.start())
        if before is None or before.group().lower() not in _ABBREVIATIONS:
            yield found.end()
