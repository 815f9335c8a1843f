"""What the site engine draws: the frames of all trucks' pages, and the site around the trucks.

Takes in nothing; gives out files and frames as one frozen value.
Refuses to know which engine it was.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shell:
    """A site without its trucks."""

    files: Mapping[str, bytes]
    """The fleet's own pages, styles, scripts, fonts and icons, by path from the root."""

    frames: Mapping[str, str]
    """HTML with slots, by name as in `guidegen.site.frame.SLOTS`."""
