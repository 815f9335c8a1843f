"""The demo fleet's site, built once by the command line, and copies of its project to change."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest


@dataclass(frozen=True)
class Ran:
    """What a run of the command line left."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


def run_guidegen(*arguments: str, folder: Path, **environment: str) -> Ran:
    """Run guidegen as a user does, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "guidegen", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONWARNINGS": "", **environment},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    return Ran(done.returncode, done.stdout, done.stderr)


@pytest.fixture(scope="session")
def run() -> Run:
    return run_guidegen


@pytest.fixture(scope="session")
def seed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project as `guidegen init` makes it; not to be changed."""
    folder = tmp_path_factory.mktemp("seed") / "fleet"
    assert run_guidegen("init", str(folder), folder=folder.parent).code == 0
    return folder


@pytest.fixture(scope="session")
def demo(seed: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project with its site built; not to be changed."""
    folder = tmp_path_factory.mktemp("demo") / "fleet"
    shutil.copytree(seed, folder)
    built = run_guidegen("build", folder=folder)
    assert built.code == 0, built.err
    return folder


@pytest.fixture
def project(seed: Path, tmp_path: Path) -> Path:
    """A project of one's own, not built."""
    return Path(shutil.copytree(seed, tmp_path / "fleet"))


@pytest.fixture
def built(demo: Path, tmp_path: Path) -> Path:
    """A project of one's own, with its site."""
    return Path(shutil.copytree(demo, tmp_path / "fleet"))
