"""What a worker on another machine needs of a project's files.

Takes in a project; gives out the files that pages and cards are drawn with, as bytes, and on the
other machine a project that holds them. Refuses to send specs of trucks: those travel read.
"""

import threading
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

from guidegen.build.print_shop import CARDS_FILE, PAPER_FOLDER, THEME_FILE, paper_folder
from guidegen.build.project import Project
from guidegen.build.scratch import scratch_folder
from guidegen.build.store import hash_of
from guidegen.finding import Findings
from guidegen.specs.read import read_theme

_TEMPLATES = "site_templates"
_SPECS = "specs"


class CannotTravel(ValueError):
    """A file of the project has no place in a parcel; the message says which, and what to do."""


@dataclass(frozen=True, slots=True)
class Parcel:
    """Files of a project."""

    files: Mapping[str, bytes] = field(repr=False)
    """By path from the root of the project in which they are unpacked."""

    digest: str

    @classmethod
    def of(cls, project: Project) -> "Parcel":
        """Return what pages and cards of *project* are drawn with.

        Raises:
            CannotTravel: If the logo lies outside the folder of the theme.
        """
        files = dict(_files_of(project))
        parts = (part for path in sorted(files) for part in (path, files[path]))
        return cls(files, hash_of(*parts))

    def unpacked(self) -> Project:
        """Return a project of these files; a process unpacks each parcel once."""
        with _UNPACKING:
            if self.digest not in _unpacked:
                _unpacked[self.digest] = scratch_folder()
                root = Path(_unpacked[self.digest].name)
                for name, raw in self.files.items():
                    path = root / name
                    path.parent.mkdir(parents=True, exist_ok=True)
                    path.write_bytes(raw)
            root = Path(_unpacked[self.digest].name)
        return Project(root, root / _TEMPLATES)


NOWHERE = Project(Path(), Path())
"""In place of a project whose files travel in a parcel: its paths mean nothing elsewhere."""

_UNPACKING = threading.Lock()
_unpacked: dict[str, "TemporaryDirectory[str]"] = {}
"""By digest; each folder goes when the process ends."""


def _files_of(project: Project) -> Iterator[tuple[str, bytes]]:
    yield from _folder(project.templates / "pages", f"{_TEMPLATES}/pages")
    yield from _folder(paper_folder(project), f"{_TEMPLATES}/{PAPER_FOLDER}")
    yield f"{_TEMPLATES}/{CARDS_FILE}", project.template(CARDS_FILE).read_bytes()
    # A theme that comes with the templates lies in their folder of printed matter.
    theme = project.template(f"{PAPER_FOLDER}/{THEME_FILE}")
    if theme.is_file():
        yield f"{_TEMPLATES}/{PAPER_FOLDER}/{THEME_FILE}", theme.read_bytes()
    own = project.specs / THEME_FILE
    if own.is_file():
        yield f"{_SPECS}/{THEME_FILE}", own.read_bytes()
        yield from _logo_beside(own)


def _logo_beside(theme: Path) -> Iterator[tuple[str, bytes]]:
    read = read_theme(theme.name, theme.read_bytes(), Findings())
    if read is None or read.logo is None:
        return
    name = str(read.logo.file.value)
    path = PurePosixPath(name)
    if path.is_absolute() or ".." in path.parts or Path(name).is_absolute():
        raise CannotTravel(
            f"the logo `{name}` lies outside `specs`, and workers elsewhere do not see it: move "
            "it beside `specs/theme.yml`"
        )
    logo = theme.parent / name
    if logo.is_file():
        yield f"{_SPECS}/{name}", logo.read_bytes()


def _folder(folder: Path, name: str) -> Iterator[tuple[str, bytes]]:
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            yield f"{name}/{path.relative_to(folder).as_posix()}", path.read_bytes()
