"""A fact as the driver reads it.

Takes in a fact of a unit; gives out its value and its source in words.
Refuses to round or to shorten: every digit that the office typed is printed.
"""

from collections.abc import Mapping
from typing import assert_never

from guidegen.procedures.words import LABELS
from guidegen.quantity.express import express
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs.fields import AnyField, ChoiceField, ChoicesField, Recorded
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, Layer, StatedIn, WorkedOut

_LAYER_LABELS: Mapping[Layer, str] = {
    Layer.UNIT: "own",
    Layer.MODEL: "inherited",
    Layer.FLEET: "fleet",
    Layer.PROFILE: "profile",
    Layer.LIBRARY: "library",
}


def value_words(fact: Fact) -> str:
    """Return the value of *fact* in words.

    Inside an amount every space is a no-break space; before the second amount, which stands
    in parentheses, a line may break.
    """
    match fact.value:
        case bool(yes):
            return "yes" if yes else "no"
        case int(count):
            return str(count)
        case str(word):
            return _choice_words(fact.field.field, word)
        case tuple(words):
            return _listed([_choice_words(fact.field.field, word) for word in words])
        case Quantity() | QuantityRange() as amount:
            first, *others = [express(shown) for shown in fact.shown or (amount,)]
            return " ".join([first, *(f"({other})" for other in others)])
        case _:
            assert_never(fact.value)


def source_words(fact: Fact) -> str:
    """Return where the value of *fact* comes from, in words."""
    match fact.provenance:
        case StatedIn(layer=layer, source=source, recorded=recorded):
            label = LABELS[_LAYER_LABELS[layer]]
            told = f"{label} — {source or LABELS['no_source']}"
            return told if recorded is None else f"{told}; {_recorded_words(recorded)}"
        case WorkedOut(of=of):
            return f"{LABELS['worked_out']} {', '.join(FACTS[name].label for name in of)}"
        case _:
            assert_never(fact.provenance)


def _recorded_words(recorded: Recorded) -> str:
    when = f"{LABELS['recorded']} {recorded.on}"
    return f"{when} {LABELS['recorded_by']} {recorded.by}" if recorded.by else when


def _choice_words(field: AnyField, word: str) -> str:
    if isinstance(field, ChoiceField | ChoicesField):
        return field.choices[word]
    return word


def _listed(words: list[str]) -> str:
    """Join *words* as a sentence does: ``a, b and c``."""
    if len(words) <= 1:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
