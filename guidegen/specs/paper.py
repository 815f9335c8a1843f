"""What a fleet and the library say of printed cards.

Takes in the fields of a card as typed; gives out the stated card.
Refuses sizes that are not on the list: a laminating pouch has one of them.
"""

from typing import Annotated

from guidegen.specs.fields import ChoiceField, FlagField, Stated, TextField
from guidegen.specs.name_list import NameList
from guidegen.specs.section import Section

CARD_SIZES = {
    "4x6": "4 by 6 inches",
    "a6": "A6",
    "half-letter": "half letter",
    "a5": "A5",
    "pocket": "pocket card",
    "letter": "letter",
    "a4": "A4",
}
"""By the name that is typed; their measures stand in `guidegen.decks.sizes`."""


_SAYS_ID = "small letters, digits and hyphens"


class CardSection(Section):
    """A card: what stands on it, and how big it is. What a truck does not have is left out."""

    id: Annotated[Stated, TextField("Card id", r"[a-z0-9]+(-[a-z0-9]+)*", _SAYS_ID)]
    """Name of its file."""

    title: Annotated[Stated, TextField("Card")]
    """Printed on each side."""

    size: Annotated[Stated, ChoiceField("Card size", CARD_SIZES)]
    """Of one side, trimmed."""

    round: Annotated[Stated | None, FlagField("Inspection round")] = None
    """Whether the stops of the inspection round stand on it."""

    procedures: NameList | None = None
    """Ids of procedures, in the order of the card."""

    chapters: NameList | None = None
    """Ids of chapters: all their procedures."""

    facts: NameList | None = None
    """Dotted names of values, such as `tires.steer.cold_pressure`, or of whole sections."""

    lamps: Annotated[Stated | None, FlagField("Lamps")] = None
    """Whether the warning lamps stand on it."""

    large: Annotated[Stated | None, FlagField("Large values")] = None
    """Whether values are printed large, for a card that is read from the seat."""


class CardsFile(Section):
    """The cards of the library."""

    cards: tuple[CardSection, ...] = ()
    """Each truck's set."""
