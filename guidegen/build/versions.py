"""The versions of a site that stand where readers see them.

Takes in what is kept of each version; gives out their order, which of them is shown next or
before, and which may go. Refuses to go by a clock: versions are numbered, and each says which one
readers saw before it.
"""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

_NAME = re.compile(r"(\d{6,})-([0-9a-f]{12})")
_DIGITS = 12


class NoVersion(ValueError):
    """The bytes say of no version what must be known of it."""


@dataclass(frozen=True, slots=True)
class Version:
    """One site as it was published."""

    number: int
    """From 1; a later one is higher, whatever the clock said."""

    digest: str
    """SHA-256 of the list of its files, in hexadecimal."""

    published: str
    """As ``2026-11-30 07:15``, where it was published from."""

    follows: int
    """Number of the version that readers saw before it; 0 if there was none."""

    units: Mapping[str, str]
    """The revision of each truck, by number, as its pages say it."""

    released: str = ""
    """Date of the last release in it, as ``2026-11-30``; empty without a record."""

    @property
    def name(self) -> str:
        """Name of its folder."""
        return version_name(self.number, self.digest)

    def as_bytes(self) -> bytes:
        """Return what is kept beside its folder."""
        return (json.dumps(asdict(self), ensure_ascii=False, indent=1) + "\n").encode()

    def __str__(self) -> str:
        count = len(self.units)
        trucks = "1 truck" if count == 1 else f"{count:,} trucks"
        released = f", last release {self.released}" if self.released else ""
        return f"version {self.number}, published {self.published}, {trucks}{released}"


def version_name(number: int, digest: str) -> str:
    """Return the name of the folder of a version."""
    return f"{number:06d}-{digest[:_DIGITS]}"


def number_in(name: str) -> int:
    """Return the number of the version whose folder is called *name*; 0 if none is called so."""
    match = _NAME.fullmatch(name)
    return int(match[1]) if match else 0


def read_version(raw: bytes) -> Version:
    """Return the version that *raw* tells of.

    Raises:
        NoVersion: If it tells of none.
    """
    try:
        content: dict[str, Any] = json.loads(raw)
        version = Version(**content)
        is_told = isinstance(content["follows"], int) and isinstance(content["units"], dict)
        if version.as_bytes() != raw or not number_in(version.name) or not is_told:
            raise NoVersion("it is not as it was written")
    except (ValueError, TypeError) as error:
        raise NoVersion("it is not as it was written") from error
    return version


def next_number(names: Iterable[str]) -> int:
    """Return the number of the next version, from the names of all folders that there are."""
    return 1 + max(map(number_in, names), default=0)


def line_of(versions: Mapping[int, Version], current: int) -> tuple[Version, ...]:
    """Return the version *current* and those that readers saw before it, the newest first.

    A version that readers were taken back from is not among them.
    """
    line: list[Version] = []
    number = current
    # What follows is always older; a line that says otherwise was written by hand and ends here.
    while number in versions and (not line or number < line[-1].number):
        line.append(versions[number])
        number = versions[number].follows
    return tuple(line)


def surplus(versions: Mapping[int, Version], current: int, keep: int) -> tuple[Version, ...]:
    """Return the versions that may go when *keep* are kept, the one that is shown among them."""
    kept = {each.number for each in line_of(versions, current)[:keep]}
    return tuple(each for number, each in sorted(versions.items()) if number not in kept)


def tell_changes(before: Version | None, after: Version) -> tuple[str, ...]:
    """Return a line for each truck whose guide is another in *after* than in *before*."""
    known = before.units if before else {}
    lines = []
    for unit in sorted({*known, *after.units}):
        old, new = known.get(unit), after.units.get(unit)
        if old == new:
            continue
        if new is None:
            lines.append(f"{unit}: no longer there")
        else:
            lines.append(f"{unit}: new, {new}" if old is None else f"{unit}: {old} → {new}")
    return tuple(lines)
