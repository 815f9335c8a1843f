"""A truck's guide as a copy on a stick, which opens by a double click.

Takes in the files of a pack and the pages that lead into it; gives out one zip file, the same
bytes on every system. Refuses file names that a stick or a system of the office cannot hold.
"""

import io
import re
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from jinja2 import BaseLoader, Environment, StrictUndefined

_RESERVED = frozenset(
    {
        *("con", "prn", "aux", "nul"),
        *(f"{port}{digit}" for port in ("com", "lpt") for digit in range(1, 10)),
    }
)
"""Names that Windows keeps for devices, whatever their ending (Microsoft, "Naming Files, Paths,
and Namespaces")."""

_PLAIN_NAME = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9._-]*(?<!\.)")
_MOST_LETTERS = 200
"""In a path, so that with a drive and a folder before it Windows' 260 are not reached."""

_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first date that a zip file can hold; the hour of packing is nobody's business."""

_UNIX = 3
_READABLE = 0o100644 << 16


class NameNotForSticks(ValueError):
    """A path has a name that some system cannot hold."""


@dataclass(frozen=True, slots=True)
class StickTemplates:
    """What leads into a copy."""

    pages: Environment
    files: Mapping[str, bytes]
    """What its pages load, by name."""

    @classmethod
    def load(cls, loader: BaseLoader, files: Mapping[str, bytes]) -> "StickTemplates":
        """Return the templates that *loader* finds, and *files* beside them."""
        pages = Environment(loader=loader, autoescape=True, undefined=StrictUndefined)
        return cls(pages, files)

    def page(self, name: str, **values: str) -> bytes:
        """Return one page."""
        return self.pages.get_template(name).render(**values).encode() + b"\n"


def stick_name(unit: str, revision: str) -> str:
    """Return the name of the copy, which is that of its zip file and of the folder in it."""
    return f"{unit}-{revision}"


def copy_for_stick(
    unit: str, revision: str, files: Mapping[str, bytes], templates: StickTemplates
) -> bytes:
    """Return the zip file of one truck.

    All but the page that opens it stands in a folder of its own, so that copies of two trucks,
    or of two revisions, that are unpacked in one place never share a file.

    Args:
        unit: Number of the truck.
        revision: Of its guide.
        files: What its pages and their links lead to, by path from the root of the site.
        templates: What leads into it.

    Raises:
        NameNotForSticks: If a path has a name that some system cannot hold.
    """
    folder = stick_name(unit, revision)
    named = {"unit": unit, "revision": revision, "folder": folder}
    inside = {**files, **templates.files, "index.html": templates.page("only.html.j2", **named)}
    opener = {f"OPEN-{unit}.html": templates.page("open.html.j2", **named)}
    return zipped({**opener, **{f"{folder}/{path}": raw for path, raw in inside.items()}})


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Return *files* as a zip file: in the order of their names, without dates, not compressed.

    What compression makes of the same bytes differs between versions of its library.

    Raises:
        NameNotForSticks: If a path has a name that some system cannot hold.
    """
    check_names(files)
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(files):
            entry = zipfile.ZipInfo(path, _EARLIEST)
            entry.create_system = _UNIX
            entry.external_attr = _READABLE
            archive.writestr(entry, files[path])
    return written.getvalue()


def check_names(paths: Iterable[str]) -> None:
    """Refuse what FAT32 or Windows cannot hold, or takes for the same as another.

    Raises:
        NameNotForSticks: For the first such path.
    """
    met: dict[str, str] = {}
    for path in paths:
        for name in path.split("/"):
            if not _PLAIN_NAME.fullmatch(name) or name.lower().partition(".")[0] in _RESERVED:
                raise NameNotForSticks(f"`{name}` in `{path}`")
        if len(path) > _MOST_LETTERS:
            raise NameNotForSticks(f"`{path}` has {len(path)} letters")
        twin = met.setdefault(path.lower(), path)
        if twin != path:
            raise NameNotForSticks(f"`{path}` beside `{twin}`")
