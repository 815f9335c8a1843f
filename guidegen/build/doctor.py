"""Whether this machine and this project can do the work.

Takes in a project's folder and the program; gives out what was looked at, each with a verdict in
plain words. Refuses to change anything: what is wrong is told with what to do.
"""

import enum
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

from guidegen.build.patch import plan_file
from guidegen.build.project import Project
from guidegen.build.store import Store
from guidegen.build.switch import old_folder, staging_folder

OLDEST_PYTHON = (3, 11)
_NEEDED = (
    *("jinja2", "mkdocs", "mkdocs-material", "pydantic", "pyyaml", "selectolax", "tinycss2"),
    *("typst", "fonttools", "pikepdf", "pillow", "pypdfium2", "segno", "zxing-cpp"),
    "fontpkg-atkinson-hyperlegible",
)
_LEAST_FREE = 2**30
"""Bytes: a thousand units take about as much. Measured on the demo fleet."""


class Health(enum.Enum):
    """How one thing stands."""

    GOOD = "good"
    DOUBTFUL = "look at it"
    BAD = "mend it"


@dataclass(frozen=True, slots=True)
class Examined:
    """One thing that was looked at."""

    name: str
    health: Health
    found: str
    fix: str = ""


def examine(project: Project, store: Store) -> tuple[Examined, ...]:
    """Return how machine and project stand.

    Args:
        project: The fleet's project.
        store: Where what was made is kept.
    """
    looks: tuple[Callable[[], Iterator[Examined]], ...] = (
        _python,
        _libraries,
        lambda: _settings(project),
        lambda: _specs(project),
        lambda: _room(project),
        lambda: _can_write(project),
        lambda: _leftovers(project),
        lambda: _store(store),
    )
    return tuple(found for look in looks for found in look())


def _python() -> Iterator[Examined]:
    version = ".".join(map(str, sys.version_info[:3]))
    if sys.version_info[:2] < OLDEST_PYTHON:
        wanted = ".".join(map(str, OLDEST_PYTHON))
        yield Examined("Python", Health.BAD, version, f"install Python {wanted} or newer")
    else:
        yield Examined("Python", Health.GOOD, version)


def _libraries() -> Iterator[Examined]:
    missing = [name for name in _NEEDED if not _is_installed(name)]
    fix = "install guidegen again: `pip install --force-reinstall guidegen`"
    if missing:
        yield Examined("libraries", Health.BAD, f"missing: {', '.join(missing)}", fix)
        return
    yield Examined("libraries", Health.GOOD, f"all {len(_NEEDED)} are there")
    plugins = metadata.entry_points(group="mkdocs.plugins")
    if "guidegen" not in plugins.names:
        yield Examined("MkDocs plugin", Health.BAD, "MkDocs does not find it", fix)


def _is_installed(name: str) -> bool:
    try:
        metadata.version(name)
    except metadata.PackageNotFoundError:
        return False
    return True


def _settings(project: Project) -> Iterator[Examined]:
    name = project.shown(project.config_file)
    if not project.config_file.is_file():
        fix = "run guidegen in the folder of your fleet, or start one: `guidegen init my-fleet`"
        yield Examined("settings", Health.BAD, f"there is no `{name}`", fix)
    elif "guidegen" not in project.config_file.read_text(encoding="utf-8", errors="replace"):
        fix = "add `guidegen` to its `plugins`"
        yield Examined("settings", Health.BAD, f"`{name}` does not name the plugin", fix)
    else:
        yield Examined("settings", Health.GOOD, f"`{name}`")


def _specs(project: Project) -> Iterator[Examined]:
    counts = {kind: len(list(project.spec_files(kind))) for kind in ("units", "models")}
    found = f"{counts['units']:,} unit files, {counts['models']:,} model files"
    if not (project.specs / "fleet.yml").is_file():
        fix = "write it, or start from the demo fleet: `guidegen init my-fleet`"
        yield Examined("specs", Health.BAD, "there is no `specs/fleet.yml`", fix)
    elif not counts["units"]:
        yield Examined("specs", Health.BAD, found, "write one file for each truck in `specs/units`")
    else:
        yield Examined("specs", Health.GOOD, found)


def _room(project: Project) -> Iterator[Examined]:
    free = shutil.disk_usage(project.root if project.root.is_dir() else Path.cwd()).free
    found = f"{free / 2**30:,.1f} GB are free"
    if free < _LEAST_FREE:
        fix = "make room: a thousand units take about a gigabyte, twice while they are made"
        yield Examined("disk", Health.DOUBTFUL, found, fix)
    else:
        yield Examined("disk", Health.GOOD, found)


def _can_write(project: Project) -> Iterator[Examined]:
    try:
        with tempfile.TemporaryFile(dir=project.root):
            pass
    except OSError as error:
        fix = "let whoever runs guidegen write there, or build elsewhere: `--site FOLDER`"
        found = f"the project's folder cannot be written to ({error.strerror})"
        yield Examined("folder", Health.BAD, found, fix)
    else:
        yield Examined("folder", Health.GOOD, "the project's folder can be written to")


def _leftovers(project: Project) -> Iterator[Examined]:
    target = project.root / "site"
    left = [
        path.name
        for path in (staging_folder(target), old_folder(target), plan_file(target))
        if path.exists()
    ]
    if left:
        fix = "if no guidegen is running, run `guidegen build`: it finishes or undoes what is left"
        found = f"a run was cut short or is under way: {', '.join(left)}"
        yield Examined("site", Health.DOUBTFUL, found, fix)
    elif (target / "office" / "proof.json").is_file():
        yield Examined("site", Health.GOOD, "a proved site stands in `site`")
    else:
        yield Examined("site", Health.DOUBTFUL, "there is none yet", "run `guidegen build`")


def _store(store: Store) -> Iterator[Examined]:
    if store.folder is None:
        yield Examined("store", Health.GOOD, "none is kept")
        return
    key = store.key("doctor", "can this be kept")
    store.put(key, "it can")
    is_kept = store.get(key) == "it can"
    store.drop(key)
    where = store.folder.as_posix()
    if is_kept:
        yield Examined("store", Health.GOOD, f"{where} keeps what was made")
    else:
        fix = "name a folder that can be written to in GUIDEGEN_STORE; until then all is made anew"
        yield Examined("store", Health.DOUBTFUL, f"{where} cannot be written to", fix)
