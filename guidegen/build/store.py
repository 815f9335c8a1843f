"""What was made before, by the hash of all that it was made of.

Takes in parts that go into a value; gives out the value that was kept under them, or keeps a new
one. Refuses a file that is not whole, as if it were not there: everything in a store can be made
again. Nothing that a stranger may have written is read: a store lies in the user's own cache
folder and never in a project.
"""

import hashlib
import os
import pickle
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from platformdirs import user_cache_path

FOLDER_VARIABLE = "GUIDEGEN_STORE"
"""Names another folder than the user's cache; each machine of a cluster may have its own."""

_DIGEST_SIZE = hashlib.sha256().digest_size
_MOST_BYTES = 4 * 2**30
"""Beyond this what was not used for longest is deleted; an own choice."""


def hash_of(*parts: str | bytes) -> str:
    """Return the SHA-256 of *parts* in hexadecimal; where one ends and the next begins counts."""
    digest = hashlib.sha256()
    for part in parts:
        raw = part.encode() if isinstance(part, str) else part
        digest.update(len(raw).to_bytes(8, "big"))
        digest.update(raw)
    return digest.hexdigest()


@dataclass(frozen=True, slots=True)
class Store:
    """A folder of values, each in a file that is named for what it was made of."""

    folder: Path | None
    """None keeps nothing."""

    program: str
    """Hash of the program that makes the values: another one starts anew."""

    def key(self, kind: str, *parts: str | bytes) -> str:
        """Return the key of a value of *kind* that is made of *parts* by this program."""
        return hash_of(self.program, kind, *parts)

    def get(self, key: str) -> Any:  # noqa: ANN401 -- whatever was kept
        """Return the value that is kept under *key*, or None."""
        if self.folder is None:
            return None
        path = self._path(key)
        try:
            raw = path.read_bytes()
        except OSError:
            return None
        digest, payload = raw[:_DIGEST_SIZE], raw[_DIGEST_SIZE:]
        if hashlib.sha256(payload).digest() != digest:
            return None
        with suppress(OSError):
            os.utime(path)
        # Only this program writes here, in the user's own cache, and the hash has been looked at.
        return pickle.loads(payload)  # noqa: S301

    def put(self, key: str, value: object) -> None:
        """Keep *value* under *key*; a store that cannot be written to keeps nothing."""
        if self.folder is None:
            return
        payload = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
        path = self._path(key)
        with suppress(OSError):
            path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(path, hashlib.sha256(payload).digest() + payload)

    def drop(self, key: str) -> None:
        """Forget what is kept under *key*."""
        if self.folder is not None:
            with suppress(OSError):
                self._path(key).unlink(missing_ok=True)

    def tidy(self, most: int = _MOST_BYTES) -> None:
        """Delete what was not used for longest until at most *most* bytes are kept."""
        files = sorted(self._files(), reverse=True)
        kept = 0
        for _, size, path in files:
            kept += size
            if kept > most:
                with suppress(OSError):
                    path.unlink()

    def _path(self, key: str) -> Path:
        assert self.folder is not None  # noqa: S101 -- callers have looked
        return self.folder / key[:2] / key[2:]

    def _files(self) -> Iterator[tuple[float, int, Path]]:
        if self.folder is None:
            return
        for path in self.folder.glob("??/*"):
            with suppress(OSError):
                found = path.stat()
                yield found.st_mtime, found.st_size, path


def open_store(program: str) -> Store:
    """Return the store of this user on this machine."""
    named = os.environ.get(FOLDER_VARIABLE)
    folder = Path(named) if named else user_cache_path("guidegen", appauthor=False) / "store"
    return Store(folder, program)


def write_whole(path: Path, raw: bytes) -> None:
    """Write *raw* to *path* so that readers find the old file or the new one, never a part."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
