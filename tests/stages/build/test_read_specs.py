"""Files of a fleet of which one has a fault, and what is told of the others."""

import shutil
from pathlib import Path

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings


def test_a_model_file_with_a_fault_is_not_said_to_be_missing(
    project_root: Path, tmp_path: Path
) -> None:
    shutil.copytree(project_root / "specs", tmp_path / "specs")
    model = tmp_path / "specs" / "models" / "drumlin-72.yml"
    text = model.read_text(encoding="utf-8")
    assert "cut_out: 130 psi" in text
    model.write_text(text.replace("cut_out: 130 psi", "cut_out: 130", 1), encoding="utf-8")

    findings = Findings()
    loaded = load_fleet(open_project(tmp_path), findings)

    assert loaded is not None
    assert not {"T-17", "T-18"} & set(loaded.guides)
    assert len(loaded.guides) == 6
    assert [(each.rule.name, each.unit) for each in findings] == [
        ("quantity-without-measure", ""),
        ("unknown-model", "T-17"),
        ("unknown-model", "T-18"),
    ]
    for each in list(findings)[1:]:
        assert "has faults" in each.what
        assert "specs/models/drumlin-72.yml" in each.fix
