"""The JSON Schemas that editors check spec files with while they are typed.

Takes in a folder; gives out one schema a kind of file. Refuses nothing: a schema is an aid, and
the reader's own findings decide.
"""

import json
from pathlib import Path
from typing import Any

from guidegen.procedures.json_schema import procedure_json_schema
from guidegen.procedures.own.json_schema import (
    own_lamp_json_schema,
    own_procedure_json_schema,
    own_steps_json_schema,
)
from guidegen.specs.equipment import ModelFile, UnitFile
from guidegen.specs.fields import RECORDED_SCHEMA
from guidegen.specs.fleet import FleetFile
from guidegen.specs.paper import CardsFile
from guidegen.specs.photos import PhotosFile
from guidegen.specs.section import Section
from guidegen.specs.theme import ThemeFile

_RECORDED = "Recorded"


def schemas() -> dict[str, dict[str, Any]]:
    """Return each schema by its file name."""
    return {
        "cards.schema.json": _of(CardsFile),
        "fleet.schema.json": _of(FleetFile),
        "model.schema.json": _of(ModelFile),
        "own-lamp.schema.json": own_lamp_json_schema(),
        "own-procedure.schema.json": own_procedure_json_schema(),
        "own-steps.schema.json": own_steps_json_schema(),
        "photos.schema.json": _of(PhotosFile),
        "procedure.schema.json": procedure_json_schema(),
        "theme.schema.json": _of(ThemeFile),
        "unit.schema.json": _of(UnitFile),
    }


def _of(file: type[Section]) -> dict[str, Any]:
    """Return the schema of *file*, in which what every value can say of its record stands once."""
    schema: dict[str, Any] = _referring(file.model_json_schema())
    return {**schema, "$defs": {**schema.get("$defs", {}), _RECORDED: RECORDED_SCHEMA}}


def _referring(part: Any) -> Any:  # noqa: ANN401 -- whatever JSON holds
    if part == RECORDED_SCHEMA:
        return {"$ref": f"#/$defs/{_RECORDED}"}
    if isinstance(part, dict):
        return {key: _referring(each) for key, each in part.items()}
    return [_referring(each) for each in part] if isinstance(part, list) else part


def write_schemas(folder: Path) -> tuple[Path, ...]:
    """Write the schemas into *folder*, made if missing; return the files."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, schema in schemas().items():
        path = folder / name
        text = json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
        path.write_text(text, encoding="utf-8", newline="\n")
        written.append(path)
    return tuple(written)
