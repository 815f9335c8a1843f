import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from few_trucks import keep


@pytest.fixture(scope="module")
def installed(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel's content, as an installer lays it down, far from the repository."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=project_root,
        check=True,
        capture_output=True,
    )
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site-packages")
    return folder / "site-packages"


def test_the_wheel_carries_templates_and_the_demo_fleet(installed: Path) -> None:
    bundled = installed / "guidegen" / "_bundled"

    assert (bundled / "site_templates" / "procedures" / "tires.yml").is_file()
    assert (bundled / "specs" / "fleet.yml").is_file()
    assert (installed / "guidegen" / "py.typed").is_file()


def test_the_wheel_alone_starts_and_builds_a_fleet(installed: Path, tmp_path: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": str(installed), "PYTHONWARNINGS": ""}

    def run(*arguments: str, folder: Path) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "-m", "guidegen", *arguments]
        return subprocess.run(
            command, cwd=folder, env=environment, capture_output=True, text=True, check=False
        )

    started = run("init", "demo", folder=tmp_path)
    assert started.returncode == 0, started.stderr
    where = "import guidegen; print(guidegen.__file__)"
    imported = subprocess.run(
        [sys.executable, "-c", where],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    assert imported.stdout.startswith(str(installed))
    built = run("build", folder=keep(tmp_path / "demo", ("T-17",)))
    assert built.returncode == 0, built.stderr
    assert (tmp_path / "demo" / "site" / "T-17" / "index.html").is_file()
