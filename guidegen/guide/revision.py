"""The name of one issue of a truck's guide.

Takes in a guide; gives out its revision, as pages, cards and packs show it.
Refuses nothing: every guide has one.
"""

from guidegen.guide.model import Guide

REVISION_DIGITS = 8
"""Of the edition: enough to tell the revisions of one truck apart, and short in a card's code."""


def revision_of(guide: Guide) -> str:
    """Return the revision of *guide*: the first hexadecimal digits of its edition."""
    return guide.edition[:REVISION_DIGITS]
