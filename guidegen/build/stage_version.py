"""From a built site to a version beside those that readers see, and away again.

Takes in a site with the list of its files; gives out a copy that was read back whole.
Refuses to remove a file that is not in a version's own list.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.disk import Disk, staged_name
from guidegen.build.manifest import MANIFEST, Manifest, faults_in, files_in, open_manifest
from guidegen.build.progress import Progress, unseen
from guidegen.build.versions import NoVersion, Version, number_in, read_version


class NotWhole(RuntimeError):
    """A copy is not as it must be; the first faults are told."""

    MOST_TOLD = 5


@dataclass(frozen=True, slots=True)
class Shelf:
    """The folder that holds all versions."""

    folder: Path
    disk: Disk

    def versions(self) -> Mapping[int, Version]:
        """Return the versions that were copied whole, by number."""
        found = {}
        for path in sorted(self.folder.glob("*.json")) if self.folder.is_dir() else ():
            try:
                version = read_version(path.read_bytes())
            except NoVersion:
                continue
            if version.name == path.stem:
                found[version.number] = version
        return found

    def names(self) -> tuple[str, ...]:
        """Return the names of all folders and files that belong to a version, whole or not."""
        stems = {path.name.removesuffix(".json") for path in self.folder.iterdir()}
        return tuple(sorted(filter(number_in, stems)))

    def stage(
        self, site: Path, manifest: Manifest, version: Version, progress: Progress = unseen
    ) -> None:
        """Copy *site* as *version*, and read it back.

        The list comes first, so that whatever a cut leaves can be told from what others put there.

        Raises:
            NotWhole: If the copy is not what the list says.
            OSError: If the copy cannot be written.
        """
        folder = self.folder / version.name
        self.disk.make_folder((folder / MANIFEST).parent)
        self.disk.put(folder / MANIFEST, manifest.raw)
        made = {folder / "office"}
        for name in progress(sorted(manifest.hashes), len(manifest.hashes), "copying"):
            path = folder / name
            if path.parent not in made:
                self.disk.make_folder(path.parent)
                made.add(path.parent)
            self.disk.write(path, (site / name).read_bytes())
        self.check(version)
        self.disk.settle_all()
        self.disk.put(self._told(version.name), version.as_bytes())

    def check(self, version: Version) -> None:
        """Read *version* back.

        Raises:
            NotWhole: If it is not as it was copied.
        """
        folder = self.folder / version.name
        manifest = open_manifest(folder)
        if manifest is None or manifest.digest != version.digest:
            raise NotWhole(f"the list of the files of `{folder.as_posix()}` is another")
        faults = list(faults_in(folder, manifest))
        if faults:
            more = len(faults) - NotWhole.MOST_TOLD
            told = ", ".join(faults[: NotWhole.MOST_TOLD]) + (f" and {more} more" * (more > 0))
            raise NotWhole(f"in `{folder.as_posix()}`, {told}")

    def is_whole(self, version: Version) -> bool:
        """Say whether *version* is as it was copied."""
        try:
            self.check(version)
        except NotWhole:
            return False
        return True

    def remove(self, name: str) -> str:
        """Remove the version *name*, whole or half, and say what is left of it; empty if nothing.

        What is told of it goes first: what has lost that is half removed, and the next run goes on.
        """
        folder = self.folder / name
        try:
            for path in (self._told(name), staged_name(self._told(name))):
                self._remove_file(path)
            return self._emptied(folder) if folder.is_dir() else ""
        except OSError as fault:
            return f"`{folder.as_posix()}` cannot be removed now: {fault.strerror}"

    def _emptied(self, folder: Path) -> str:
        """Remove all that the list names, the list last, and say what is left."""
        listing = folder / MANIFEST
        manifest = open_manifest(folder)
        for name in manifest.hashes if manifest else ():
            self._remove_file(folder / name)
        own = (listing, staged_name(listing))
        strangers = {folder / name for name in files_in(folder)} - {*own}
        if strangers:
            return f"`{min(strangers).as_posix()}` was not put there by `guidegen publish`"
        folders = [path for path in folder.rglob("*") if path.is_dir() and path != listing.parent]
        for path in sorted(folders, key=lambda each: -len(each.parts)):
            self.disk.remove_folder(path)
        for path in reversed(own):
            self._remove_file(path)
        if listing.parent.is_dir():
            self.disk.remove_folder(listing.parent)
        self.disk.remove_folder(folder)
        return ""

    def _remove_file(self, path: Path) -> None:
        if path.is_file() or path.is_symlink():
            self.disk.remove(path)

    def _told(self, name: str) -> Path:
        return self.folder / f"{name}.json"
