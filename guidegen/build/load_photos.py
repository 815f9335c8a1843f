"""The photos of a fleet, read from its folder.

Takes in a project and what its trucks are; gives out the photos, ready to be shown. Refuses to
follow a link or to read what is no plain file, and to prepare a picture twice that was not
written since.
"""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen.build.fleet_memory import FleetMemory, KnownPicture, now, state_of
from guidegen.build.project import Project
from guidegen.build.store import Store, hash_of
from guidegen.finding import Findings
from guidegen.photos import rules
from guidegen.photos.choose import Known, choose_photos, unlisted
from guidegen.photos.model import NO_PHOTOS, FleetPhotos
from guidegen.photos.no_picture import MOST_BYTES, NoPicture, too_many_bytes
from guidegen.photos.prepare import Prepared, prepare
from guidegen.specs.read import read_photos
from guidegen.units.resolve import FleetSpecs

FOLDER = "photos"
"""In the folder of the specs."""

LIST = "photos.yml"
_LISTS = (LIST, "photos.yaml")

_LINK = NoPicture(
    rules.PHOTO_NOT_A_PLAIN_FILE,
    "is a link or no file",
    "put the picture itself there: copy the file instead of linking to it",
)


def with_photos(
    project: Project, specs: FleetSpecs, known: Known, memory: FleetMemory, findings: Findings
) -> FleetSpecs | None:
    """Return *specs* with the photos of the fleet, or nothing if their list cannot be read.

    Args:
        project: Where its files are.
        specs: What else the files of the fleet state.
        known: What a photo can be of.
        memory: What an earlier run has prepared.
        findings: Takes the faults; those of single photos leave out these photos.
    """
    # A truck whose file has faults has been told of, and is a truck all the same.
    units = {path.stem for _, path in project.spec_paths("units")}
    known = replace(known, units=units | set(known.units))
    photos = _photos(project, known, memory, findings)
    return None if photos is None else replace(specs, photos=photos)


def _photos(
    project: Project, known: Known, memory: FleetMemory, findings: Findings
) -> FleetPhotos | None:
    folder = project.specs / FOLDER
    names = _names_in(folder)
    path = next((folder / name for name in _LISTS if name in names), None)
    if path is None:
        findings.extend(unlisted((), names, project.shown(folder)))
        return NO_PHOTOS
    stated = read_photos(project.shown(path), path.read_bytes(), findings)
    if stated is None:
        return None
    findings.extend(unlisted(stated, names, project.shown(folder)))
    shelf = _Shelf(folder, names, memory)
    photos = choose_photos(stated, names, shelf.prepared, known, findings)
    shelf.keep()
    return photos


def _names_in(folder: Path) -> Mapping[str, bool]:
    """Return what lies in *folder* by name, and whether it is a plain file."""
    if not folder.is_dir():
        return {}
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda each: each.name)
    return {
        each.name: each.is_file(follow_symlinks=False)
        for each in entries
        if not each.name.startswith(".")
    }


@dataclass(frozen=True, slots=True)
class _Shelf:
    """The pictures of one folder."""

    folder: Path
    names: Mapping[str, bool]
    memory: FleetMemory
    read_at: int = field(default_factory=now)
    met: dict[str, KnownPicture] = field(default_factory=dict)
    """By path."""

    def prepared(self, name: str) -> Prepared:
        """Return the picture in the file *name*, as it is published.

        Raises:
            NoPicture: If it is not shown.
        """
        if not self.names[name]:
            raise _LINK
        path = self.folder / name
        state = state_of(path)
        if state[1] > MOST_BYTES:
            raise too_many_bytes(state[1])
        known = self.memory.recall_picture(path.as_posix(), state)
        found = None if known is None else self.stored(known.digest)
        if known is None or found is None:
            raw = path.read_bytes()
            known = KnownPicture(state, self.read_at, hash_of(raw))
            found = self.stored(known.digest) or prepare(raw)
            self.store.put(self.store.key("photo", known.digest), found)
        self.met[path.as_posix()] = known
        self.memory.prepared[known.digest] = found
        return found

    @property
    def store(self) -> Store:
        """Where prepared pictures are kept from run to run."""
        return self.memory.store or Store(None, "")

    def stored(self, digest: str) -> Prepared | None:
        """Return what was made before of the picture with *digest*."""
        known = self.memory.prepared.get(digest)
        if known is None:
            stored = self.store.get(self.store.key("photo", digest))
            known = stored if isinstance(stored, Prepared) else None
        return known

    def keep(self) -> None:
        """Remember the pictures that were looked at, and no others."""
        self.memory.pictures = self.met
        wanted = {each.digest for each in self.met.values()}
        prepared = self.memory.prepared
        self.memory.prepared = {key: prepared[key] for key in wanted}
