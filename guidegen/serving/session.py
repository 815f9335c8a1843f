"""From saved files to what browsers show, again and again.

Takes in a project and an address; gives out its pages there, and tells what was found.
Refuses to write into the project: all that is made stands in a folder that goes when it ends.
"""

import signal
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from threading import Thread
from types import FrameType
from typing import NoReturn

from guidegen.build.project import Project
from guidegen.build.scratch import scratch_folder
from guidegen.finding import Finding
from guidegen.serving.preview import Preview
from guidegen.serving.server import Site, SiteServer
from guidegen.serving.watch import Watch
from guidegen.serving.whole import SITE_FOLDER, Broken, Built, Looked, Order, Told, WholeRun

MOST_WHOLE = 200
"""Units up to which the whole site is built after each edit; an own choice: beyond it the temporary
folder would be some gigabytes, and the pages that are opened are proved anyway."""

_REST = 0.1
"""Seconds between two looks at the files, at least."""
_QUIET = 1.5
"""Seconds after an edit that belong to the page that is open: the whole fleet comes after it."""

_SHARE = 4
"""Looks take at most one part in so many of the time."""

Tell = Callable[[str, Iterable[Finding]], None]
"""Prints a line, and findings."""


def serve_project(
    project: Project, watched: Iterable[Path], address: tuple[str, int], tell: Tell
) -> None:
    """Show *project* at *address* until it is interrupted.

    Args:
        project: Whose files are edited.
        watched: Files and folders that make its site.
        address: Host and port.
        tell: Prints what there is to say.

    Raises:
        OSError: If nothing can be served at *address*.
    """
    # Whoever ends it otherwise than from its terminal must not leave a folder and a process behind.
    signal.signal(signal.SIGTERM, _stop)
    with scratch_folder() as folder:
        preview = Preview(project)
        site = Site(preview)
        with SiteServer(address, site) as server:
            Thread(target=server.serve_forever, daemon=True).start()
            session = _Session(Order(project.root, Path(folder), MOST_WHOLE), preview, site, tell)
            tell(f"http://{address[0]}:{server.server_port}/ opens when the fleet is read", ())
            try:
                session.run(Watch(tuple(watched)))
            finally:
                session.end()
                server.shutdown()


def _stop(number: int, frame: FrameType | None) -> NoReturn:  # noqa: ARG001 -- as they are called
    raise KeyboardInterrupt


class _Session:
    def __init__(self, order: Order, preview: Preview, site: Site, tell: Tell) -> None:
        self._order, self._preview, self._site, self._tell = order, preview, site, tell
        self._whole: WholeRun | None = None
        self._told: set[tuple[str, str, str]] = set()
        self._due: float | None = None
        """When the next run over the whole fleet begins; none if nothing was saved since."""

    def run(self, watch: Watch) -> None:
        """Go on until it is interrupted."""
        self.renew()
        while True:
            began = time.monotonic()
            changed = watch.has_changed()
            looking = time.monotonic() - began
            if changed:
                self.renew()
            self.go_on()
            time.sleep(max(_REST, _SHARE * looking))

    def renew(self) -> None:
        """Show what was saved, and begin with the whole anew."""
        self.end()
        with self._site.changed:
            found = self._preview.read()
            self._site.tell()
        self._told = set()
        errors = [each for each in found if each.is_error]
        if errors:
            self._say("Found in what was saved; the pages concerned stay as they were:", errors)
        self._due = time.monotonic() + _QUIET if self._preview.is_ready else 0.0

    def go_on(self) -> None:
        """Start the run over the whole fleet when it is due, and take what it has to tell."""
        if self._due is not None and time.monotonic() >= self._due:
            self._due, self._whole = None, WholeRun(self._order)
        told = self._whole.hear() if self._whole else None
        if told is None:
            return
        with self._site.changed:
            self._take(told)
            self._site.tell()

    def end(self) -> None:
        """End the run over the whole fleet, if there is one."""
        if self._whole is not None:
            self._whole.end()
            self._whole = None

    def _say(self, words: str, found: Iterable[Finding]) -> None:
        """Print *words*, and what of *found* was not told since the last edit."""
        new = {(e.rule.name, e.where, e.what): e for e in found}
        self._tell(words, [each for key, each in new.items() if key not in self._told])
        self._told.update(new)

    def _take(self, told: Told) -> None:
        match told:
            case Looked(look, findings):
                self._preview.take_look(look)
                units = 0 if look is None else len(look.claims.numbers)
                self._preview.is_alone = units > self._order.most
                self._say(f"{units} trucks can be shown", findings)
                if self._preview.is_alone or look is None:
                    self.end()
            case Built(is_proved, findings, units):
                site = self._order.folder / SITE_FOLDER
                self._preview.take_whole(site, findings, is_proved=is_proved)
                words = "proved as a whole" if is_proved else "not proved: see what was found"
                self._say(f"{units} trucks: {words}", findings)
                self.end()
            case Broken():
                self._say("the whole site could not be built: its process ended", ())
                self.end()
