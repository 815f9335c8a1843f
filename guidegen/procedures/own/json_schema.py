"""The shapes of a fleet's own procedure files, for editors.

Takes in the shape of a procedure file; gives out those of the files in ``specs/own``. Refuses no
file: what a schema cannot say, the reader checks.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from guidegen.procedures.json_schema import procedure_json_schema
from guidegen.procedures.own.lamps import (
    LAMP_FILE_PARTS,
    LINE_PARTS,
    OPTIONAL_LAMP_FILE_PARTS,
)
from guidegen.procedures.own.merge import OPTIONAL_STEPS_FILE_PARTS, STEPS_FILE_PARTS
from guidegen.procedures.own.read_parts import (
    OWN_PARTS,
    PLACES,
    REPLACES_PARTS,
    STATEMENT_PARTS,
    STATEMENTS,
)
from guidegen.procedures.table_reader import ID_PATTERN
from guidegen.procedures.words import LAMP_ACTS
from guidegen.specs.topics.lamps import LAMPS

_ID = {"type": "string", "pattern": f"^{ID_PATTERN}$"}
_TEXT = {"type": "string", "minLength": 1}
_DIGEST = {"type": "string", "pattern": "^[0-9a-f]+$"}
_LINE_NUMBER = {"type": "integer", "minimum": 1}
_DATE = {"type": "string", "format": "date"}
_WORDS = {
    "replaces": "Procedure of the library that it stands in the place of, and that one's digest.",
    "before": "Id of the procedure of its chapter that it stands before.",
    "after": "Id of the procedure of its chapter that it stands after.",
    "drops_caution": "Cautions of the library that it has not, each with who answers for that.",
    "rewords_caution": "Cautions that it words otherwise, each with who answers for that.",
    "changes_state": "States that it does not begin with, each with who answers for that.",
    "steps": "Steps that replace one of the library, or stand before or after one.",
    "cautions": "Cautions beside those of the library, or in the place of the one of the same id.",
    "references": "Documents that the fleet's words rest on, beside those of the library.",
}
"""What an editor says of each part."""

_LAMP_WORDS = {
    "replaces": "Lamp of the library that these words are for, and its digest.",
    "act": "What it asks of the driver; milder than in the library only if somebody answers.",
    "meaning": "What it means, in the place of the library's words.",
    "symbol": "How it looks, in the place of the library's words.",
    "do": "Lines that replace one of the library, or stand before or after one; by number.",
    "references": "Documents that the fleet's words rest on, beside those of the library.",
    "rewords_caution": "Act, meaning or lines that warn otherwise, each with who answers for that.",
}


def own_procedure_json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a whole procedure of a fleet; the same for every call."""
    schema = procedure_json_schema()
    parts = {
        "replaces": _replaces(),
        **dict.fromkeys(PLACES, _ID),
        **{name: _statements(name) for name in STATEMENTS},
    }
    assert set(parts) == set(OWN_PARTS)  # noqa: S101 -- one list of parts
    properties = {**schema["properties"], **_described(parts)}
    return {**schema, "title": "Own procedure", "properties": properties}


def own_steps_json_schema() -> dict[str, Any]:
    """Return the JSON Schema of steps of a fleet in a procedure of the library."""
    schema = procedure_json_schema()
    of_procedure = schema["properties"]
    step = of_procedure["steps"]["items"]
    places = {"replaces": _ID, **dict.fromkeys(PLACES, _ID)}
    own_step = {
        **step,
        "required": ["text"],
        "properties": {**step["properties"], **places},
        "oneOf": [{"required": [name]} for name in places],
    }
    parts = {
        "replaces": _replaces(),
        "steps": {"type": "array", "minItems": 1, "items": own_step},
        "cautions": {"type": "array", "items": of_procedure["cautions"]["items"]},
        "references": {"type": "array", "minItems": 1, "items": _TEXT},
        "drops_caution": _statements("drops_caution"),
        "rewords_caution": _statements("rewords_caution"),
    }
    known = {*STEPS_FILE_PARTS, *OPTIONAL_STEPS_FILE_PARTS}
    assert set(parts) == known  # noqa: S101 -- one list of parts
    table = _table(_described(parts), STEPS_FILE_PARTS)
    return {"$schema": schema["$schema"], "title": "Own steps", **table, "$defs": schema["$defs"]}


def own_lamp_json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a fleet's words for a warning lamp."""
    line = {
        **_table({"text": _TEXT, **dict.fromkeys(LINE_PARTS, _LINE_NUMBER)}, ("text",)),
        "oneOf": [{"required": [name]} for name in LINE_PARTS],
    }
    replaced = {"lamp": {"enum": list(LAMPS)}, "digest": _DIGEST}
    parts = {
        "replaces": _table(replaced, replaced),
        "act": {"enum": list(LAMP_ACTS)},
        "meaning": _TEXT,
        "symbol": _TEXT,
        "do": {"type": "array", "minItems": 1, "items": line},
        "references": {"type": "array", "minItems": 1, "items": _TEXT},
        "rewords_caution": _statements("rewords_caution"),
    }
    known = {*LAMP_FILE_PARTS, *OPTIONAL_LAMP_FILE_PARTS}
    assert set(parts) == known  # noqa: S101 -- one list of parts
    described = {name: {**part, "description": _LAMP_WORDS[name]} for name, part in parts.items()}
    schema = procedure_json_schema()["$schema"]
    return {"$schema": schema, "title": "Own lamp", **_table(described, LAMP_FILE_PARTS)}


def _described(parts: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    return {name: {**part, "description": _WORDS[name]} for name, part in parts.items()}


def _replaces() -> dict[str, Any]:
    parts = {"procedure": _ID, "digest": _DIGEST}
    return _table(parts, REPLACES_PARTS)


def _statements(name: str) -> dict[str, Any]:
    about = STATEMENTS[name]
    parts = {about: _TEXT, **dict.fromkeys(STATEMENT_PARTS, _TEXT), "date": _DATE}
    return {"type": "array", "minItems": 1, "items": _table(parts, parts)}


def _table(properties: Mapping[str, object], required: Iterable[str]) -> dict[str, Any]:
    return {
        "type": "object",
        "additionalProperties": False,
        "required": list(required),
        "properties": dict(properties),
    }
