"""What a lamp in the cab means and what to do about it.

Takes in the lamp file of the library; gives out one short procedure for each lamp, which applies
to the trucks that have it. Refuses a lamp without a meaning, and a lamp of the list without an
entry: the driver would see it and find nothing.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from guidegen.finding import Findings, Rule, nearest
from guidegen.procedures import rules
from guidegen.procedures.condition_model import And, Asks, Compares, Predicate, Relation
from guidegen.procedures.model import (
    LampSign,
    OutcomeTemplate,
    ProcedureTemplate,
    StepTemplate,
    TextTemplate,
    Words,
)
from guidegen.procedures.placeholder import read_text
from guidegen.procedures.step_wording import check_step_wording
from guidegen.procedures.table_reader import TableReader, choose
from guidegen.procedures.words import LAMP_ACTS, LAMP_COLORS
from guidegen.specs.topics.lamps import LAMPS
from guidegen.yaml_nodes import Scalar, Table, read_yaml

UNKNOWN_ACT = Rule("unknown-act", "a driver who sees the lamp must know at once whether to stop")
UNKNOWN_LAMP = Rule("unknown-lamp", "the words for this lamp would be on no truck's guide")
LAMP_WITHOUT_ENTRY = Rule(
    "lamp-without-entry", "the driver would see the lamp come on and find nothing about it"
)
LAMP_WITHOUT_STOP = Rule(
    "lamp-without-stop", "a driver who is not told to stop drives on with what a red lamp warns of"
)

CHAPTER = "warning-lamps"
LAMP_ID = "lamp-"
"""What ids of lamps begin with."""

FITTED = "lamps.fitted"

_PARTS = MappingProxyType(
    {
        "act": "act: stop_now",
        "meaning": "meaning: The engine oil pressure is too low.",
        "do": "do: [Stop at the nearest safe place.]",
    }
)
_STOPS = re.compile(r"\b(stop|shut|park|pull over)", re.IGNORECASE)
"""What a driver does at a lamp that says to stop."""


def read_lamps(path: str, raw: bytes, findings: Findings) -> Mapping[str, ProcedureTemplate]:
    """Return a procedure for each lamp, by procedure id: the gravest act first, then by color."""
    table = read_yaml(path, raw, findings)
    if table is None:
        return MappingProxyType({})
    _check_entries(table, findings)
    found = (template for template in _entries(table, findings) if template is not None)
    return by_gravity(found)


def by_gravity(lamps: Iterable[ProcedureTemplate]) -> Mapping[str, ProcedureTemplate]:
    """Return *lamps* by procedure id: the gravest act first, then by color, then as given."""
    acts, colors = list(LAMP_ACTS), list(LAMP_COLORS)

    def gravity(template: ProcedureTemplate) -> tuple[int, int]:
        sign = template.lamp
        assert sign is not None  # noqa: S101 -- every template of this module has one
        return acts.index(sign.act), colors.index(sign.color)

    return MappingProxyType({template.id: template for template in sorted(lamps, key=gravity)})


def _entries(table: Table, findings: Findings) -> Iterator[ProcedureTemplate | None]:
    for name, (key, node) in table.entries.items():
        if name not in LAMPS:
            continue
        reader_findings = Findings()
        if isinstance(node, Table):
            yield read_lamp(key, TableReader(node, f"lamp `{name}`", reader_findings))
        else:
            what = f"lamp `{name}` is not a table"
            fix = "write act, meaning and do below it, indented"
            reader_findings.add(rules.PART_OF_WRONG_KIND, node.span, what=what, fix=fix)
        findings.extend(reader_findings)


def read_lamp(key: Scalar, reader: TableReader) -> ProcedureTemplate | None:
    """Return the procedure for the lamp that *key* names; nothing if its table has faults."""
    reader.check_names(_PARTS, ("symbol",))
    name = key.text
    id_ = f"{LAMP_ID}{name.replace('_', '-')}"
    findings = reader.findings
    act = choose(reader.text("act"), LAMP_ACTS, UNKNOWN_ACT, "act {}", findings)
    meaning = reader.text("meaning")
    means = read_text(f"{id_}.expect.1", meaning, findings) if meaning else None
    steps = tuple(_steps(id_, reader, key))
    looks = _looks(id_, reader)
    _check_stops(key, act or "", steps, findings)
    if not (act and means and steps):
        return None
    fitted = Asks(Predicate.FITTED, "lamps", key.span)
    has_it = Compares(FITTED, Relation.IN, name, key.span)
    title = TextTemplate(f"{id_}.title", (Words(_title(name)),), key.span)
    return ProcedureTemplate(
        id=id_,
        title=title,
        chapter=CHAPTER,
        applies=And((fitted, has_it)),
        state=(),
        station="cab",
        cautions=(),
        steps=steps,
        expect=(OutcomeTemplate(means, None), *looks),
        if_not=(),
        references=("Colors as in ISO 2575, from memory; the truck's own handbook comes first",),
        span=key.span,
        lamp=LampSign(name, LAMPS[name].color, act),
    )


def _steps(id_: str, reader: TableReader, key: Scalar) -> Iterator[StepTemplate]:
    for number, scalar in enumerate(reader.texts("do"), start=1):
        check_step_wording(scalar, reader.findings)
        text = read_text(f"{id_}.steps.{number}", scalar, reader.findings)
        if text is not None:
            yield StepTemplate(str(number), text, None, key.span)


def _looks(id_: str, reader: TableReader) -> tuple[OutcomeTemplate, ...]:
    symbol = reader.text("symbol")
    if symbol is None:
        return ()
    words = Words(f"It looks like {' '.join(symbol.text.split())}.")
    return (OutcomeTemplate(TextTemplate(f"{id_}.expect.2", (words,), symbol.span), None),)


def _title(name: str) -> str:
    words = LAMPS[name].name
    return words[0].upper() + words[1:]


def _check_stops(
    key: Scalar, act: str, steps: tuple[StepTemplate, ...], findings: Findings
) -> None:
    written = " ".join(
        part.text for step in steps for part in step.text.parts if isinstance(part, Words)
    )
    if act in ("stop_now", "stop_soon") and not _STOPS.search(written):
        findings.add(
            LAMP_WITHOUT_STOP,
            key.span,
            what=f"lamp `{key.text}` says `{act}`, and none of its steps stops the truck",
            fix="begin with a step such as `Stop at the nearest safe place.`",
        )


def _check_entries(table: Table, findings: Findings) -> None:
    for name, (key, _) in table.entries.items():
        if name not in LAMPS:
            near = nearest(name, LAMPS)
            fix = f"did you mean `{near}`?" if near else "add the lamp to the list of lamps first"
            findings.add(UNKNOWN_LAMP, key.span, what=f"there is no lamp `{name}`", fix=fix)
    for name in LAMPS:
        if name not in table.entries:
            findings.add(
                LAMP_WITHOUT_ENTRY,
                table.span,
                what=f"lamp `{name}` has no entry",
                fix=f"add `{name}:` with act, meaning and do",
            )
