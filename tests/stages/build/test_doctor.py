"""What is wrong with machine and project is told, with what to do, and nothing is changed."""

from pathlib import Path

from guidegen.build.doctor import Examined, Health, examine
from guidegen.build.project import open_project
from guidegen.build.start import start_project
from guidegen.build.store import Store
from guidegen.build.switch import staging_folder
from guidegen.finding import Findings


def looked_at(root: Path, store: Store) -> dict[str, Examined]:
    return {each.name: each for each in examine(open_project(root), store)}


def project_in(tmp_path: Path) -> Path:
    root = tmp_path / "fleet"
    assert start_project(root, Findings())
    return root


def test_a_new_project_is_well_and_has_no_site_yet(tmp_path: Path) -> None:
    found = looked_at(project_in(tmp_path), Store(tmp_path / "store", "program"))

    assert {name for name, each in found.items() if each.health is not Health.GOOD} == {"site"}
    assert "guidegen build" in found["site"].fix
    assert found["specs"].found == "8 unit files, 7 model files"


def test_whatever_is_missing_is_told_with_what_to_do(tmp_path: Path) -> None:
    found = looked_at(tmp_path, Store(tmp_path / "store", "program"))

    assert found["settings"].health is Health.BAD
    assert found["specs"].health is Health.BAD
    assert all(each.fix for each in found.values() if each.health is not Health.GOOD)


def test_settings_without_the_plugin_are_told(tmp_path: Path) -> None:
    root = project_in(tmp_path)
    (root / "mkdocs.yml").write_text("site_name: Trucks\n", encoding="utf-8")

    found = looked_at(root, Store(None, "program"))

    assert found["settings"].found == "`mkdocs.yml` does not name the plugin"


def test_a_run_that_was_cut_short_is_told(tmp_path: Path) -> None:
    root = project_in(tmp_path)
    staging_folder(root / "site").mkdir()

    assert ".site.building" in looked_at(root, Store(None, "program"))["site"].found


def test_a_store_that_cannot_be_written_to_is_no_disaster(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder", encoding="utf-8")

    found = looked_at(project_in(tmp_path), Store(tmp_path / "file" / "store", "program"))

    assert found["store"].health is Health.DOUBTFUL
    assert "GUIDEGEN_STORE" in found["store"].fix
