"""The fingerprint of an edition.

Takes in all that a guide says; gives out a short hexadecimal digest that two guides share if
and only if they read alike but for the identity. Refuses to take in places in files: moving a
line in a spec changes no page.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping

from guidegen.guide.model import STAMPED, Block, Caution, Chapter, Procedure, Step, Text, Timer
from guidegen.procedures.model import Words
from guidegen.quantity.model import Amount, QuantityRange
from guidegen.specs.fields import Value
from guidegen.units.model import Fact, SectionState, StatedIn

LENGTH = 12
"""Hexadecimal digits: 48 bits, so that among 100,000 editions two share one by chance once in
fifty thousand fleets."""

Plain = str | int | bool | None | list["Plain"] | dict[str, "Plain"]


def fingerprint(
    facts: Mapping[str, Fact], sections: Mapping[str, SectionState], chapters: Iterable[Chapter]
) -> str:
    """Return the edition's fingerprint, of `LENGTH` hexadecimal digits."""
    parts = ((chapter.id, map(canonical_procedure, chapter.procedures)) for chapter in chapters)
    return fingerprint_of_parts(facts, sections, parts)


def fingerprint_of_parts(
    facts: Mapping[str, Fact],
    sections: Mapping[str, SectionState],
    chapters: Iterable[tuple[str, Iterable[str]]],
) -> str:
    """Return the fingerprint of a guide whose procedures have been written down before.

    Args:
        facts: As of the guide.
        sections: As of the guide.
        chapters: Id of each, with what `canonical_procedure` gives for its procedures.
    """
    rows = (f"[{','.join((_canonical(id_), *parts))}]" for id_, parts in chapters)
    plain: Plain = {
        "facts": {name: _fact(fact) for name, fact in facts.items() if name not in STAMPED},
        "sections": {name: state.presence.value for name, state in sections.items()},
        "stamped": [name for name in STAMPED if name in facts],
    }
    # Keys in the order of their letters, as `_canonical` writes them: chapters come first.
    canonical = f'{{"chapters":[{",".join(rows)}],{_canonical(plain)[1:]}'
    return hashlib.sha256(canonical.encode()).hexdigest()[:LENGTH]


def canonical_procedure(procedure: Procedure) -> str:
    """Return all that *procedure* says, as the fingerprint takes it in."""
    return _canonical(_procedure(procedure))


def _canonical(plain: Plain) -> str:
    return json.dumps(plain, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def _fact(fact: Fact) -> Plain:
    provenance = fact.provenance
    if isinstance(provenance, StatedIn):
        # What nobody dated keeps the fingerprint that it had before anybody could.
        said = provenance.recorded
        dated: list[Plain] = [] if said is None else [said.on, said.by]
        origin: Plain = [provenance.layer.value, provenance.source, *dated]
    else:
        origin = provenance.formula
    return [_value(fact.value), [_amount(amount) for amount in fact.shown], origin]


def _value(value: Value) -> Plain:
    if isinstance(value, tuple):
        return list(value)
    if isinstance(value, str | int):
        return value
    return _amount(value)


def _amount(amount: Amount) -> str:
    if isinstance(amount, QuantityRange):
        return f"{_amount(amount.low)}..{_amount(amount.high)}"
    return f"{amount.amount} {amount.measure.symbol}"


def _procedure(procedure: Procedure) -> Plain:
    # A guide without photos keeps the fingerprint that it had before there could be any.
    photos: dict[str, Plain] = (
        {"photos": [list(photo.says) for photo in procedure.photos]} if procedure.photos else {}
    )
    return {
        **photos,
        "id": procedure.id,
        "title": _text(procedure.title),
        "station": procedure.station,
        "state": [f"{aspect}.{state}" for aspect, state in procedure.state],
        "blocks": [_block(block) for block in procedure.blocks],
        "expect": [_text(text) for text in procedure.expect],
        "if_not": [_text(text) for text in procedure.if_not],
        "lamp": [sign.id, sign.color, sign.act] if (sign := procedure.lamp) else None,
        "figure": procedure.figure,
    }


def _block(block: Block) -> Plain:
    match block:
        case Step():
            timed = [_timer(block.timer)] if block.timer else []
            return ["step", block.number, _text(block.text), *timed]
        case Caution():
            texts = [_text(text) for text in (block.hazard, block.consequence, block.avoid)]
            return ["caution", block.id, block.signal.value, *texts]


def _timer(timer: Timer) -> Plain:
    reading = timer.reading.value if timer.reading else None
    limits: list[Plain] = [[limit.key, limit.fact] for limit in timer.limits]
    return [timer.kind.value, timer.time, reading, limits]


def _text(text: Text) -> Plain:
    parts: list[Plain] = [
        part.text if isinstance(part, Words) else {"fact": part.name} for part in text.parts
    ]
    return [text.id, *parts]
