"""A fleet that is small enough to be built over and over, and what a build leaves.

Three trucks of the demo, with a library of a few procedures and without cards. What is drawn anew
from nothing is the judge of what is made again.
"""

import hashlib
import shutil
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from few_trucks import keep

from guidegen.build.fleet_memory import FleetMemory, keep_memory, open_memory
from guidegen.build.project import open_project
from guidegen.build.publication import Publication, open_publication
from guidegen.build.release import Approval, plan_release
from guidegen.build.store import Store
from guidegen.build.workers import InLine, Workers
from guidegen.finding import Finding, Findings
from guidegen.mkdocs_plugin import draw_shell
from guidegen.site.shell import Shell

PROCEDURES = frozenset(
    {
        *("park-for-checks", "three-points", "block-heater-unplug", "unit-plate", "tires"),
        *("wheels", "seat", "start-up", "mirrors", "horn", "air-listen", "block-heater"),
        *("amber-lamp", "fire", "high-voltage-water"),
    }
)


_PHOTOS = """photos:
  - file: washer-tank.jpg
    model: drumlin-72
    procedure: tires
    alt: All wheels of this truck from the left.
  - file: battery-switch-T-17.jpg
    units: [E-02]
    procedure: mirrors
    alt: The mirror on the right with its heater.
"""
"""Of what so small a library has."""

_NAMES = Path("fleet"), Path("site")
"""Under which what was found is kept: a copy of fleet, site and store goes on from there."""


@dataclass(frozen=True, slots=True)
class Left:
    """What a build left."""

    files: Mapping[str, bytes]
    found: tuple[str, ...]
    counts: Mapping[str, int]
    published: bool


def make_fleet(project_root: Path, folder: Path) -> Path:
    """Make the fleet in *folder*, and return it."""
    for name in ("specs", "site_templates"):
        shutil.copytree(project_root / name, folder / name)
    shutil.copy(project_root / "mkdocs.yml", folder)
    keep(folder)
    fleet = folder / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    write(fleet, "\n".join([*kept, "trained_on: [T-17]", ""]))
    write(folder / "specs" / "photos" / "photos.yml", _PHOTOS)
    (folder / "specs" / "photos" / "high-voltage-switch.jpg").unlink()
    templates = folder / "site_templates"
    for path in (templates / "procedures").iterdir():
        if path.stem not in PROCEDURES:
            path.unlink()
    write(templates / "procedure-order.yml", _ordered(templates / "procedure-order.yml"))
    # The fleet's own words stand beside procedures that so small a library leaves out.
    shutil.rmtree(folder / "specs" / "own" / "steps")
    swap(folder / "specs" / "own" / "procedures" / "leave-the-yard.yml", "before: ", "# before: ")
    # A law's list would hold a release back for what so small a library leaves out.
    for path in (templates / "coverage").iterdir():
        path.unlink()
    return folder


def _ordered(path: Path) -> str:
    lines = path.read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if line[:4] != "  - " or line[4:] in PROCEDURES]
    follows = [*kept[1:], ""]
    named = [
        line for line, after in zip(kept, follows, strict=True) if "  - " in (line[:4], after[:4])
    ]
    return "\n".join([*named, ""])


def write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")


def swap(path: Path, *texts: str) -> None:
    """Put in the place of the one of *texts* that stands in the file the one after it."""
    text = path.read_text(encoding="utf-8")
    place = next(n for n, each in enumerate(texts) if each in text)
    write(path, text.replace(texts[place], texts[(place + 1) % len(texts)], 1))


@dataclass(slots=True)
class Builder:
    """Builds one fleet, as the command line does it, in this process."""

    root: Path
    workers: Workers = field(default_factory=InLine)
    shells: dict[str, Shell] = field(default_factory=dict)
    """By what the site says of the fleet."""

    clean: dict[str, Left] = field(default_factory=dict)
    """What came of nothing, by what the project holds."""

    @property
    def site(self) -> Path:
        return self.root / "site"

    @property
    def units(self) -> Path:
        return self.root / "specs" / "units"

    @property
    def store(self) -> Store:
        return Store(self.root / "store", "this program")

    def copy(self, folder: Path) -> "Builder":
        """Return the builder of a copy of all this."""
        shutil.copytree(self.root, folder / "fleet", symlinks=True)
        return Builder(folder / "fleet", self.workers, self.shells, self.clean)

    def build(self) -> Left:
        """Build the site with what earlier runs have left."""
        memory = open_memory(self.store, *_NAMES)
        left = self.publish(self.site, memory)
        if left.published:
            keep_memory(memory, self.store, *_NAMES)
        return left

    def build_anew(self) -> Left:
        """Return what is built of nothing."""
        key = _contents_key(self.root)
        if key not in self.clean:
            other = self.root.with_name("anew")
            shutil.rmtree(other, ignore_errors=True)
            self.clean[key] = self.publish(other, FleetMemory(), InLine())
        return self.clean[key]

    def publish(self, target: Path, memory: FleetMemory, workers: Workers | None = None) -> Left:
        publication = open_publication(self.root, memory=memory)
        publication = replace(publication, workers=workers or self.workers)
        outcome = publication.publish(self.shell(publication), target)
        return Left(
            contents(target),
            tuple(map(_told, (*publication.findings, *outcome.findings))),
            outcome.counts,
            outcome.published,
        )

    def shell(self, publication: Publication) -> Shell:
        key = repr(publication.fleet)
        if key not in self.shells:
            config_file = publication.project.config_file
            self.shells[key] = draw_shell(config_file, publication.fleet, publication.theme_dir)
        return self.shells[key]

    def release(self, date: str) -> int:
        """Release what changed, and return how many trucks."""
        project = open_project(self.root)
        planned = plan_release(project, Approval("Imelda Quist", date), Findings())
        assert planned is not None
        if planned.issued:
            drawn = self.root.with_name("released")
            shutil.rmtree(drawn, ignore_errors=True)
            outcome = planned.publication.publish(self.shell(planned.publication), drawn)
            assert outcome.proved
            planned.with_outputs(drawn).write()
        return len(planned.issued)


def contents(folder: Path) -> Mapping[str, bytes]:
    """Return the bytes of all files in *folder*, and what links lead to, by path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b"a link"
        for path in sorted(folder.rglob("*"))
        if path.is_file() or path.is_symlink()
    }


def times(site: Path) -> Mapping[str, tuple[tuple[str, int, int], ...]]:
    """Return of each unit when its files were written and where they are."""
    return {
        pack.parent.name: tuple(
            (path.as_posix(), path.stat().st_mtime_ns, path.stat().st_ino)
            for path in sorted(pack.parent.rglob("*"))
        )
        for pack in sorted(site.glob("*/pack.json"))
    }


def made_again(before: Mapping[str, object], after: Mapping[str, object]) -> Collection[str]:
    """Return the units whose files were written between two times."""
    return {number for number, files in after.items() if before.get(number) != files}


def _told(finding: Finding) -> str:
    return f"{finding.rule.name} {finding.where} {finding.what} {finding.unit}"


def _contents_key(root: Path) -> str:
    digest = hashlib.sha256()
    for name in ("specs", "site_templates", "records"):
        for path, raw in contents(root / name).items():
            digest.update(f"{path}\0{len(raw)}\0".encode() + raw)
    return digest.hexdigest()
