"""What to look up, in plain words.

Takes in a truck and its gaps; gives out one entry for each thing to look up: what it is called, in
which measure, where on the truck or in which document, and what hangs on it.
Refuses to invent a place: it says where the catalog and the truck's other values point to.
"""

from collections import Counter
from collections.abc import Iterator

from guidegen.gaps.catalog import is_section, label_of, section_of, topic_label, topic_of
from guidegen.gaps.model import Gap, Grade, Line, LookUp, UnitGaps
from guidegen.quantity.convert import measure_of, show_pair
from guidegen.quantity.model import Sense, System
from guidegen.quantity.parse import parse_amount
from guidegen.specs.fields import (
    NOT_FITTED,
    AmountField,
    AnyField,
    ChoiceField,
    ChoicesField,
    CountField,
    FlagField,
)
from guidegen.specs.profile import FACTS
from guidegen.units.model import Layer, StatedIn, Unit

_PLACES = ("location", "reached", "side", "check_point")
"""Last parts of the names of facts that say where a thing is."""

_ITSELF = "Where."
"""Describes a fact that is itself a place, and says no more than its label."""

FITTED = f"fitted or {NOT_FITTED}"
MOST_CHOICES = 8
"""Choices that are named; of more, a look at the schema is shorter than the list."""
USUAL = Grade.LEAVES_OUT
"""Gaps that matter less are looked up by nobody who does not ask for them."""


def look_ups(unit: UnitGaps, *, least: Grade = USUAL) -> tuple[LookUp, ...]:
    """Return all that is to be looked up for *unit*: what holds its guide back first.

    Args:
        unit: With its gaps.
        least: Gaps that matter less are left out.
    """
    if least is USUAL and unit.look_ups is not None:
        return unit.look_ups
    asked = [gap for gap in unit.gaps if gap.grade.rank <= least.rank]
    asked.sort(key=lambda gap: gap.grade.rank)
    if not asked:
        return ()
    truck = unit.unit
    return tuple(entry for gap in asked for entry in _of_gap(gap, truck))


def measure_words(field: AnyField) -> tuple[str, str]:
    """Return in which measure or words a field is stated, and what is believable.

    >>> from guidegen.specs.profile import FACTS
    >>> measure_words(FACTS["brakes.air.cut_out"].field)
    ('psi or kPa', '95 psi to 190 psi')
    """
    match field:
        case AmountField(low=low, high=high):
            return " or ".join(_measures(field)), f"{low} to {high}"
        case ChoiceField(choices=choices) | ChoicesField(choices=choices):
            several = "one or more of: " if isinstance(field, ChoicesField) else "one of: "
            words = list(choices.values())
            if len(words) > MOST_CHOICES:
                return f"{several}the list of the schema ({len(words)} choices)", ""
            return several + ", ".join(words), ""
        case CountField(low=least, high=most):
            return "a count", f"{least} to {most}"
        case FlagField():
            return "yes or no", ""
        case _:
            return "words", ""


def _measures(field: AmountField) -> Iterator[str]:
    low = parse_amount(field.low, field.dimension)
    shown = show_pair(low, Sense.NOMINAL, System.US, System.METRIC, usual=measure_of(low))
    yield from dict.fromkeys(measure_of(each).symbol.strip() for each in shown)


def _of_gap(gap: Gap, unit: Unit) -> Iterator[LookUp]:
    for line in gap.lines:
        section = section_of(line.name)
        if is_section(line.name):
            measure, believable, where = FITTED, "", ""
        else:
            field = FACTS[line.name]
            measure, believable = measure_words(field.field)
            where = _where(field.description, section, unit)
        yield LookUp(
            line.name,
            _plain(line.name),
            measure,
            believable,
            where,
            _document(section, unit),
            _depends(line, gap),
            topic_label(topic_of(line.name)),
            gap.grade,
            gap,
        )


def _plain(name: str) -> str:
    """Return what *name* is called, with its section where the label alone does not say."""
    label = label_of(name).rstrip(".")
    section = section_of(name)
    if is_section(name):
        return f"{label}: does the truck have it?"
    around = topic_label(topic_of(name)) if section == "identity" else label_of(section).rstrip(".")
    return label if around.lower() in label.lower() else f"{around}: {label}"


def _where(description: str, section: str, unit: Unit) -> str:
    told = "" if description == _ITSELF else description.strip()
    known = [
        f"{fact.field.label}: {_said(str(fact.value))}"
        for name, fact in unit.facts.items()
        if fact.field.section == section
        and name.rpartition(".")[2].removesuffix("s").endswith(_PLACES)
        and isinstance(fact.value, str)
    ]
    return " ".join([told, *(f"{each}." for each in known)]).strip()


def _said(value: str) -> str:
    return value.replace("_", " ")


def _document(section: str, unit: Unit) -> str:
    """Return the document that most values of *section* were copied from; else of the truck."""
    own = [fact for fact in unit.facts.values() if fact.field.section == section]
    for facts in (own, unit.facts.values()):
        sources = Counter(
            fact.provenance.source
            for fact in facts
            if isinstance(fact.provenance, StatedIn)
            and fact.provenance.layer in (Layer.UNIT, Layer.MODEL)
            and fact.provenance.source
            and not fact.name.startswith("identity.")
        )
        if sources:
            return max(sources, key=lambda each: (sources[each], each))
    return ""


def _depends(line: Line, gap: Gap) -> str:
    if line.is_certain and gap.grade is not Grade.MAY_HOLD:
        return ""
    if line.name != gap.name and is_section(gap.name):
        return f"only if the truck has it: {label_of(section_of(line.name)).rstrip('.')}"
    return "only if what is found first asks for it"
