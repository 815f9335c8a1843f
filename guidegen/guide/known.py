"""A unit as conditions see it.

Takes in a unit, or its guide; gives out answers to what a condition asks, unknown among them.
Refuses to turn "not on record" into "not fitted".
"""

from dataclasses import dataclass

from guidegen.guide.model import Guide
from guidegen.specs.fields import Value
from guidegen.specs.profile import MODEL
from guidegen.units.model import Presence, Unit


@dataclass(frozen=True, slots=True)
class KnownOf:
    """What is known of *unit*."""

    unit: Unit | Guide

    def fitted(self, section: str) -> bool | None:
        """Return whether the truck has the thing; none if it is not on record."""
        state = self.unit.sections.get(section)
        match state.presence if state else Presence.NOT_ON_RECORD:
            case Presence.GIVEN:
                return True
            case Presence.NOT_FITTED:
                return False
            case Presence.NOT_ON_RECORD:
                return None

    def value(self, fact: str) -> Value | None:
        """Return the value of a fact; none if it is not on record."""
        if fact == MODEL.name:
            # What asks of guides is not let through: see `read_when_of_guide`.
            return self.unit.model if isinstance(self.unit, Unit) else None
        known = self.unit.facts.get(fact)
        return None if known is None else known.compared
