"""The order and the plain names of what can be missing.

Takes in dotted names; gives out their place in the catalog, their labels and their topics.
Refuses names that the catalog does not have.
"""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.procedures.catalog_words import section_holding, sections_around
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS, Equipment, walk_sections
from guidegen.specs.profile import FACTS, HOLDER_LABELS

_WALKED = [name for name, _, _ in walk_sections(Equipment)]

PLACES: Mapping[str, int] = MappingProxyType(
    {name: place for place, name in enumerate(dict.fromkeys([*_WALKED, *FACTS]))}
)
"""Of every section and fact, by dotted name, in the order of a spec file."""

HOLDERS_OF_LIBRARY = frozenset({"law", "substance"})
"""What nobody looks up at a truck: the library states it."""


def is_section(name: str) -> bool:
    """Whether *name* is a section, and not a fact."""
    return name in EQUIPMENT_SECTIONS


def is_of_truck(name: str) -> bool:
    """Whether *name* is something that the fleet can state in a spec."""
    return is_section(name) or name in EQUIPMENT_FACTS


def section_of(name: str) -> str:
    """Return the section that *name* is, or stands in."""
    return name if is_section(name) else section_holding(name)


def enclosing(name: str) -> tuple[str, ...]:
    """Return *name* and the sections that it stands in, outermost first."""
    own = () if is_section(name) else (name,)
    return (*sections_around(section_of(name)), *own)


def label_of(name: str) -> str:
    """Return what people call *name*."""
    return EQUIPMENT_SECTIONS[name].label if is_section(name) else FACTS[name].label


def topic_of(name: str) -> str:
    """Return the dotted name of the outermost section of *name*."""
    return sections_around(section_of(name))[0]


def topic_label(topic: str) -> str:
    """Return what people call the topic *topic*."""
    return "Identity" if topic == "identity" else HOLDER_LABELS[topic]
