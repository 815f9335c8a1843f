"""Which program makes what is made.

Takes in nothing; gives out a hash of guidegen's own code and of the versions of the libraries
that its output depends on. Refuses to name a version alone: code that is being worked on changes
without one.
"""

import functools
import sys
from collections.abc import Iterator, Mapping
from importlib import metadata
from pathlib import Path

from guidegen.build.store import hash_of

_ENGINES = (
    *("jinja2", "markupsafe", "mkdocs", "mkdocs-material", "markdown", "pyyaml", "pydantic"),
    *("selectolax", "tinycss2", "typst", "fonttools", "pikepdf", "pillow", "pypdfium2", "segno"),
    *("zxing-cpp", "fontpkg-atkinson-hyperlegible"),
)
"""Libraries that draw, read or check what is published."""


@functools.cache
def program_hash() -> str:
    """Return the hash of the program that runs."""
    versions = (f"{name} {_version(name)}" for name in _ENGINES)
    return hash_of(sys.version, *versions, *_code())


def program_parts() -> Mapping[str, str]:
    """Return what the program that runs consists of: versions by name, and the hash of its code."""
    return {
        "Python": sys.version,
        "guidegen": _version("guidegen"),
        "code of guidegen": hash_of(*_code())[:12],
        **{name: _version(name) for name in _ENGINES},
    }


def _code() -> Iterator[str | bytes]:
    package = Path(__file__).resolve().parents[1]
    for path in sorted(package.rglob("*.py")):
        yield from (path.relative_to(package).as_posix(), _raw(path))


def _raw(path: Path) -> bytes:
    return path.read_bytes()


def _version(name: str) -> str:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return "none"
