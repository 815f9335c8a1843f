"""An edition as it was released, kept so that later ones can be compared with it.

Takes in a guide; gives out a file's bytes, the same for the same guide, and from such a file the
guide again, as far as it takes to compare. Refuses a file of another form than it writes.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from guidegen.finding import Findings
from guidegen.guide.model import (
    STAMPED,
    Block,
    Caution,
    Chapter,
    FactRef,
    Guide,
    Procedure,
    Step,
    Text,
    Timer,
    TimerLimit,
)
from guidegen.photos.model import Photo
from guidegen.procedures.model import LampSign, Signal, Words
from guidegen.procedures.timer_kinds import Bound, ReadingKind, Rig, TimerKind
from guidegen.procedures.words import CHAPTERS
from guidegen.quantity.express import express
from guidegen.revisions import rules
from guidegen.revisions.origins import plain_origins
from guidegen.revisions.plain_value import plain_value, read_value
from guidegen.source import SourceFile, Span
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.units.model import Fact, Layer, Presence, SectionState, StatedIn
from guidegen.wording import source_words, value_words

FORM = 1
"""Of the file; another number means another layout."""

Plain = Any
"""Whatever JSON holds."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A value as the guide printed it."""

    label: str
    """What the guide calls it, with its section's name where the label alone could mean another."""

    short: str
    """The first amount alone; for what is no amount, all of it."""

    full: str
    source: str
    """Where it comes from."""


@dataclass(frozen=True, slots=True)
class Snapshot:
    """An edition with its values in words."""

    guide: Guide
    spoken: Mapping[str, Spoken]
    """By name of the fact, those too that are not in the catalog any more."""

    stamped: tuple[str, ...]
    """Names of the identity facts that are on record."""

    retired: tuple[Text, ...] = ()
    """Titles of procedures in chapters that there are no more."""

    @classmethod
    def of(cls, guide: Guide) -> "Snapshot":
        """Return *guide* with its values in words."""
        spoken = {name: _spoken(fact) for name, fact in guide.facts.items()}
        return cls(guide, spoken, tuple(name for name in STAMPED if name in guide.facts))


def snapshot_bytes(guide: Guide) -> bytes:
    """Return the file that keeps the edition of *guide*: compact JSON in UTF-8."""
    return compact_json({**snapshot_content(guide), "origins": plain_origins(guide)})


def snapshot_content(guide: Guide) -> Mapping[str, Plain]:
    """Return what it takes to compare *guide* with a later one, as plain values."""
    snapshot = Snapshot.of(guide)
    return {
        "form": FORM,
        "edition": guide.edition,
        "facts": {
            name: [*_plain_spoken(snapshot.spoken[name]), plain_value(fact.value)]
            for name, fact in guide.facts.items()
            if name not in STAMPED
        },
        "stamped": list(snapshot.stamped),
        "sections": {name: state.presence.value for name, state in guide.sections.items()},
        "chapters": [[chapter.id, *map(_plain, chapter.procedures)] for chapter in guide.chapters],
    }


def compact_json(content: Plain) -> bytes:
    """Return *content* as a file: keys in the order of their letters, UTF-8."""
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return f"{text}\n".encode()


def digest_of(raw: bytes) -> str:
    """Return the SHA-256 of a file, in hexadecimal."""
    return hashlib.sha256(raw).hexdigest()


def read_snapshot(
    path: str, raw: bytes, expected: tuple[str, str], findings: Findings
) -> Snapshot | None:
    """Return the edition that *raw* keeps, or nothing and a finding.

    Args:
        path: Of the file, as findings show it.
        raw: All of its bytes.
        expected: Fingerprint of the edition, and SHA-256 of the file, as the record has them.
        findings: Takes the fault.
    """
    edition, digest = expected
    file = SourceFile(path, raw.decode("utf-8", "replace"))
    span = Span(file, 1, 1, 1, 2)
    if digest_of(raw) != digest:
        what = "is not as it was written: its SHA-256 is another than the record has"
        _report(path, span, what, findings)
        return None
    try:
        content = json.loads(raw)
        if content["edition"] != edition:
            raise ValueError(edition)  # noqa: TRY301 -- one way out for all that is not as it must
        return snapshot_from(content, span)
    except (ValueError, KeyError, TypeError, IndexError, ArithmeticError):
        _report(path, span, f"does not keep the edition `{edition}` in a known form", findings)
        return None


def snapshot_from(content: Plain, span: Span) -> Snapshot:
    """Return the edition that `snapshot_content` has made *content* of.

    Raises:
        ValueError, KeyError, TypeError, IndexError, ArithmeticError: If it was made of none.
    """
    if content["form"] != FORM:
        raise ValueError(content["form"])
    return _read(content, span)


def _report(path: str, span: Span, what: str, findings: Findings) -> None:
    findings.add(
        rules.EDITION_DAMAGED, span, what=what, fix=f"get it back from git: `git restore {path}`"
    )


def _spoken(fact: Fact) -> Spoken:
    full = _folded(value_words(fact))
    first = next(iter(fact.shown), None)
    short = _folded(express(first)) if first is not None else full
    return Spoken(_label(fact), short, full, _folded(source_words(fact)))


