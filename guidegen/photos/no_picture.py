"""Why a file is not shown as a picture.

Takes in what is wrong with it; gives out the words for its finding.
Refuses to look into the file: what it holds is found out by `open_picture`.
"""

from guidegen.finding import Rule
from guidegen.photos import rules

MOST_BYTES = 30_000_000
"""Of a file; a phone writes 2 to 15 million. An own choice."""


class NoPicture(ValueError):
    """A file that is not shown, with the words for its finding."""

    def __init__(self, rule: Rule, what: str, fix: str) -> None:
        """Keep the words."""
        super().__init__(what)
        self.rule = rule
        self.what = what
        self.fix = fix


def too_many_bytes(size: int) -> NoPicture:
    """Return the refusal of a file of *size* bytes, which need not be read for it."""
    what = f"has {size / 1e6:.0f} MB, and {MOST_BYTES / 1e6:.0f} MB are the most"
    fix = "save it smaller, such as 2,000 pixels wide; the tablet shows no more"
    return NoPicture(rules.PHOTO_TOO_LARGE, what, fix)
