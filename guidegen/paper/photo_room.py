"""Which photos have room on a card, and how large.

Takes in the photos of a card's procedures, and what tells how many sides the card has with some of
them; gives out those that are shown. Refuses to let a photo cost a word: no letter gets smaller, no
text is left out, and no further leaf is laminated for it.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.decks.model import ShownPhoto
from guidegen.photos.model import Photo

EDGES = (60, 50, 42, 34)
"""Millimeters of the longer edge, the best first: as far apart as an eye tells at arm's length.
Below the last one a driver does not tell what is on it. Common practice, no source."""

LEAST = EDGES[-1]

Sides = Callable[[Sequence[ShownPhoto]], int | None]
"""Returns how many sides a card has with these photos; none if something then fits on no side."""


def photos_with_room(offered: Sequence[Photo], sides: Sides) -> tuple[ShownPhoto, ...]:
    """Return those of *offered* that are shown, in that order.

    As many as have room come before few in a large size, and all have one size if that leaves no
    white that would take another. A photo may move what follows it to the next side, and takes the
    back of the last leaf if that is blank. A card of one side stays so: it may hang on a wall.

    Args:
        offered: In the order of the card.
        sides: Lays the card out with some of them.
    """
    bare = sides(())
    if not offered or bare is None:
        return ()
    trial = _Trial(offered, sides, bare if bare == 1 else bare + bare % 2)
    return _shown(offered, trial.largest(offered, EDGES) or trial.some())


@dataclass(frozen=True, slots=True)
class _Trial:
    offered: Sequence[Photo]
    sides: Sides
    most: int
    """Sides that the card may have."""

    def fits(self, edges: Mapping[Photo, int]) -> bool:
        count = self.sides(_shown(self.offered, edges))
        return count is not None and count <= self.most

    def largest(self, photos: Iterable[Photo], edges: Sequence[int]) -> dict[Photo, int]:
        """Return all of *photos* in the first size in which they fit; nothing if there is none."""
        tried = (dict.fromkeys(photos, edge) for edge in edges)
        return next((each for each in tried if self.fits(each)), {})

    def some(self) -> dict[Photo, int]:
        """Return as many as fit, the first ones first, and then as large as these fit."""
        few = self.with_others({})
        larger = self.largest(list(few), EDGES[:-1]) if few else {}
        # A larger one can move a step to the next side, and leave white where it stood.
        return self.with_others(larger) if larger else few

    def with_others(self, edges: dict[Photo, int]) -> dict[Photo, int]:
        """Return *edges* with each photo that still fits in the smallest size."""
        for photo in self.offered:
            if photo not in edges and self.fits({**edges, photo: LEAST}):
                edges = {**edges, photo: LEAST}
        return edges


def _shown(offered: Sequence[Photo], edges: Mapping[Photo, int]) -> tuple[ShownPhoto, ...]:
    return tuple(ShownPhoto(photo, edges[photo]) for photo in offered if photo in edges)
