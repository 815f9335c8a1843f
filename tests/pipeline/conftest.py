"""The demo fleet's site, built once by the command line, and copies of its project to change."""

import json
import shutil
from collections.abc import Callable
from dataclasses import asdict
from functools import partial
from pathlib import Path

import pytest
from few_trucks import keep
from made_once import made_once
from run_in_fork import Ran, run_program

Run = Callable[..., Ran]


def run_guidegen(*arguments: str, folder: Path, **environment: str) -> Ran:
    """Run guidegen as a user does, in a process of its own."""
    return run_program(arguments, folder, environment)


@pytest.fixture(scope="session")
def run() -> Run:
    return run_guidegen


def build_in(folder: Path, project: Path, *arguments: str) -> None:
    """Build a copy of *project* in *folder*, and keep what the run left beside it."""
    shutil.copytree(project, folder / "fleet")
    ran = run_guidegen("build", *arguments, folder=folder / "fleet")
    assert ran.code == 0, ran.err
    (folder / "ran.json").write_text(json.dumps(asdict(ran)), encoding="utf-8")


def ran_in(folder: Path) -> Ran:
    return Ran(**json.loads((folder / "ran.json").read_text(encoding="utf-8")))


@pytest.fixture(scope="session")
def seed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project as `guidegen init` makes it; not to be changed."""

    def make(folder: Path) -> None:
        assert run_guidegen("init", str(folder / "fleet"), folder=folder).code == 0

    return made_once(tmp_path_factory, "seed", make) / "fleet"


@pytest.fixture(scope="session")
def demo(seed: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The project with its site built; not to be changed."""
    return made_once(tmp_path_factory, "demo", partial(build_in, project=seed)) / "fleet"


@pytest.fixture(scope="session")
def demo_ran(demo: Path) -> Ran:
    """What the build of the demo left."""
    return ran_in(demo.parent)


@pytest.fixture(scope="session")
def again(seed: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The three trucks, built another time, with the result as JSON; not to be changed."""

    def make(folder: Path) -> None:
        build_in(folder, keep(Path(shutil.copytree(seed, folder / "seed"))), "--format", "json")

    return made_once(tmp_path_factory, "again", make) / "fleet"


@pytest.fixture(scope="session")
def again_ran(again: Path) -> Ran:
    """What that build left."""
    return ran_in(again.parent)


@pytest.fixture(scope="session")
def few_built_once(seed: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two trucks of one model and one of another, with their site; not to be changed."""

    def make(folder: Path) -> None:
        build_in(folder, keep(Path(shutil.copytree(seed, folder / "seed"))))

    return made_once(tmp_path_factory, "few", make) / "fleet"


@pytest.fixture
def few(project: Path) -> Path:
    """The three trucks in a project of one's own, not built."""
    return keep(project)


@pytest.fixture
def few_built(few_built_once: Path, tmp_path: Path) -> Path:
    """The three trucks in a project of one's own, with its site."""
    return Path(shutil.copytree(few_built_once, tmp_path / "fleet"))


@pytest.fixture
def project(seed: Path, tmp_path: Path) -> Path:
    """A project of one's own, not built."""
    return Path(shutil.copytree(seed, tmp_path / "fleet"))


@pytest.fixture
def built(demo: Path, tmp_path: Path) -> Path:
    """A project of one's own, with its site."""
    return Path(shutil.copytree(demo, tmp_path / "fleet"))
