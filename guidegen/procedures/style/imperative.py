"""Whether a step tells the driver to do something.

Takes in the text of a step and the verbs of the glossary; gives out a finding if it is no
instruction. Refuses a step that describes: what is seen belongs to `expect`.
"""

import re
from collections.abc import Collection

from guidegen.finding import Findings
from guidegen.procedures.model import StepTemplate
from guidegen.procedures.style import rules
from guidegen.procedures.style.texts import plain_text

OPENINGS = frozenset(
    {
        *("if", "when", "while", "before", "after", "once", "until", "unless", "only"),
        *("with", "without", "in", "on", "at", "from", "to", "for", "under", "behind"),
    }
)
"""Words that a condition, a time or a place may open with; a comma parts it from the verb."""

_START = re.compile(
    r"(?:(?:then|also|always) )?(?:do not |never )?([A-Za-z][a-z-]*)", re.IGNORECASE
)
_AFTER_COMMA = re.compile(r", +")


def check_imperative(step: StepTemplate, verbs: Collection[str], findings: Findings) -> None:
    """Report *step* if it begins neither with one of *verbs* nor with an opening and one."""
    text = plain_text(step.text)
    if is_instruction(text, verbs):
        return
    first = text.split(" ", 1)[0].strip(",.:").lower()
    if first in OPENINGS:
        fix = "put a comma after the condition or place, and a verb after the comma: `If …, stop …`"
    else:
        fix = "begin with the verb of what the driver does; a verb that is not known yet goes into "
        fix += "`verbs` of glossary.yml"
    findings.add(
        rules.STEP_NOT_AN_INSTRUCTION,
        step.text.span,
        what=f"step `{step.id}` does not begin with a verb of the glossary",
        fix=fix,
    )


def is_instruction(text: str, verbs: Collection[str]) -> bool:
    """Whether *text* tells somebody to do something.

    >>> is_instruction("In the cab, turn the key on.", {"turn"})
    True
    >>> is_instruction("The key is turned on.", {"turn"})
    False
    """
    if _begins_with_verb(text, 0, verbs):
        return True
    opening = re.match(r"[A-Za-z]+", text)
    if opening is None or opening.group().lower() not in OPENINGS:
        return False
    return any(_begins_with_verb(text, gap.end(), verbs) for gap in _AFTER_COMMA.finditer(text))


def _begins_with_verb(text: str, at: int, verbs: Collection[str]) -> bool:
    start = _START.match(text, at)
    return start is not None and start[1].lower() in verbs
