"""The schema for editors knows every part and closed list, and passes what the reader passes."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from guidegen.procedures.json_schema import procedure_json_schema
from guidegen.procedures.model import Signal
from guidegen.procedures.words import CHAPTERS, STATES, STATIONS

SCHEMA = procedure_json_schema()
ROOT = Path(__file__).parents[3]
SPECIMENS = ROOT / "tests" / "specimens"
SOUND = sorted(
    [
        *(SPECIMENS / "sound_procedures").glob("*.yml"),
        *(ROOT / "site_templates").glob("procedures/*.yml"),
    ]
)
# What an editor can see by itself; names of facts and wording are for the reader.
SEEN_BY_EDITORS = (
    *("closed-lists", "ids", "parts-missing", "parts-unknown"),
    *("wrong-kinds", "nothing-in-the-lists", "page-of-text"),
)


def faults(value: object, schema: dict[str, Any], place: str = "") -> list[str]:
    """Judge *value* by the keywords of JSON Schema 2020-12 that the schema uses, and no others."""
    if "$ref" in schema:
        return faults(value, SCHEMA["$defs"][schema["$ref"].removeprefix("#/$defs/")], place)
    if "anyOf" in schema:
        each = [faults(value, one, place) for one in schema["anyOf"]]
        return [] if [] in each else [f"{place}: none of anyOf"]
    found = [
        f"{place}: {keyword}"
        for keyword, wanted in schema.items()
        if keyword in CHECKS and not CHECKS[keyword](value, wanted)
    ]
    unknown = set(schema) - {*CHECKS, "properties", "items", "description", "examples"}
    assert unknown <= {"$schema", "title", "$defs"}
    if isinstance(value, dict):
        properties = schema.get("properties", {})
        if schema.get("additionalProperties") is False:
            found += [f"{place}: {name} is no part" for name in value if name not in properties]
        for name in value.keys() & properties.keys():
            found += faults(value[name], properties[name], f"{place}/{name}")
    if isinstance(value, list):
        for number, inner in enumerate(value):
            found += faults(inner, schema.get("items", {}), f"{place}/{number}")
    return found


TYPES = {"object": dict, "array": list, "string": str}
CHECKS: dict[str, Any] = {
    "type": lambda value, wanted: isinstance(value, TYPES[wanted]),
    "enum": lambda value, wanted: value in wanted,
    "required": lambda value, wanted: not isinstance(value, dict) or set(wanted) <= set(value),
    "additionalProperties": lambda _value, _wanted: True,
    "minItems": lambda value, wanted: not isinstance(value, list) or len(value) >= wanted,
    "minProperties": lambda value, wanted: not isinstance(value, dict) or len(value) >= wanted,
    "minLength": lambda value, wanted: not isinstance(value, str) or len(value) >= wanted,
    "maxLength": lambda value, wanted: not isinstance(value, str) or len(value) <= wanted,
    "pattern": lambda value, wanted: not isinstance(value, str) or re.search(wanted, value),
}


def loaded(path: Path) -> object:
    # As editors read: YAML 1.2 takes `on` for a text, so the loader that keeps texts is near.
    return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506 -- texts only


def test_there_are_procedures_to_judge() -> None:
    assert SOUND


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_schema_passes_what_the_reader_passes(path: Path) -> None:
    assert faults(loaded(path), SCHEMA) == []


@pytest.mark.parametrize("name", SEEN_BY_EDITORS)
def test_schema_underlines_what_an_editor_can_see(name: str) -> None:
    assert faults(loaded(SPECIMENS / "faulty_procedures" / f"{name}.yml"), SCHEMA)


def test_schema_holds_the_closed_lists() -> None:
    parts = SCHEMA["properties"]

    assert parts["chapter"]["enum"] == list(CHAPTERS)
    one, several = parts["station"]["anyOf"]
    assert one["enum"] == several["items"]["properties"]["at"]["enum"] == list(STATIONS)
    states = {name: one["enum"] for name, one in parts["state"]["properties"].items()}
    assert states == {aspect: list(words) for aspect, words in STATES.items()}
    signal = parts["cautions"]["items"]["properties"]["signal"]
    assert signal["enum"] == [signal.value for signal in Signal]


def test_schema_is_plain_json_and_the_same_each_time() -> None:
    assert json.loads(json.dumps(SCHEMA)) == procedure_json_schema()
