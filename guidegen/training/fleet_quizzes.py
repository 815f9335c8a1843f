"""The quizzes of a fleet.

Takes in all guides; gives out the quiz of each edition, written once.
Refuses nothing: a guide that gives no question has a quiz without any.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from guidegen.guide.model import Guide
from guidegen.training.fleet_values import naming
from guidegen.training.model import Quiz
from guidegen.training.write_quiz import FleetKnowledge, KnowledgePart, write_quiz


def write_quizzes(guides: Iterable[Guide]) -> Mapping[str, Quiz]:
    """Return the quiz of each edition of *guides*, by its fingerprint."""
    editions: dict[str, Guide] = {}
    names: set[str] = set()
    for guide in guides:
        editions.setdefault(guide.edition, guide)
        names |= naming([guide])
    fleet = FleetKnowledge.of_parts([KnowledgePart.of(editions.values())], names)
    return MappingProxyType(
        {edition: write_quiz(guide, fleet) for edition, guide in editions.items()}
    )
