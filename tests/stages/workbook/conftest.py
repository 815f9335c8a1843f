"""A copy of the specs of some of the demo fleet's trucks with their models, and their workbook.

The workbook has few empty rows: those that users get are three in four of its cells, and are read
and written as often as it is. `test_workbook_command.py` has all of them.
"""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from few_trucks import keep, keep_models
from spec_office import Office

from guidegen.build.project import open_project
from guidegen.build.workbook_files import export_workbook
from guidegen.finding import Findings
from guidegen.workbook import draw, layout


@contextmanager
def few_empty_rows() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as changed:
        changed.setattr(layout, "NEW_TRUCKS", 3)
        for module in (layout, draw):
            changed.setattr(module, "NEW_MODELS", 2)
        yield


@pytest.fixture(scope="module", autouse=True)
def _few_empty_rows() -> Iterator[None]:
    with few_empty_rows():
        yield


@pytest.fixture
def office(tmp_path: Path, project_root: Path, exported: bytes) -> Office:
    shutil.copytree(project_root / "specs", tmp_path / "fleet" / "specs")
    keep_models(keep(tmp_path / "fleet"))
    return Office(open_project(tmp_path / "fleet"), exported)


@pytest.fixture(scope="session")
def exported(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The workbook of a few of the demo fleet's trucks."""
    fleet = tmp_path_factory.mktemp("exported") / "fleet"
    shutil.copytree(project_root / "specs", fleet / "specs")
    with few_empty_rows():
        made = export_workbook(open_project(keep_models(keep(fleet))), Findings())
    assert made is not None
    return made[0]
