"""Values that files of the library state: limits of places, facts of fluids, lists of the law.

Takes in profiles, substances and lists as they were read; gives out each value with its source.
Refuses nothing: the readers have refused a value without a source.
"""

from collections.abc import Iterable, Iterator, Mapping

from guidegen.build.number_list.find import numbers_in
from guidegen.build.number_list.model import NumberEntry, ground_of_words
from guidegen.coverage.model import CoverageList
from guidegen.quantity.express import NO_BREAK_SPACE, express
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.source import Span
from guidegen.specs.bounds import Bounds
from guidegen.specs.equipment import catalog_facts
from guidegen.specs.fields import Stated
from guidegen.specs.profile import FACTS

NAME = "law.name"
_BOUNDS = catalog_facts(Bounds, "bounds.")


def stated_numbers(stated: Mapping[str, Stated]) -> Iterator[NumberEntry]:
    """Yield every value of one file but the name of the jurisdiction."""
    for name, each in stated.items():
        if name == NAME:
            continue
        field = FACTS.get(name) or _BOUNDS[name]
        yield NumberEntry(
            f"{each.span.file.path}:{each.span.line}",
            _typed(each),
            f"{field.label} (`{name}`)",
            each.source,
            ground_of_words(each.source),
        )


def listed_numbers(lists: Iterable[CoverageList]) -> Iterator[NumberEntry]:
    """Yield every text of the lists of the law that holds a number, with source and edition."""
    for each in lists:
        # Where there is no list, the reason says from where that is known.
        whole = each.no_list or f"{each.source}; {each.edition}"
        for text in (each.name, each.no_list):
            yield from _listed(each.span, text, whole)
        for item in each.items:
            source = f"{item.source}; {item.edition}" if item.edition else item.source
            for text in (item.wording, item.outside):
                yield from _listed(item.span, text, source)


def _listed(span: Span, text: str, source: str) -> Iterator[NumberEntry]:
    numbers = tuple(found.text for found in numbers_in(text))
    if numbers:
        place = f"{span.file.path}:{span.line}"
        yield NumberEntry(place, numbers, text, source, ground_of_words(source))


def _typed(stated: Stated) -> tuple[str, ...]:
    """Return the value as it stands in its file, and beside it the one that its source prints."""
    span = stated.span
    typed = span.file.line(span.line)[span.column - 1 : span.end_column - 1].strip("\"'")
    match stated.quoted:
        case Quantity() | QuantityRange() as quoted:
            return typed, express(quoted).replace(NO_BREAK_SPACE, " ")
        case _:
            return (typed,)
