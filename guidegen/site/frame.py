"""The frame of a page: what the site engine draws once for all units.

Takes in HTML text with slots; gives out the fixed stretches between them, split once, and pages
filled by joining. Refuses a frame with a slot missing, unknown or mangled: part of every page
would be lost or left over.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

UNIT_FRAME = "unit"
SEARCH_FRAME = "search"
FLEET_FRAME = "fleet"
_OF_A_UNIT = frozenset({"title", "number", "revision", "tools", "nav", "body"})
SLOTS: Mapping[str, frozenset[str]] = {
    UNIT_FRAME: _OF_A_UNIT,
    SEARCH_FRAME: _OF_A_UNIT,
    FLEET_FRAME: frozenset({"trucks"}),
}
"""Slots of each frame; each must be there at least once."""

_SLOT = re.compile(r"@@guidegen-slot-([a-z]+)@@")
# Without regard to case and punctuation: a site engine lower-cases heading ids, escapes and
# slugs what it is given.
_LEFT_OVER = re.compile(r"guidegen.{0,8}slot", re.IGNORECASE | re.DOTALL)


class FrameFault(ValueError):
    """A frame does not have the slots that it must have."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame, split at its slots."""

    segments: tuple[str, ...]
    """Fixed text; one more than there are slots."""

    slots: tuple[str, ...]

    def fill(self, texts: Mapping[str, str]) -> str:
        """Return the frame with each slot replaced by its text, which is HTML."""
        parts = [""] * (len(self.segments) + len(self.slots))
        parts[::2] = self.segments
        parts[1::2] = [texts[slot] for slot in self.slots]
        return "".join(parts)


@dataclass(frozen=True, slots=True)
class Frames:
    """The frames of a site."""

    of_units: Mapping[str, Frame]
    """Those of a unit's pages, by name."""

    fleet: Frame

    @property
    def unit(self) -> Frame:
        """What stands around most pages of a unit."""
        return self.of_units[UNIT_FRAME]

    @classmethod
    def split(cls, texts: Mapping[str, str]) -> Self:
        """Return the frames from their HTML texts, which go by the names in `SLOTS`.

        Raises:
            FrameFault: If a frame is missing, or its slots are not those that it must have.
        """
        frames = {name: split_frame(name, texts.get(name, "")) for name in SLOTS}
        fleet = frames.pop(FLEET_FRAME)
        return cls(of_units=frames, fleet=fleet)


def split_frame(name: str, text: str) -> Frame:
    """Return the frame *name* from its HTML text.

    Raises:
        FrameFault: If its slots are not those that it must have.
    """
    pieces = _SLOT.split(text)
    frame = Frame(tuple(pieces[::2]), tuple(pieces[1::2]))
    missing = SLOTS[name] - set(frame.slots)
    unknown = set(frame.slots) - SLOTS[name]
    if missing or unknown:
        words = [f"lacks {slot}" for slot in sorted(missing)]
        words += [f"has an unknown {slot}" for slot in sorted(unknown)]
        raise FrameFault(f"the {name} frame {' and '.join(words)}")
    for segment in frame.segments:
        if left_over := _LEFT_OVER.search(segment):
            raise FrameFault(f"the {name} frame has a mangled slot: {left_over.group()}")
    return frame
