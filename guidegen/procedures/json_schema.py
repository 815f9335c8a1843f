"""The shape of a procedure file, for editors.

Takes in the closed lists; gives out a JSON Schema that completes names and underlines slips
while a trainer types.
Refuses no file: what a schema cannot say, such as names of facts in a text, the reader checks.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from guidegen.procedures.condition_tokens import EXAMPLE
from guidegen.procedures.figure_kinds import FIGURE_KINDS
from guidegen.procedures.model import RoundPart, Signal
from guidegen.procedures.placeholder import LONGEST_TEXT
from guidegen.procedures.read import OPTIONAL_PARTS, PROCEDURE_PARTS
from guidegen.procedures.read_parts import (
    CAUTION_PARTS,
    FIGURE_PARTS,
    MESSAGE_PARTS,
    OPTIONAL_STEP_PARTS,
    OUTCOME_PARTS,
    STEP_PARTS,
)
from guidegen.procedures.read_round import LATER_PARTS, OPTIONAL_ROUND_PARTS, ROUND_PARTS
from guidegen.procedures.read_station import STATION_PARTS
from guidegen.procedures.read_timer import BOUNDS, OPTIONAL_TIMER_PARTS, TIMER_PARTS
from guidegen.procedures.table_reader import ID_PATTERN
from guidegen.procedures.timer_kinds import ReadingKind, Rig, TimerKind
from guidegen.procedures.words import CHAPTERS, STATES, STATIONS

_WORDS = {
    "id": "The same as the file's name.",
    "title": "What the driver does, as the heading of the procedure.",
    "chapter": "Part of the day that it belongs to.",
    "applies": "Condition on which a truck's guide has it.",
    "state": "State of the truck in which it begins, by aspect.",
    "station": "Place at the truck where it is done.",
    "figure": "Drawing that stands before the steps.",
    "cautions": "Safety messages, each before the step that it guards.",
    "steps": "Instructions, one each, in order.",
    "expect": "What the driver should see, hear or read.",
    "if_not": "What to do if that is not so.",
    "references": "Documents that it rests on.",
    "round": "What it is to the inspection round.",
}
"""What an editor says of each part of a procedure."""

DIALECT = "https://json-schema.org/draft/2020-12/schema"

_ID = {"type": "string", "pattern": f"^{ID_PATTERN}$"}
_TEXT = {"$ref": "#/$defs/text"}
_CONDITION = {"$ref": "#/$defs/condition"}


def procedure_json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a procedure file; the same for every call."""
    parts = {
        "id": {**_ID, "description": "The same as the file's name."},
        "title": _TEXT,
        "chapter": _one_of(CHAPTERS),
        "applies": _CONDITION,
        "state": _state(),
        "station": _station(),
        "figure": _figure(),
        "cautions": {"type": "array", "items": _caution()},
        "steps": _filled_list(_step()),
        "expect": _filled_list({"$ref": "#/$defs/outcome"}),
        "if_not": _filled_list({"$ref": "#/$defs/outcome"}),
        "references": _filled_list({"type": "string", "minLength": 1}),
        "round": _round(),
    }
    assert set(parts) == {*PROCEDURE_PARTS, *OPTIONAL_PARTS}  # noqa: S101 -- one list of parts
    described = {name: {"description": _WORDS[name], **part} for name, part in parts.items()}
    return {
        "$schema": DIALECT,
        "title": "Procedure",
        **_table(described, PROCEDURE_PARTS),
        "$defs": {
            "text": {
                "type": "string",
                "minLength": 1,
                "maxLength": LONGEST_TEXT,
                "description": "Values by placeholders only: {{ brakes.air.cut_out }}.",
            },
            "condition": {"type": "string", "minLength": 1, "examples": [EXAMPLE]},
            "outcome": {
                "anyOf": [_TEXT, _table({"text": _TEXT, "when": _CONDITION}, OUTCOME_PARTS)]
            },
        },
    }


def _state() -> dict[str, Any]:
    aspects = {aspect: _one_of(states) for aspect, states in STATES.items()}
    return {**_table(aspects, ()), "minProperties": 1}


def _station() -> dict[str, Any]:
    stations = _one_of(STATIONS)
    return {
        "anyOf": [
            stations,
            _filled_list(_table({"at": stations, "when": _CONDITION}, STATION_PARTS)),
        ]
    }


def _figure() -> dict[str, Any]:
    kinds = _one_of(FIGURE_KINDS)
    return {"anyOf": [kinds, _table({"kind": kinds, "when": _CONDITION}, FIGURE_PARTS)]}


def _round() -> dict[str, Any]:
    aspects = {aspect: _one_of(states) for aspect, states in STATES.items()}
    states = {**_table({**aspects, "when": _CONDITION}, ()), "minProperties": 1}
    leaves = _filled_list(states)
    parts = {
        "part": {
            "enum": [part.value for part in RoundPart],
            "description": "What the procedure is to the inspection round.",
        },
        "needs": _filled_list(states),
        "leaves": leaves,
        "ends": _one_of(STATIONS),
        "later": _table({"step": _ID, "leaves": leaves}, LATER_PARTS),
    }
    assert set(parts) == {*ROUND_PARTS, *OPTIONAL_ROUND_PARTS}  # noqa: S101 -- one list of parts
    return _table(parts, ROUND_PARTS)


def _caution() -> dict[str, Any]:
    parts = {
        "id": _ID,
        "signal": {"enum": [signal.value for signal in Signal]},
        "guards": {**_ID, "description": "Id of the step that it stands before."},
        **dict.fromkeys(MESSAGE_PARTS, _TEXT),
        "when": _CONDITION,
    }
    return _table(parts, (*CAUTION_PARTS, *MESSAGE_PARTS))


def _step() -> dict[str, Any]:
    parts = {"id": _ID, "text": _TEXT, "when": _CONDITION, "timer": _timer()}
    assert set(parts) == {*STEP_PARTS, *OPTIONAL_STEP_PARTS}  # noqa: S101 -- one list of parts
    return _table(parts, STEP_PARTS)


def _timer() -> dict[str, Any]:
    fact = {"type": "string", "description": "Name of a fact, such as law.air_build_up_time."}
    also = {"rig": _one_of(rig.value for rig in Rig), "when": _CONDITION}
    limit = {"anyOf": [_table({bound: fact, **also}, (bound,)) for bound in BOUNDS]}
    parts = {
        "kind": {
            **_one_of(kind.value for kind in TimerKind),
            "description": "A stopwatch measures; a countdown runs for the time of a fact.",
        },
        "time": fact,
        "reading": _one_of(reading.value for reading in ReadingKind),
        "limits": _filled_list(limit),
        "when": _CONDITION,
    }
    assert set(parts) == {*TIMER_PARTS, *OPTIONAL_TIMER_PARTS}  # noqa: S101 -- one list of parts
    return _table(parts, TIMER_PARTS)


def _table(properties: Mapping[str, object], required: Iterable[str]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": list(required),
        "properties": dict(properties),
    }


def _filled_list(entries: Mapping[str, object]) -> dict[str, Any]:
    return {"type": "array", "minItems": 1, "items": dict(entries)}


def _one_of(words: Iterable[str]) -> dict[str, Any]:
    return {"enum": list(words)}
