"""Where readers see a site, and how one version takes the place of another.

Takes in the path that readers know; gives out which version stands there, and shows another in one
move. Refuses a place where something stands that was not put there by publishing.
"""

import re
import sys
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Protocol

from guidegen.build.disk import DISK, Disk, staged_name
from guidegen.build.versions import number_in

ABOUT = "README.txt"
LOCK = "publishing.lock"
_ABOUT_TEXT = b"""\
Made by `guidegen publish`: one folder a version, and beside it a file that says when it was
published. Change nothing here: go back with `guidegen publish --rollback TARGET`.
"""
_CURRENT = "current.txt"
_START = "index.html"
_VERSIONS = "versions"
_LEADS_TO = re.compile(rf"{_VERSIONS}/([0-9a-f-]+)/index\.html")

_PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="refresh" content="0; url={0}">
<title>Guides</title>
</head>
<body>
<p><a href="{0}">Open the guides</a></p>
</body>
</html>
"""


class Unable(RuntimeError):
    """This system or share cannot switch in the way that was asked for."""


class Target(Protocol):
    """The place that readers know."""

    @property
    def path(self) -> Path:
        """What readers open."""

    @property
    def versions(self) -> Path:
        """The folder that holds all versions."""

    def in_the_way(self) -> str:
        """Say what stands there that publishing did not put there, and a cure; empty if nothing."""

    def current(self) -> str:
        """Return the name of the version that is shown; empty if none ever was."""

    def prepare(self) -> None:
        """Clear up after a run that was cut short, and see that a switch is possible.

        Raises:
            Unable: If it is not.
            OSError: If the place cannot be written to.
        """

    def show(self, name: str) -> None:
        """Show the version *name* from now on.

        Raises:
            OSError: If that cannot be; readers then see what they saw before.
        """


@dataclass(frozen=True, slots=True)
class LinkTarget:
    """A symbolic link to the version that is shown, which one rename replaces."""

    path: Path
    disk: Disk = DISK

    @property
    def versions(self) -> Path:
        """The folder that holds all versions: beside what readers see."""
        return self.path.with_name(f".{self.path.name}.versions")

    def in_the_way(self) -> str:
        """Say what stands there that publishing did not put there, and a cure; empty if nothing."""
        shown = self.path.as_posix()
        if self.path.is_symlink():
            if self.current():
                return _strangers(self.versions)
            return f"`{shown}` is a link to somewhere else; take the link away"
        if self.path.is_dir() and not any(self.path.iterdir()):
            return _strangers(self.versions)
        if self.path.exists():
            return (
                f"`{shown}` holds what `guidegen publish` did not put there; move it away, as in "
                f"`mv {self.path.name} {self.path.name}-before`, or name a new folder"
            )
        return _strangers(self.versions)

    def current(self) -> str:
        """Return the name of the version that is shown; empty if none ever was."""
        if not self.path.is_symlink():
            return ""
        to = self.path.readlink()
        is_ours = to.parent.as_posix() == self.versions.name and number_in(to.name)
        return to.name if is_ours else ""

    def prepare(self) -> None:
        """Clear up after a run that was cut short, and see that a switch is possible."""
        if sys.platform == "win32":
            raise Unable("a folder that is being read cannot be exchanged here")
        fresh = staged_name(self.path)
        if fresh.is_symlink():
            self.disk.remove(fresh)
        try:
            self.disk.link(fresh, self.versions.name)
        except OSError as fault:
            raise Unable(f"no link can be made here: {fault.strerror}") from fault
        self.disk.remove(fresh)

    def show(self, name: str) -> None:
        """Show the version *name* from now on."""
        fresh = staged_name(self.path)
        self.disk.link(fresh, f"{self.versions.name}/{name}")
        if not self.path.is_symlink() and self.path.is_dir():
            # Empty, or it had been refused.
            self.disk.remove_folder(self.path)
        self.disk.replace(fresh, self.path)
        self.disk.settle(self.path.parent)


@dataclass(frozen=True, slots=True)
class PointerTarget:
    """A folder with all versions and a page that leads on to the one that is shown.

    For shares on which a folder cannot be renamed while it is being read.
    """

    path: Path
    disk: Disk = DISK

    @property
    def versions(self) -> Path:
        """The folder that holds all versions: within what readers see."""
        return self.path / _VERSIONS

    def in_the_way(self) -> str:
        """Say what stands there that publishing did not put there, and a cure; empty if nothing."""
        shown = self.path.as_posix()
        if self.path.is_symlink():
            return f"`{shown}` is a link; leave `--pointer` out, or name a new folder"
        if not self.path.exists():
            return ""
        if not self.path.is_dir():
            return f"`{shown}` is a file; name a folder"
        own = {path.name for path in map(self._own, (_START, _CURRENT))}
        own |= {staged_name(self._own(name)).name for name in (_START, _CURRENT)} | {_VERSIONS}
        for path in sorted(self.path.iterdir()):
            if path.name not in own or (path.name == _START and not _is_start(path)):
                return (
                    f"`{path.as_posix()}` was not put there by `guidegen publish`; move it away, "
                    "or name a folder of its own for the guides"
                )
        return _strangers(self.versions)

    def current(self) -> str:
        """Return the name of the version that is shown; empty if none ever was."""
        path = self._own(_CURRENT)
        text = path.read_text(encoding="utf-8", errors="replace") if path.is_file() else ""
        name = text.strip()
        return name if number_in(name) else ""

    def prepare(self) -> None:
        """Clear up after a run that was cut short between the two files of a switch."""
        for name in (_CURRENT, _START):
            fresh = staged_name(self._own(name))
            if fresh.exists():
                self.disk.remove(fresh)
        current = self.current()
        if current:
            self._lead_to(current)

    def show(self, name: str) -> None:
        """Show the version *name* from now on."""
        self.disk.put(self._own(_CURRENT), f"{name}\n".encode())
        self._lead_to(name)

    def _lead_to(self, name: str) -> None:
        page = _start_page(name)
        path = self._own(_START)
        if not path.is_file() or path.read_bytes() != page:
            self.disk.put(path, page)

    def _own(self, name: str) -> Path:
        return self.path / name


def open_target(path: Path, disk: Disk = DISK, *, is_pointer: bool = False) -> Target:
    """Return the place at *path*: with a pointer if asked for, or if there is one already."""
    whole = path.parent.resolve() / path.name
    if is_pointer or (not whole.is_symlink() and (whole / _CURRENT).is_file()):
        return PointerTarget(whole, disk)
    return LinkTarget(whole, disk)


def about(versions: Path, disk: Disk) -> None:
    """Make the folder of all versions, with a word about whose it is."""
    disk.make_folder(versions)
    if not (versions / ABOUT).is_file():
        disk.put(versions / ABOUT, _ABOUT_TEXT)


def _strangers(versions: Path) -> str:
    """Say what stands among the *versions* and is none."""
    if not versions.exists():
        return ""
    if not versions.is_dir():
        return f"`{versions.as_posix()}` is a file; move it away"
    for path in sorted(versions.iterdir()):
        name = path.name
        if name.startswith(".") and name.endswith(".new"):
            name = name[1 : -len(".new")]
        is_version = number_in(name.removesuffix(".json"))
        if not is_version and name not in (ABOUT, LOCK):
            return f"`{path.as_posix()}` was not put there by `guidegen publish`; move it away"
    return ""


def _start_page(name: str) -> bytes:
    return _PAGE.format(escape(f"{_VERSIONS}/{name}/index.html", quote=True)).encode()


def _is_start(path: Path) -> bool:
    """Say whether the page at *path* is one of ours."""
    raw = path.read_bytes()
    led = _LEADS_TO.search(raw.decode("utf-8", "replace"))
    return led is not None and raw == _start_page(led[1])
