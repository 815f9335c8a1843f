"""A copy of the demo fleet's specs, and its workbook."""

import shutil
from pathlib import Path

import pytest
from spec_office import Office

from guidegen.build.project import open_project
from guidegen.build.workbook_files import export_workbook
from guidegen.finding import Findings


@pytest.fixture
def office(tmp_path: Path, project_root: Path, exported: bytes) -> Office:
    shutil.copytree(project_root / "specs", tmp_path / "fleet" / "specs")
    return Office(open_project(tmp_path / "fleet"), exported)


@pytest.fixture(scope="session")
def exported(project_root: Path) -> bytes:
    """The demo fleet's workbook."""
    made = export_workbook(open_project(project_root), Findings())
    assert made is not None
    return made[0]
