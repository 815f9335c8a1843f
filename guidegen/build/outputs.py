"""Which of a truck's published files are byte for byte what they were.

Takes in the folder of a proved site; gives out the list of a truck's files, and which of them are
those of an older list. Refuses to trust the list of the site alone when pages are shown again.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.manifest import digest_of_file, list_of, open_manifest


@dataclass(frozen=True, slots=True)
class Likeness:
    """A truck's files as they are drawn now, beside those that were published."""

    same: tuple[str, ...]
    """Paths in the site, of files that are equal to the byte."""

    other: tuple[str, ...]
    """Of those that are other now, or gone."""


def outputs_of(site: Path, unit: str) -> bytes:
    """Return the list of the files of *unit* in *site*, as `manifest.list_of` writes it.

    Raises:
        FileNotFoundError: If the site has no list of its files, as one that is proved has.
    """
    manifest = open_manifest(site)
    if manifest is None:
        raise FileNotFoundError(site)
    own = {name: each for name, each in manifest.hashes.items() if name.startswith(f"{unit}/")}
    return list_of(own)


def likeness_of(site: Path, recorded: Mapping[str, str]) -> Likeness:
    """Return which of the files that are *recorded*, with their hashes, stand in *site* again."""
    same = [
        name
        for name in sorted(recorded)
        if (site / name).is_file() and digest_of_file(site / name) == recorded[name]
    ]
    return Likeness(tuple(same), tuple(sorted(set(recorded) - set(same))))
