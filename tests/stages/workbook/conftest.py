"""A copy of the specs of some of the demo fleet's trucks, and their workbook."""

import shutil
from pathlib import Path

import pytest
from few_trucks import keep
from spec_office import Office

from guidegen.build.project import open_project
from guidegen.build.workbook_files import export_workbook
from guidegen.finding import Findings


@pytest.fixture
def office(tmp_path: Path, project_root: Path, exported: bytes) -> Office:
    shutil.copytree(project_root / "specs", tmp_path / "fleet" / "specs")
    keep(tmp_path / "fleet")
    return Office(open_project(tmp_path / "fleet"), exported)


@pytest.fixture(scope="session")
def exported(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The workbook of a few of the demo fleet's trucks."""
    fleet = tmp_path_factory.mktemp("exported") / "fleet"
    shutil.copytree(project_root / "specs", fleet / "specs")
    made = export_workbook(open_project(keep(fleet)), Findings())
    assert made is not None
    return made[0]
