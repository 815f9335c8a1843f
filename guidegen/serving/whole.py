"""The whole site, looked at and built in a process of its own, which may be ended at any time.

Takes in a project's folder and a folder to work in; gives out what is known of the fleet, and
then what came of building and proving all of it. Refuses to touch what readers see: it works in
the folder that it is given.
"""

import multiprocessing
import os
import signal
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path

from guidegen.build.engine_hash import program_hash
from guidegen.build.fleet_memory import FleetMemory, keep_memory, open_memory
from guidegen.build.kept_shell import shell_of
from guidegen.build.publication import open_publication
from guidegen.build.store import Store, open_store
from guidegen.finding import FaultyInput, Finding
from guidegen.mkdocs_plugin import draw_shell
from guidegen.serving.fleet_look import FleetLook, look_at_fleet

SITE_FOLDER = "site"
_STORE_FOLDER = "store"
_BEHIND = 10
"""How far the run stands back behind all else on the machine, in steps of the system."""


@dataclass(frozen=True, slots=True)
class Looked:
    """The fleet was read as a whole."""

    look: FleetLook | None
    """None if faults hold back the whole fleet."""

    findings: tuple[Finding, ...]
    """Of the units that are held back, and warnings."""


@dataclass(frozen=True, slots=True)
class Built:
    """The site was built and proved as a whole."""

    is_proved: bool
    findings: tuple[Finding, ...]
    """Of the proof."""

    units: int
    """With a guide."""


@dataclass(frozen=True, slots=True)
class Broken:
    """The process ended before it was done."""


Told = Looked | Built | Broken


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be done."""

    root: Path
    """Of the project."""

    folder: Path
    """To work in."""

    most: int
    """Units up to which the site is built; a larger fleet is looked at only."""


class WholeRun:
    """One run over the whole fleet."""

    def __init__(self, order: Order) -> None:
        """Start it."""
        context = multiprocessing.get_context("spawn")
        self._heard, told = context.Pipe(duplex=False)
        self._process: BaseProcess = context.Process(target=_run, args=(order, told), daemon=True)
        self._process.start()
        told.close()

    def hear(self) -> Told | None:
        """Return what it has to tell by now; none if nothing."""
        try:
            if not self._heard.poll():
                return None
            told: Told = self._heard.recv()
        except (EOFError, OSError):
            return Broken()
        return told

    def end(self) -> None:
        """End it, wherever it is: what it works on is made good by the next one."""
        self._process.terminate()
        self._process.join()
        self._heard.close()


def _run(order: Order, told: Connection) -> None:
    # A terminal interrupts all its processes; this one is ended by the one that started it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    store = Store(order.folder / _STORE_FOLDER, program_hash())
    target = order.folder / SITE_FOLDER
    memory = _memory_of(order, store, target)
    try:
        publication = open_publication(order.root, memory=memory)
        project, fleet, theme = publication.project, publication.fleet, publication.theme_dir
        shell = shell_of(
            project.config_file,
            theme,
            fleet,
            store,
            lambda: draw_shell(project.config_file, fleet, theme),
        )
        look = look_at_fleet(publication, shell)
        keep_memory(memory, store, order.root, target)
        told.send(Looked(look, tuple(publication.findings)))
        units = len(publication.loaded.guides)
        if units > order.most:
            return
        if hasattr(os, "nice"):
            os.nice(_BEHIND)
        outcome = publication.publish(shell, target)
    except FaultyInput as fault:
        told.send(Looked(None, tuple(fault.findings)))
        return
    if outcome.published:
        keep_memory(memory, store, order.root, target)
    told.send(Built(outcome.published, tuple(outcome.findings), units))


def _memory_of(order: Order, store: Store, target: Path) -> FleetMemory:
    """Return what the last run has left, or else what the last build of the project has."""
    memory = open_memory(store, order.root, target)
    if not memory.records:
        memory = open_memory(open_store(store.program), order.root, order.root / "site")
        memory.units = {}  # these stand in another folder
    return memory
