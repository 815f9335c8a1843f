import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from few_trucks import keep
from playwright.sync_api import Browser, expect

from guidegen.build.bundled import bundled_folder

PATIENCE = 300
"""Seconds; a page takes less than one, and a loaded machine many times that."""

PAGE = "T-17/air-brakes.html"
PREVIEW = "This page was proved alone"
BAR = re.compile(r'<link rel="stylesheet" href="/guidegen-serve.*?</script>', re.DOTALL)
COMPARED = (PAGE, "T-17/from-T-18.html", "T-17/differences.html", "T-17/quiz.html", "index.html")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Served:
    def __init__(
        self, folder: Path, port: int, told: Path, process: subprocess.Popen[bytes]
    ) -> None:
        self.folder, self.told, self.process = folder, told, process
        self.address = f"http://127.0.0.1:{port}"

    def read(self, path: str) -> str:
        # The address is the test's own.
        with urllib.request.urlopen(f"{self.address}/{path}", timeout=60) as answer:  # noqa: S310
            return str(answer.read().decode()).replace("\u00a0", " ")

    def holds(self, path: str, words: str) -> bool:
        """Wait until the page holds *words*, or say no."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                if words in self.read(path):
                    return True
            except (urllib.error.URLError, ConnectionError, TimeoutError):
                pass
            time.sleep(0.1)
        return False

    def says(self, words: str) -> bool:
        """Wait until *words* are printed, or say no."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            if words in self.told.read_text(encoding="utf-8"):
                return True
            time.sleep(0.1)
        return False

    def save(self, file: str, old: str, new: str) -> None:
        path = self.folder / file
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")


@contextmanager
def serving(folder: Path, told: Path, **environment: str) -> Iterator[Served]:
    port = free_port()
    with told.open("wb") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "guidegen", "serve", "--address", f"127.0.0.1:{port}"],
            cwd=folder,
            env={**os.environ, "PYTHONWARNINGS": "", "NO_COLOR": "1", **environment},
            stdout=out,
            stderr=subprocess.STDOUT,
        )
    try:
        yield Served(folder, port, told, process)
    finally:
        process.terminate()
        process.wait(timeout=PATIENCE)


@pytest.fixture
def served(few: Path, tmp_path: Path) -> Iterator[Served]:
    with serving(few, tmp_path / "told.txt") as one:
        yield one


@pytest.fixture
def served_with_library(few: Path, tmp_path: Path) -> Iterator[Served]:
    """Of a project with procedures of its own."""
    shutil.copytree(bundled_folder() / "site_templates", few / "site_templates")
    with serving(few, tmp_path / "told.txt") as one:
        yield one


Untouched = tuple[Served, dict[str, str]]
"""A fleet in which nothing is edited, and pages as they were before the whole was proved."""


@pytest.fixture(scope="module")
def untouched(
    few_built_once: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Untouched]:
    with serving(few_built_once, tmp_path_factory.mktemp("served") / "told.txt") as one:
        assert one.holds(PAGE, PREVIEW)
        preview = {path: one.read(path) for path in COMPARED}
        assert one.says("3 trucks: proved as a whole")
        yield one, preview


def files_of(folder: Path) -> dict[str, bytes]:
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def test_a_saved_spec_is_shown_without_starting_again(served: Served) -> None:
    assert served.holds(PAGE, "130 psi")

    served.save("specs/models/drumlin-72.yml", "cut_out: 130 psi", "cut_out: 128 psi")

    assert served.holds(PAGE, "128 psi")
    assert "130 psi" not in served.read(PAGE)


def test_a_saved_procedure_is_shown_on_every_truck_that_has_it(
    served_with_library: Served,
) -> None:
    served = served_with_library
    assert served.holds(PAGE, "Build up the air pressure")

    file = "site_templates/procedures/air-build-up.yml"
    served.save(file, "title: Build up the air pressure", "title: Build up the air")

    assert served.holds(PAGE, ">Build up the air<")
    assert served.holds("T-18/air-brakes.html", ">Build up the air<")


