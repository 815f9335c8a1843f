"""Running guidegen in a process of its own that need not import it first.

Importing guidegen takes a second, and the tests of the command line run it hundreds of times. A
server that has imported all of it, the commands too, which the program itself reads in when they
are asked for, and has done nothing else, is forked for each run. Where there is no fork, each run
starts an interpreter.
"""

import multiprocessing
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from pkgutil import walk_packages
from typing import Any

import guidegen


@dataclass(frozen=True)
class Ran:
    """What a run of the command line left."""

    code: int
    out: str
    err: str


def run_program(arguments: tuple[str, ...], folder: Path, environment: Mapping[str, str]) -> Ran:
    """Run guidegen with *arguments* in *folder*, its environment changed by *environment*."""
    changed = {"PYTHONWARNINGS": "", **environment}
    server = _server()
    if server is None:
        return _started(arguments, folder, changed)
    with tempfile.TemporaryDirectory() as name:
        said = Path(name) / "out", Path(name) / "err"
        process = server.Process(target=_run, args=(arguments, folder, changed, said))
        process.start()
        process.join()
        out, err = (path.read_bytes().decode("utf-8") for path in said)
    code = process.exitcode
    process.close()
    assert code is not None
    return Ran(code, out, err)


@cache
def _server() -> Any:  # noqa: ANN401 -- its type is of another name on each system
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return None
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([*_modules()])
    return context


def _modules() -> Iterator[str]:
    """Yield the name of every module of guidegen but the one that starts it."""
    for each in walk_packages(guidegen.__path__, f"{guidegen.__name__}."):
        if not each.name.endswith("__main__"):
            yield each.name


def _run(
    arguments: tuple[str, ...],
    folder: Path,
    environment: Mapping[str, str],
    said: tuple[Path, Path],
) -> None:
    os.chdir(folder)
    os.environ.update(environment)
    for path, stream in zip(said, (1, 2), strict=True):
        os.dup2(os.open(path, os.O_WRONLY | os.O_CREAT), stream)
    sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
    sys.stderr = os.fdopen(2, "w", encoding="utf-8", closefd=False)
    sys.argv = ["guidegen", *arguments]

    from guidegen.cli import main  # noqa: PLC0415 -- imported in the server alone

    main()


def _started(arguments: tuple[str, ...], folder: Path, environment: Mapping[str, str]) -> Ran:
    done = subprocess.run(
        [sys.executable, "-m", "guidegen", *arguments],
        cwd=folder,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    return Ran(done.returncode, done.stdout, done.stderr)
