"""Whether every test is run: pytest passes over folders by their names, and says nothing."""

from fnmatch import fnmatch
from pathlib import Path

import pytest


def test_no_folder_of_tests_is_passed_over(project_root: Path, pytestconfig: pytest.Config) -> None:
    passed_over = pytestconfig.getini("norecursedirs")
    tests = project_root / "tests"
    folders = {
        parent.relative_to(project_root)
        for path in tests.rglob("test_*.py")
        for parent in path.parents
        if parent.is_relative_to(tests)
    }

    assert Path("tests/stages/build") in folders
    assert [f for f in folders if any(fnmatch(f.name, each) for each in passed_over)] == []
