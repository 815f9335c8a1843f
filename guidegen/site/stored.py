"""Framed editions as they are kept and sent: each file once, however many editions have it.

Takes in editions in their frames; gives out for each the digests of its files, and the files by
digest; and from these the editions again. Refuses a file that is not what its digest says.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from guidegen.site.framing import FramedEdition, FramedFile


class WrongFile(ValueError):
    """What was kept under a digest is another file."""


@dataclass(frozen=True, slots=True)
class StoredEdition:
    """An edition by the digests of its files, about 1.5 kB."""

    id: str
    pages: tuple[str, ...]
    search_index: str

    @property
    def digests(self) -> tuple[str, ...]:
        """Of all files."""
        return (*self.pages, self.search_index)


def store_edition(edition: FramedEdition) -> tuple[StoredEdition, Mapping[str, FramedFile]]:
    """Return *edition* by its digests, and its files by digest."""
    stored = StoredEdition(
        edition.id, tuple(page.digest for page in edition.pages), edition.search_index.digest
    )
    files = (*edition.pages, edition.search_index)
    return stored, dict(zip(stored.digests, files, strict=True))


def restore_edition(stored: StoredEdition, find: Callable[[str], FramedFile]) -> FramedEdition:
    """Return the edition that was *stored*; *find* gives the file with a digest.

    Raises:
        WrongFile: If a file is not the one that was stored.
    """
    *pages, search_index = (_checked(digest, find(digest)) for digest in stored.digests)
    return FramedEdition(stored.id, tuple(pages), search_index)


def _checked(digest: str, file: FramedFile) -> FramedFile:
    if file.digest != digest:
        raise WrongFile(f"{file.path} is not the file {digest[:12]}")
    return file