def test_a_page_is_a_preview_until_the_whole_site_is_proved(untouched: Untouched) -> None:
    served, preview = untouched

    assert all(PREVIEW in page for page in preview.values())
    for path in preview:
        page = served.read(path)
        assert PREVIEW not in page
        assert re.search(r'id="guidegen-serve"[^>]* hidden>', page)
    # Cards are printed with the whole only.
    assert served.holds("T-17/index.html", ".pdf")


def test_a_page_of_the_whole_is_the_page_of_the_preview(untouched: Untouched) -> None:
    served, preview = untouched

    for path, page in preview.items():
        assert BAR.sub("", served.read(path)) == BAR.sub("", page)


def test_a_truck_cannot_be_saved_from_a_preview(untouched: Untouched) -> None:
    with pytest.raises(urllib.error.HTTPError, match="404"):
        untouched[0].read("sw.js")


@pytest.mark.parametrize(
    "path", ["../store", "..%2f..%2fetc/passwd", "T-17/../../store", "%2fetc%2fpasswd"]
)
def test_no_file_outside_the_site_is_given_out(path: str, untouched: Untouched) -> None:
    with pytest.raises(urllib.error.HTTPError, match="404"):
        untouched[0].read(path)


def test_a_fault_leaves_the_last_page_and_is_told(served: Served) -> None:
    assert served.holds(PAGE, "130 psi")

    served.save("specs/models/drumlin-72.yml", "cut_out: 130 psi", "cut_out: 130 furlongs")

    assert served.holds(PAGE, "Not up to date")
    page = served.read(PAGE)
    assert "130 psi" in page
    assert "specs/models/drumlin-72.yml:" in page
    assert served.says("specs/models/drumlin-72.yml")

    served.save("specs/models/drumlin-72.yml", "130 furlongs", "127 psi")
    assert served.holds(PAGE, "127 psi")
    assert "Not up to date" not in served.read(PAGE)


def test_a_fault_of_a_procedure_leaves_all_pages_as_they_were(
    served_with_library: Served,
) -> None:
    served = served_with_library
    assert served.holds(PAGE, "Build up the air pressure")

    file = "site_templates/procedures/air-build-up.yml"
    served.save(file, "chapter: air-brakes", "chapter: no-such-chapter")

    assert served.holds(PAGE, "no-such-chapter")
    assert "Build up the air pressure" in served.read(PAGE)


def test_nothing_is_written_into_the_project(few_built: Path, tmp_path: Path) -> None:
    # The whole is proved twice; of one truck it writes what it writes of three.
    keep(few_built, ("T-17",))
    with serving(few_built, tmp_path / "told.txt") as served:
        assert served.says("proved as a whole")
        before = files_of(few_built)
        served.save("specs/models/drumlin-72.yml", "cut_out: 130 psi", "cut_out: 128 psi")
        assert served.holds(PAGE, "128 psi")
        served.told.write_text("", encoding="utf-8")
        assert served.says("proved as a whole")
        after = files_of(few_built)

    assert after.pop("specs/models/drumlin-72.yml") != before.pop("specs/models/drumlin-72.yml")
    assert after == before
    assert any(path.startswith("site/") for path in before)


@pytest.mark.skipif(os.name == "nt", reason="Windows ends a process without asking it")
def test_nothing_is_left_when_it_is_ended(few: Path, tmp_path: Path) -> None:
    told, work = tmp_path / "told.txt", tmp_path / "work"
    work.mkdir()
    with serving(few, told, TMPDIR=str(work)) as served:
        assert served.says("3 trucks can be shown")
        assert any(work.iterdir())
        served.process.terminate()
        assert served.process.wait(timeout=PATIENCE) == 0
    assert not any(work.iterdir())


def test_the_open_page_is_loaded_again_when_it_changes(served: Served, browser: Browser) -> None:
    assert served.holds(PAGE, "130 psi")
    page = browser.new_page()
    page.goto(f"{served.address}/{PAGE}")
    expect(page.locator("main")).to_contain_text("130\u00a0psi")

    served.save("specs/models/drumlin-72.yml", "cut_out: 130 psi", "cut_out: 128 psi")

    expect(page.locator("main")).to_contain_text("128\u00a0psi", timeout=PATIENCE * 1000)
    expect(page.locator("#guidegen-serve")).to_be_hidden(timeout=PATIENCE * 1000)
    page.close()
