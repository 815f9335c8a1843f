"""An explanation as a person or a program reads it.

Takes in an explanation; gives out lines of text, or values for JSON.
Refuses to add reasons of its own.
"""

from typing import Any

from guidegen.guide.explain import Explanation, Reason

_ANSWERS = {True: "yes", False: "no", None: "not on record"}
_HEADS = {
    True: "is in the guide of",
    False: "is not in the guide of",
    None: "holds back the guide of",
}


def format_explanation(explanation: Explanation) -> str:
    """Return *explanation* as text, one line a fact."""
    head = _HEADS[explanation.applies]
    lines = [f"`{explanation.procedure}` {head} {explanation.unit}"]
    if not explanation.reasons:
        lines.append("  it applies to every truck")
    for reason in explanation.reasons:
        lines += _lines(reason)
    return "\n".join(lines) + "\n"


def explanation_as_json(explanation: Explanation) -> dict[str, Any]:
    """Return *explanation* as plain values."""
    return {
        "unit": explanation.unit,
        "procedure": explanation.procedure,
        "applies": explanation.applies,
        "reasons": [
            {
                "part": reason.part,
                "condition": reason.words,
                "holds": reason.holds,
                "asked": [
                    {
                        "name": asked.name,
                        "label": asked.label,
                        "answer": asked.answer,
                        "where": asked.where,
                        "source": asked.source,
                    }
                    for asked in reason.asked
                ],
            }
            for reason in explanation.reasons
        ],
    }


def _lines(reason: Reason) -> list[str]:
    lines = [f"  {reason.part}: {reason.words}: {_ANSWERS[reason.holds]}"]
    for asked in reason.asked:
        where = f"  {asked.where}" if asked.where else ""
        lines.append(f"    {asked.name} = {asked.answer}{where}")
        if asked.source:
            lines.append(f"      {asked.source}")
    return lines
