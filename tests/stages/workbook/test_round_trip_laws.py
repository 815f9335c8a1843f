import shutil
from pathlib import Path

import pytest
from clerk import at_desk, seen
from hypothesis import given, settings
from hypothesis import strategies as st
from spec_office import Office

from guidegen.build.project import open_project
from guidegen.source_text import unseen_character
from guidegen.specs.equipment import EQUIPMENT_FACTS
from guidegen.specs.fields import TextField
from guidegen.workbook.yaml_edit import set_value

FREE = sorted(
    name
    for name, fact in EQUIPMENT_FACTS.items()
    if isinstance(fact.field, TextField)
    and fact.field.pattern == ".+"
    and fact.section in ("engine", "cooling", "air_cleaner", "transmission", "lights", "wipers")
)
TEXTS = (
    st.one_of(
        st.text(min_size=1, max_size=40),
        st.text("=+-@'\"\\<>&_x0123456789AF{}%#~?–", min_size=1, max_size=20),  # noqa: RUF001 -- signs of the workbook
    )
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: text and not unseen_character(text) and text.isprintable())
)
VALUES = st.dictionaries(st.sampled_from(FREE), TEXTS, min_size=1, max_size=12)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory, project_root: Path) -> Office:
    folder = tmp_path_factory.mktemp("law") / "fleet"
    shutil.copytree(project_root / "specs", folder / "specs")
    return Office(open_project(folder), b"")


@settings(max_examples=4)
@given(values=VALUES)
def test_any_text_on_record_survives_export_and_import(
    shared: Office, project_root: Path, values: dict[str, str]
) -> None:
    text = (project_root / "specs" / "units" / "T-17.yml").read_text(encoding="utf-8")
    for name, value in values.items():
        text = set_value(text, name, value)
    path = shared.specs / "units" / "T-17.yml"
    path.write_text(text, encoding="utf-8", newline="\n")

    raw = shared.export()

    shown = {cell for rows in seen(raw).values() for row in rows for cell in row}
    assert set(values.values()) <= shown
    plan = shared.take(raw)
    assert plan.lines == ()
    assert plan.newer == ()
    # Saved again by another program, it still says the same.
    assert shared.take(at_desk(raw).save()).lines == ()
    assert path.read_text(encoding="utf-8") == text
