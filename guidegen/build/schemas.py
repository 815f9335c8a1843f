"""The JSON Schemas that editors check spec files with while they are typed.

Takes in a folder; gives out one schema a kind of file. Refuses nothing: a schema is an aid, and
the reader's own findings decide.
"""

import json
from pathlib import Path
from typing import Any

from guidegen.procedures.json_schema import procedure_json_schema
from guidegen.specs.equipment import ModelFile, UnitFile
from guidegen.specs.fleet import FleetFile
from guidegen.specs.paper import CardsFile
from guidegen.specs.theme import ThemeFile


def schemas() -> dict[str, dict[str, Any]]:
    """Return each schema by its file name."""
    return {
        "cards.schema.json": CardsFile.model_json_schema(),
        "fleet.schema.json": FleetFile.model_json_schema(),
        "model.schema.json": ModelFile.model_json_schema(),
        "procedure.schema.json": procedure_json_schema(),
        "theme.schema.json": ThemeFile.model_json_schema(),
        "unit.schema.json": UnitFile.model_json_schema(),
    }


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
