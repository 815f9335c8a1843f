"""Which photos have room on a card, and how large.

Takes in the photos of a card's procedures, and what tells how many sides the card has with some of
them; gives out those that are shown. Refuses to let a photo cost a word: no letter gets smaller, no
text is left out, and no further leaf is laminated for it.
"""

from collections.abc import Callable, Mapping, Sequence

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
    white that would take another. A photo may move what follows it to the
    next side, and takes the back of the last leaf if that is blank. A card of one side stays so: it
    may hang on a wall.

    Args:
        offered: In the order of the card.
        sides: Lays the card out with some of them.
    """
    bare = sides(())
    if not offered or bare is None:
        return ()
    most = bare if bare == 1 else bare + bare % 2

    def fits(edges: Mapping[Photo, int]) -> bool:
        count = sides(_shown(offered, edges))
        return count is not None and count <= most

    def added(edges: dict[Photo, int]) -> dict[Photo, int]:
        for photo in offered:
            if photo not in edges and fits({**edges, photo: LEAST}):
                edges = {**edges, photo: LEAST}
        return edges

    every = dict.fromkeys(offered, LEAST)
    chosen = every if fits(every) else added({})
    for edge in EDGES[:-1] if chosen else ():
        larger = dict.fromkeys(chosen, edge)
        if fits(larger):
            # A larger one can move a step to the next side, and leave white where it stood.
            chosen = added(larger)
            break
    return _shown(offered, chosen)


def _shown(offered: Sequence[Photo], edges: Mapping[Photo, int]) -> tuple[ShownPhoto, ...]:
    return tuple(ShownPhoto(photo, edges[photo]) for photo in offered if photo in edges)
