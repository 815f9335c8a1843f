"""What it takes to print a kept edition again, beside what it takes to compare it.

Takes in a guide; gives out where its values come from and which amounts are printed for them, and
from that, later, the whole guide again. Refuses a guide that is not the recorded one to the last
fact: its fingerprint must come out the same.
"""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.model import STAMPED, Guide
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.revisions.plain_value import plain_value, read_value
from guidegen.source import Span
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.fields import Recorded
from guidegen.specs.profile import FACTS
from guidegen.units.model import Fact, Layer, Provenance, StatedIn, WorkedOut

Plain = Any
"""Whatever JSON holds."""


def plain_origins(guide: Guide) -> Mapping[str, Plain]:
    """Return what must be kept of each fact of *guide* but the identity, by name."""
    return {name: _plain(fact) for name, fact in guide.facts.items() if name not in STAMPED}


def restored(kept: Guide, origins: Mapping[str, Plain], stamped: Guide) -> Guide | None:
    """Return the guide that was *kept* as it was printed, or nothing if not all of it is known.

    Args:
        kept: As it was read, as far as it takes to compare.
        origins: What `plain_origins` gave.
        stamped: Of the same truck as it is now, for its number, VIN, plate and yard.
    """
    if not set(origins) <= set(FACTS) or set(origins) != set(kept.facts):
        return None
    facts = {name: _fact(kept.facts[name], plain) for name, plain in origins.items()}
    identity = {name: fact for name, fact in stamped.facts.items() if name in STAMPED}
    whole = {**facts, **identity}
    guide = replace(
        kept,
        number=stamped.number,
        facts=MappingProxyType({name: whole[name] for name in FACTS if name in whole}),
        sections=MappingProxyType(
            {name: kept.sections[name] for name in EQUIPMENT_SECTIONS if name in kept.sections}
        ),
    )
    is_same = fingerprint(guide.facts, guide.sections, guide.chapters) == kept.edition
    return guide if is_same else None


def _plain(fact: Fact) -> Plain:
    origin = fact.provenance
    if isinstance(origin, StatedIn):
        told: Plain = {"layer": origin.layer.value, "source": origin.source}
        if origin.recorded is not None:
            told["recorded"] = [origin.recorded.on, origin.recorded.by]
    else:
        told = {"formula": origin.formula, "of": list(origin.of)}
    shown = [plain_value(amount) for amount in fact.shown]
    return {**told, "shown": shown, **({"quoted": True} if fact.is_quoted else {})}


def _fact(kept: Fact, plain: Plain) -> Fact:
    amounts = map(read_value, plain["shown"])
    return replace(
        kept,
        provenance=_origin(plain, kept.provenance.span),
        shown=tuple(each for each in amounts if isinstance(each, Quantity | QuantityRange)),
        is_quoted=plain.get("quoted", False),
    )


def _origin(plain: Plain, span: Span) -> Provenance:
    if "formula" in plain:
        return WorkedOut(plain["formula"], tuple(plain["of"]), span)
    recorded = (
        Recorded(plain["recorded"][0], plain["recorded"][1], span) if "recorded" in plain else None
    )
    return StatedIn(Layer(plain["layer"]), span, plain["source"], recorded)
