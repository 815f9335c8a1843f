"""What a truck is found by.

Takes in a guide; gives out its number, name, body, plate and yard as words.
Refuses to make up what is not on record: those words are empty.
"""

from dataclasses import dataclass

from guidegen.guide.model import Guide
from guidegen.pickling import numerous
from guidegen.wording import value_words

_NAMED = ("identity.year", "identity.make", "identity.model_name")
_FOUND_BY = (*_NAMED, "identity.body", "identity.plate", "identity.vin", "identity.yard")


@numerous
@dataclass(frozen=True, slots=True)
class TruckLine:
    """One truck of the list."""

    number: str
    name: str
    """Year, make and model, as far as they are on record."""

    body: str
    plate: str
    yard: str
    """Name of the yard; empty if it is not on record."""

    found_by: str
    """All that the filter of a small fleet looks in, in small letters."""

    @property
    def href(self) -> str:
        """Path of its start page."""
        return f"{self.number}/index.html"


def truck_line(guide: Guide) -> TruckLine:
    """Return the line of the unit of *guide*."""
    words = {
        name: value_words(guide.facts[name]) if name in guide.facts else "" for name in _FOUND_BY
    }
    return TruckLine(
        number=guide.number,
        name=" ".join(filter(None, (words[name] for name in _NAMED))),
        body=words["identity.body"],
        plate=words["identity.plate"],
        yard=words["identity.yard"],
        found_by=" ".join(filter(None, (guide.number, *words.values()))).lower(),
    )
