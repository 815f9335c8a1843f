"""What tells one issue of a truck's guide from another.

Takes in a guide, and the history of its truck if the fleet keeps a record; gives out the words in
the bar of its pages. Refuses the clock: the same guide and record have the same words, whenever
the site is built.
"""

from guidegen.guide.model import Guide
from guidegen.procedures.words import LABELS
from guidegen.revisions.model import UnitHistory

_DIGITS = 8
"""Of the edition; as many as the code on a card holds."""


def revision_words(guide: Guide, told: UnitHistory | None) -> str:
    """Return what stands after the word for it in the bar.

    Args:
        guide: Of the truck.
        told: What was released of it; none where no record is kept.
    """
    digits = guide.edition[:_DIGITS]
    if told is None:
        return digits
    return f"{LABELS['draft']} {digits}" if told.issued is None else str(told.issued.number)
