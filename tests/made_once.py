"""Folders that take long to make, made once for all processes of one run of the tests."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import FileLock


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], object]) -> Path:
    """Return the folder *name*, which *make* fills in whichever process asks first.

    The others wait for it. All share it, so nobody may change what is in it.
    """
    base = factory.getbasetemp()
    # Each process of pytest-xdist has its own folder in that of the run.
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder, done = shared / f"once-{name}", shared / f"once-{name}.done"
    with FileLock(shared / f"once-{name}.lock"):
        if not done.exists():
            folder.mkdir()
            make(folder)
            done.touch()
    return folder
