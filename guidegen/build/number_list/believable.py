"""Between which amounts a value of a spec is believed.

Takes in the shapes of spec and profile files; gives out the least and the greatest amount of each
field, with its line, and the labels that hold numbers. Refuses nothing: a field without bounds
has none to list.
"""

import inspect
import sys
from collections.abc import Iterator

from guidegen.build.number_list.model import Ground, NumberEntry
from guidegen.build.number_list.source_lines import code_place
from guidegen.build.number_list.texts import entry_of_ours
from guidegen.specs.equipment import inner_sections
from guidegen.specs.fields import AmountField, ChoiceField, ChoicesField, CountField, Field
from guidegen.specs.section import Section

_SOURCE = "wide bounds that catch slips of the keyboard; common practice, no source"


def believable_numbers(shape: type[Section], prefix: str = "") -> Iterator[NumberEntry]:
    """Yield the bounds of every field of *shape* and of the sections in it, by dotted name."""
    inner = inner_sections(shape)
    for name, info in shape.model_fields.items():
        if name in inner:
            yield from believable_numbers(inner[name], f"{prefix}{name}.")
            continue
        for kind in info.metadata:
            if isinstance(kind, AmountField | CountField):
                bounds = str(kind.low), str(kind.high)
                says = f"{kind.label} (`{prefix}{name}`)"
                yield NumberEntry(_place(shape, name), bounds, says, _SOURCE, Ground.PRACTICE)


def label_numbers(shape: type[Section]) -> Iterator[NumberEntry]:
    """Yield each label or choice of the fields of *shape* that holds a number."""
    inner = inner_sections(shape)
    for name, info in shape.model_fields.items():
        if name in inner:
            yield from label_numbers(inner[name])
            continue
        for kind in info.metadata:
            if isinstance(kind, Field):
                place = _place(shape, name)
                yield from entry_of_ours(place, str(getattr(kind, "label", "")))
                if isinstance(kind, ChoiceField | ChoicesField):
                    for words in kind.choices.values():
                        yield from entry_of_ours(place, words)


def _place(shape: type[Section], name: str) -> str:
    lines, first = inspect.getsourcelines(shape)
    at = next(at for at, line in enumerate(lines) if line.strip().startswith(f"{name}:"))
    return code_place(sys.modules[shape.__module__], first + at)
