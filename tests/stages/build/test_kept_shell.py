"""The shell of a site is drawn once for the same settings, pages, theme and fleet."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from guidegen.build.kept_shell import shell_of
from guidegen.build.store import Store
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell

FLEET = FleetView("Bluff County Haulage", (), ())


class Engine:
    """Draws a shell that says how often it was drawn."""

    def __init__(self) -> None:
        self.drawn = 0

    def draw(self) -> Shell:
        self.drawn += 1
        return Shell({"index.html": str(self.drawn).encode()}, {})


@pytest.fixture
def project(tmp_path: Path, project_root: Path) -> Path:
    folder = tmp_path / "project"
    for name in ("docs", "theme"):
        shutil.copytree(project_root / "site_templates" / name, folder / "site_templates" / name)
    shutil.copy(project_root / "mkdocs.yml", folder / "mkdocs.yml")
    return folder


def drawn(project: Path, store: Store, engine: Engine, fleet: FleetView = FLEET) -> Shell:
    theme = project / "site_templates" / "theme"
    return shell_of(project / "mkdocs.yml", theme, fleet, store, engine.draw)


def appended(name: str, text: str) -> Callable[[Path], None]:
    def change(project: Path) -> None:
        path = project / name
        path.write_text(path.read_text(encoding="utf-8") + text, encoding="utf-8")

    return change


def test_the_same_settings_draw_once(project: Path, tmp_path: Path) -> None:
    store, engine = Store(tmp_path / "store", "program"), Engine()

    first, second = (drawn(project, store, engine) for _ in range(2))

    assert engine.drawn == 1
    assert second == first


@pytest.mark.parametrize(
    "change",
    [
        appended("mkdocs.yml", "\n# another look\n"),
        appended("site_templates/docs/safety.md", "\nStop, if in doubt.\n"),
        appended("site_templates/theme/main.html", "\n"),
    ],
)
def test_whatever_goes_in_draws_anew(
    change: Callable[[Path], None], project: Path, tmp_path: Path
) -> None:
    store, engine = Store(tmp_path / "store", "program"), Engine()
    drawn(project, store, engine)
    change(project)

    drawn(project, store, engine)

    assert engine.drawn == 2


def test_another_fleet_draws_anew(project: Path, tmp_path: Path) -> None:
    store, engine = Store(tmp_path / "store", "program"), Engine()
    drawn(project, store, engine)

    drawn(project, store, engine, FleetView("Lea Valley Drayage", (), ()))

    assert engine.drawn == 2


@pytest.mark.parametrize(
    "more", ["hooks: [own.py]\n", "INHERIT: base.yml\n", "site_url: !ENV SITE\n", "nav: [\n"]
)
def test_settings_that_draw_in_anything_else_are_never_kept(
    more: str, project: Path, tmp_path: Path
) -> None:
    appended("mkdocs.yml", f"\n{more}")(project)
    store, engine = Store(tmp_path / "store", "program"), Engine()

    for _ in range(2):
        drawn(project, store, engine)

    assert engine.drawn == 2
