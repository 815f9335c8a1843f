"""What a procedure template takes in of a truck.

Takes in a template; gives out its questions, and a truck's answers to them.
Refuses to leave one out: two trucks that answer alike have the same procedure, to the letter.
"""

from dataclasses import dataclass, field

from guidegen.guide.drawable import LOOKED_AT
from guidegen.guide.known import KnownOf
from guidegen.procedures.catalog_words import section_holding, sections_around
from guidegen.procedures.condition_model import Asks, Predicate
from guidegen.procedures.condition_value import leaves
from guidegen.procedures.figure_kinds import FIGURE_KINDS
from guidegen.procedures.model import Placeholder, ProcedureTemplate
from guidegen.procedures.scope import conditions_of
from guidegen.procedures.texts import texts_of
from guidegen.specs.spelled import spelled
from guidegen.units.model import Presence, Unit

Answers = tuple[object, ...]
"""To the questions of one template, in their order."""


@dataclass(frozen=True, slots=True)
class Questions:
    """What one template asks of a truck."""

    values: tuple[str, ...]
    """Facts whose values it hangs on."""

    on_record: tuple[str, ...]
    """Facts of which it matters only whether they are on record."""

    sections: tuple[str, ...]
    """Sections of which it matters whether the truck has them."""


def questions_of(template: ProcedureTemplate) -> Questions:
    """Return all that fitting *template* asks."""
    values: dict[str, None] = {}
    on_record: dict[str, None] = {}
    sections: dict[str, None] = {}
    for leaf in (leaf for when in conditions_of(template) for leaf in leaves(when)):
        if not isinstance(leaf, Asks):
            values[leaf.fact] = None
        elif leaf.predicate is Predicate.ON_RECORD:
            on_record[leaf.name] = None
        else:
            sections |= dict.fromkeys(sections_around(leaf.name))
    for text in texts_of(template):
        on_record |= {part.fact: None for part in text.parts if isinstance(part, Placeholder)}
    for timer in (step.timer for step in template.steps if step.timer is not None):
        asked = (timer.time, *(limit.fact for limit in timer.limits))
        on_record |= {name: None for name in asked if name is not None}
    if template.figure is not None:
        on_record |= dict.fromkeys(FIGURE_KINDS[template.figure.kind])
        values |= dict.fromkeys(LOOKED_AT)
    # A fact of a thing that is not fitted is told from one that nobody has stated.
    for name in (*values, *on_record):
        sections |= dict.fromkeys(sections_around(section_holding(name)))
    only = tuple(name for name in on_record if name not in values)
    return Questions(tuple(values), only, tuple(sections))


@dataclass(slots=True)
class Told:
    """A truck's answers, each worked out once."""

    unit: Unit
    _values: dict[str, str | None] = field(default_factory=dict)
    _presences: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Number the presences: numbers are compared faster than members of an enumeration."""
        self._presences = {
            name: _PRESENCES[state.presence] for name, state in self.unit.sections.items()
        }

    def answers(self, questions: Questions) -> Answers:
        """Return what the truck answers to *questions*."""
        facts, presences = self.unit.facts, self._presences
        return (
            *map(self._value, questions.values),
            *[name in facts for name in questions.on_record],
            *map(presences.get, questions.sections),
        )

    def _value(self, name: str) -> str | None:
        if name not in self._values:
            value = KnownOf(self.unit).value(name)
            self._values[name] = None if value is None else spelled(value)
        return self._values[name]


_PRESENCES = {presence: number for number, presence in enumerate(Presence)}
