"""The folders of one fleet's project.

Takes in the project's root; gives out its files, by path as people read it.
Refuses nothing: what is missing is reported by whoever needs it.
"""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.bundled import bundled_folder
from guidegen.build.spec_journal import finish_or_stop

SPEC_ENDINGS = (".yml", ".yaml")
MARKDOWN_ENDINGS = (".md",)


@dataclass(frozen=True, slots=True)
class Project:
    """Where a fleet keeps its specs, and where templates are taken from."""

    root: Path
    templates: Path
    """The folder ``site_templates``: the project's own if it has one, else the bundled one."""

    @property
    def specs(self) -> Path:
        """The folder of the fleet's specs."""
        return self.root / "specs"

    @property
    def records(self) -> Path:
        """The folder of what was released; not there before the first release."""
        return self.root / "records"

    @property
    def config_file(self) -> Path:
        """The site's settings."""
        return self.root / "mkdocs.yml"

    @property
    def watched(self) -> tuple[Path, ...]:
        """Folders whose files make the guides."""
        released = (self.records,) if self.records.is_dir() else ()
        return (self.specs, self.templates, *released)

    def spec_files(
        self, folder: str, endings: tuple[str, ...] = SPEC_ENDINGS
    ) -> Iterator[tuple[str, bytes]]:
        """Yield path and bytes of each file in a folder of the specs, sorted by name."""
        yield from self._files(self.specs / folder, endings)

    def spec_paths(self, folder: str) -> Iterator[tuple[str, Path]]:
        """Yield each spec file in a folder of the specs as people read it and where it is."""
        yield from self._paths(self.specs / folder)

    def template_files(self, folder: str) -> Iterator[tuple[str, bytes]]:
        """Yield path and bytes of each YAML file in a folder of the templates, sorted by name.

        Of a folder that the project's own templates do not have, the bundled files.
        """
        own = self.templates / folder
        yield from self._files(own if own.is_dir() else self._bundled_templates / folder)

    def template(self, name: str) -> Path:
        """Return the path of one file of the templates; the bundled one if the project has none."""
        own = self.templates / name
        return own if own.is_file() else self._bundled_templates / name

    def shown(self, path: Path) -> str:
        """Return *path* as findings show it: relative to the project where it can be."""
        for base in (self.root, self.templates.parent):
            if path.is_relative_to(base):
                return path.relative_to(base).as_posix()
        return path.as_posix()

    @property
    def _bundled_templates(self) -> Path:
        return bundled_folder() / "site_templates"

    def _files(
        self, folder: Path, endings: tuple[str, ...] = SPEC_ENDINGS
    ) -> Iterator[tuple[str, bytes]]:
        for name, path in self._paths(folder, endings):
            yield name, path.read_bytes()

    def _paths(
        self, folder: Path, endings: tuple[str, ...] = SPEC_ENDINGS
    ) -> Iterator[tuple[str, Path]]:
        if not folder.is_dir():
            return
        with os.scandir(folder) as found:
            entries = sorted(found, key=lambda each: each.name)
        shown = self.shown(folder)
        for entry in entries:
            if entry.name.endswith(endings) and entry.is_file():
                yield f"{shown}/{entry.name}", folder / entry.name


def open_project(root: Path) -> Project:
    """Return the project at *root*; its own ``site_templates`` go before the bundled ones.

    An import that was cut short is finished first.

    Raises:
        FaultyInput: If it cannot be finished: specs that are half changed are not read.
    """
    root = root.resolve()
    finish_or_stop(root)
    own = root / "site_templates"
    templates = own if (own / "procedures").is_dir() else bundled_folder() / "site_templates"
    return Project(root, templates)