def _label(fact: Fact) -> str:
    is_alone = _LABEL_COUNTS[fact.field.label] == 1
    if is_alone:
        return fact.field.label
    return f"{HOLDER_LABELS[fact.field.section]}: {fact.field.label}"


_LABEL_COUNTS: dict[str, int] = {}
for _each in FACTS.values():
    _LABEL_COUNTS[_each.label] = _LABEL_COUNTS.get(_each.label, 0) + 1


def _folded(text: str) -> str:
    return " ".join(text.split())


def _plain_spoken(spoken: Spoken) -> list[str]:
    return [spoken.label, spoken.short, spoken.full, spoken.source]


def _plain(procedure: Procedure) -> Plain:
    sign = procedure.lamp
    return {
        "id": procedure.id,
        "title": _plain_text(procedure.title),
        "station": procedure.station,
        "state": [list(each) for each in procedure.state],
        "blocks": [_plain_block(block) for block in procedure.blocks],
        "expect": [_plain_text(text) for text in procedure.expect],
        "if_not": [_plain_text(text) for text in procedure.if_not],
        "lamp": [sign.id, sign.color, sign.act] if sign else None,
        "figure": procedure.figure,
        **({"photos": [list(each.says) for each in procedure.photos]} if procedure.photos else {}),
    }


def _plain_block(block: Block) -> Plain:
    match block:
        case Step():
            timed = {"timer": _plain_timer(block.timer)} if block.timer else {}
            return {"step": _plain_text(block.text), "number": block.number, **timed}
        case Caution():
            texts = (block.hazard, block.consequence, block.avoid)
            return {
                "caution": block.id,
                "signal": block.signal.value,
                "texts": [_plain_text(text) for text in texts],
                "guards": block.guards,
            }


def _plain_timer(timer: Timer) -> Plain:
    return {
        "kind": timer.kind.value,
        "time": timer.time,
        "reading": timer.reading.value if timer.reading else None,
        "limits": [
            [limit.bound.value, limit.fact, limit.rig.value if limit.rig else None]
            for limit in timer.limits
        ],
    }


def _plain_text(text: Text) -> Plain:
    parts = [part.text if isinstance(part, Words) else {"fact": part.name} for part in text.parts]
    return [text.id, *parts]


def _read(content: Plain, span: Span) -> Snapshot:
    facts = {
        name: Fact(FACTS[name], read_value(stated[-1]), StatedIn(Layer.UNIT, span, stated[3]))
        for name, stated in content["facts"].items()
        if name in FACTS
    }
    sections = {
        name: SectionState(Presence(presence), None)
        for name, presence in content["sections"].items()
    }
    chapters = tuple(
        Chapter(id_, tuple(_procedure(each, span) for each in procedures))
        for id_, *procedures in content["chapters"]
    )
    known = tuple(chapter for chapter in chapters if chapter.id in CHAPTERS)
    retired = (
        each.title
        for chapter in chapters
        if chapter.id not in CHAPTERS
        for each in chapter.procedures
    )
    in_order = {name: facts[name] for name in FACTS if name in facts}
    return Snapshot(
        guide=Guide("", in_order, sections, known, content["edition"]),
        spoken={name: Spoken(*stated[:-1]) for name, stated in content["facts"].items()},
        stamped=tuple(content["stamped"]),
        retired=tuple(retired),
    )


def _procedure(plain: Plain, span: Span) -> Procedure:
    return Procedure(
        id=plain["id"],
        title=_text(plain["title"], span),
        station=plain["station"],
        state=tuple((aspect, state) for aspect, state in plain["state"]),
        blocks=tuple(_block(each, span) for each in plain["blocks"]),
        expect=_texts(plain["expect"], span),
        if_not=_texts(plain["if_not"], span),
        span=span,
        lamp=LampSign(*plain["lamp"]) if plain["lamp"] else None,
        figure=plain["figure"],
        photos=tuple(_photo(each, span) for each in plain.get("photos", ())),
    )


def _photo(plain: Plain, span: Span) -> Photo:
    procedure, step, alt, caption, width, height, sha256 = plain
    return Photo(procedure, step, alt, caption, width, height, sha256, span)


def _block(plain: Plain, span: Span) -> Block:
    if "step" in plain:
        text = _text(plain["step"], span)
        timer = _timer(plain["timer"], span) if "timer" in plain else None
        return Step(text.id, plain["number"], text, timer)
    hazard, consequence, avoid = _texts(plain["texts"], span)
    return Caution(
        plain["caution"], Signal(plain["signal"]), hazard, consequence, avoid, plain["guards"]
    )


def _timer(plain: Plain, span: Span) -> Timer:
    return Timer(
        TimerKind(plain["kind"]),
        plain["time"],
        ReadingKind(plain["reading"]) if plain["reading"] else None,
        tuple(
            TimerLimit(Bound(bound), fact, Rig(rig) if rig else None)
            for bound, fact, rig in plain["limits"]
        ),
        span,
    )


def _texts(plain: Iterable[Plain], span: Span) -> tuple[Text, ...]:
    return tuple(_text(each, span) for each in plain)


def _text(plain: Plain, span: Span) -> Text:
    id_, *parts = plain
    read = (Words(part) if isinstance(part, str) else FactRef(part["fact"]) for part in parts)
    return Text(id_, tuple(read), span)
