"""Choosing the cord of a block heater: by a table where it can be worked out, else by the shop."""

import shutil
from pathlib import Path

import pytest

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Caution, Guide, Procedure, Step

TABLE_STEPS = ["gauge", "between", "thicker", "too-long", "nearer"]


def guide_without(lines: tuple[str, ...], project_root: Path, folder: Path) -> Guide:
    """Return the guide of K-22, whose model file states a heater, without some lines of it."""
    for name in ("specs", "site_templates"):
        shutil.copytree(project_root / name, folder / name)
    path = folder / "specs" / "models" / "creamer-35.yml"
    text = path.read_text(encoding="utf-8")
    for line in lines:
        assert text.count(line) == 1
        text = text.replace(line, "")
    path.write_text(text, encoding="utf-8")
    findings = Findings()
    loaded = load_fleet(open_project(folder), findings)
    assert [finding.what for finding in findings] == []
    assert loaded is not None
    return loaded.guides["K-22"]


def cord_procedure(guide: Guide) -> Procedure:
    (found,) = (
        procedure
        for chapter in guide.chapters
        for procedure in chapter.procedures
        if procedure.id == "heater-cord"
    )
    return found


def ids(procedure: Procedure, kind: type[Step] | type[Caution]) -> list[str]:
    return [each.id.rsplit(".", 1)[-1] for each in procedure.blocks if isinstance(each, kind)]


def test_a_truck_with_watts_and_volts_gets_the_table(project_root: Path, tmp_path: Path) -> None:
    procedure = cord_procedure(guide_without((), project_root, tmp_path))

    assert procedure.figure == "cord_table"
    assert [step for step in ids(procedure, Step) if step in TABLE_STEPS] == TABLE_STEPS
    assert "shop-cord" not in ids(procedure, Step)


@pytest.mark.parametrize(
    "lines",
    [
        ("  power: 900 W\n",),
        ("  voltage: 120 V\n  power: 900 W\n",),
        ("  voltage: 120 V\n",),
    ],
    ids=["no watts", "neither", "no volts"],
)
def test_a_truck_without_watts_or_volts_keeps_to_the_cord_of_the_shop(
    lines: tuple[str, ...], project_root: Path, tmp_path: Path
) -> None:
    procedure = cord_procedure(guide_without(lines, project_root, tmp_path))

    assert procedure.figure is None
    assert set(ids(procedure, Step)).isdisjoint(TABLE_STEPS)
    assert "shop-cord" in ids(procedure, Step)
    # What a thin cord does is said on every truck, table or not.
    assert ids(procedure, Caution) == ["thin-cord", "shock"]
