"""A file that is there whole or not at all.

Takes in a path and what is to stand there; gives out the path.
Refuses to write into the old file: who reads it meanwhile would find a part.
"""

from pathlib import Path


def write_whole(path: Path, content: bytes) -> Path:
    """Write *content* to *path* beside the old file, then put it in its place; return the path."""
    path.parent.mkdir(parents=True, exist_ok=True)
    staged = path.with_name(f".{path.name}.new")
    staged.write_bytes(content)
    staged.replace(path)
    return path
