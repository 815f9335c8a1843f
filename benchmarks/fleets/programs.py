"""The programs that are measured, each as one command.

Takes in a fleet or a site; gives out one run of one program: pages, bytes and cost.
Refuses nothing: a program that is not there is left out, and named by whoever asked.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from fleets.away import put_away
from fleets.markdown_pages import write_pages
from fleets.meter import Cost, measure

GUIDEGEN = "guidegen, proof included"
MKDOCS = "plain MkDocs with Material"
ZENSICAL = "Zensical"
HUGO = "Hugo, as much HTML"
HUGO_TEXT = "Hugo, text only"
COPY = "raw copy of the site"

ZENSICAL_PIN = "zensical==0.0.73"

_HUGO_SITE = Path(__file__).parent / "hugo_site"
_COPY = "import shutil, sys; shutil.copytree(sys.argv[1], sys.argv[2])"
_PLAIN_SETTINGS = """\
site_name: plain
theme: {name: material, font: false}
use_directory_urls: false
plugins: [search]
"""


@dataclass(frozen=True, slots=True)
class Run:
    """One run of one program."""

    program: str
    units: int
    editions: int
    workers: int | None
    """None where the program has no such option."""

    pages: int
    size: int
    """Bytes of all pages."""

    cost: Cost

    @property
    def rate(self) -> float:
        """Pages a second."""
        return self.pages / self.cost.seconds

    @property
    def cpu_rate(self) -> float:
        """Pages a second of processor time."""
        return self.pages / self.cost.cpu_seconds


@dataclass(frozen=True, slots=True)
class Fleet:
    """A made fleet."""

    root: Path
    units: int
    editions: int

    @property
    def site(self) -> Path:
        """Where its site is published."""
        return self.root / "site"


def takes_workers() -> bool:
    """Return whether ``guidegen build`` has the option ``--workers``."""
    command = [sys.executable, "-m", "guidegen", "build", "--help"]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    return "--workers" in told


def run_guidegen(fleet: Fleet, workers: int | None) -> Run:
    """Build and prove; cold if there is no site yet."""
    command = [sys.executable, "-m", "guidegen", "build", "--format", "json"]
    if workers is not None:
        command += ["--workers", str(workers)]
    # In the fleet's own folder: it goes with it, and a cold build is cold.
    os.environ["GUIDEGEN_STORE"] = str(fleet.root / ".store")
    cost, output = measure(command, fleet.root)
    pages = int(json.loads(output)["pages"])
    size = sum(path.stat().st_size for path in fleet.site.rglob("*.html"))
    return Run(GUIDEGEN, fleet.units, fleet.editions, workers, pages, size, cost)


def run_copy(fleet: Fleet, folder: Path) -> Run:
    """Copy the finished tree in a process of its own: what the file system itself takes."""
    target = folder / "copy"
    cost, _ = measure([sys.executable, "-c", _COPY, fleet.site, target], folder)
    made = _made(COPY, fleet, fleet.units, target, cost)
    put_away(target)
    return made


def run_mkdocs(fleet: Fleet, folder: Path, units: int) -> Run:
    """Build the pages of the first *units* with MkDocs and Material alone, without any proof."""
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    return _run_plain(MKDOCS, command, fleet, folder, units)


def install_zensical(folder: Path) -> Path | None:
    """Install Zensical into an environment of its own; return the program, if that went well."""
    home = folder / "zensical"
    subprocess.run([sys.executable, "-m", "venv", home], check=True)
    bin_folder = home / ("Scripts" if sys.platform == "win32" else "bin")
    install = [str(bin_folder / "python"), "-m", "pip", "install", "--quiet", ZENSICAL_PIN]
    return bin_folder / "zensical" if not subprocess.run(install, check=False).returncode else None


def run_zensical(program: Path, fleet: Fleet, folder: Path, units: int) -> Run:
    """Build the same pages as MkDocs, from the same settings, with Zensical."""
    return _run_plain(ZENSICAL, [str(program), "build", "--clean"], fleet, folder, units)


def run_hugo(fleet: Fleet, folder: Path, units: int, *, keeps_marks: bool) -> Run:
    """Build the pages of the first *units* with Hugo and a frame like guidegen's."""
    work = folder / "hugo"
    shutil.copytree(_HUGO_SITE, work)
    write_pages(fleet.site, work / "content", units, index="_index.md", keeps_marks=keeps_marks)
    command = ["hugo", "--quiet", "--config", "hugo.toml", "--cacheDir", str(work / "cache")]
    cost, _ = measure(command, work)
    name = HUGO if keeps_marks else HUGO_TEXT
    made = _made(name, fleet, units, work / "public", cost)
    put_away(work)
    return made


def versions() -> dict[str, str]:
    """Return the versions of the programs beside guidegen."""
    told = {
        "MkDocs": version("mkdocs"),
        "Material for MkDocs": version("mkdocs-material"),
        "Zensical": ZENSICAL_PIN.partition("==")[2],
    }
    if shutil.which("hugo"):
        shown = subprocess.run(["hugo", "version"], capture_output=True, text=True, check=True)
        told["Hugo"] = re.findall(r"v([\d.]+)", shown.stdout)[0]
    return told


def _run_plain(name: str, command: list[str], fleet: Fleet, folder: Path, units: int) -> Run:
    work = folder / "plain"
    write_pages(fleet.site, work / "docs", units, index="index.md", keeps_marks=False)
    (work / "mkdocs.yml").write_text(_PLAIN_SETTINGS, encoding="utf-8")
    cost, _ = measure(command, work)
    made = _made(name, fleet, units, work / "site", cost)
    put_away(work)
    return made


def _made(name: str, fleet: Fleet, units: int, site: Path, cost: Cost) -> Run:
    sizes = [path.stat().st_size for path in site.rglob("*.html")]
    editions = min(fleet.editions, units)
    return Run(name, units, editions, None, len(sizes), sum(sizes), cost)
