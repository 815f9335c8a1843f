"""A photo that has no room on a card.

Takes in a card to which photos were fitted; gives out what was left out, small and ready to be sent
or kept. Refuses places in files: a list of photos can change by a line that is of none of them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.decks.model import Card


@dataclass(frozen=True, slots=True)
class OffCard:
    """A photo that stands on the page of its procedure, and has no room on a card."""

    card: str
    """Id of its kind."""

    size: str
    photo: str
    """Id of the photo in the guide."""


def off_card(card: Card) -> Iterator[OffCard]:
    """Yield what was left out on *card*, which was fitted."""
    for photo in card.left_out:
        yield OffCard(card.kind.id, card.kind.side.id, photo.id)
