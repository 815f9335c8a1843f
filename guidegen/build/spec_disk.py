"""The few things that are done to files where nothing may be left half done.

Takes in paths and bytes; gives out files that are on the disk when the call returns.
Refuses to hide a fault of the system: whoever calls says what it means.
"""

import errno
import os
from pathlib import Path


class Disk:
    """The real one. Tests put one in its place that fails or stops at any call."""

    def make_folder(self, path: Path) -> None:
        """Make the folder *path*, with those above it, if it is missing."""
        path.mkdir(parents=True, exist_ok=True)

    def write(self, path: Path, content: bytes) -> None:
        """Write *content* to *path*, and see it on the disk."""
        with path.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())

    def replace(self, source: Path, target: Path) -> None:
        """Put *source* in the place of *target* in one move."""
        os.replace(source, target)  # noqa: PTH105 -- the call that is named in what it promises

    def delete(self, path: Path) -> None:
        """Delete the file *path*, if it is there."""
        path.unlink(missing_ok=True)

    def delete_folder(self, path: Path) -> None:
        """Delete the empty folder *path*, if it is there."""
        if path.is_dir():
            path.rmdir()

    def settle(self, folder: Path) -> None:
        """See on the disk what was moved in *folder*, where the system can say so."""
        if os.name == "nt":
            return
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        except OSError as fault:
            # Some shared drives cannot say it of a folder; the files in it have been seen.
            if fault.errno not in (errno.EINVAL, errno.ENOTSUP):
                raise
        finally:
            os.close(handle)
