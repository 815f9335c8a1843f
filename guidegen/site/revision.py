"""What tells one issue of a truck's guide from another.

Takes in a guide; gives out the words in the bar of its pages. Refuses the clock: the same guide
has the same words, whenever it is built.
"""

from guidegen.guide.model import Guide

_DIGITS = 8
"""Of the edition; as many as the code on a card holds."""


def revision_words(guide: Guide) -> str:
    """Return what stands after the word for it in the bar."""
    return guide.edition[:_DIGITS]
