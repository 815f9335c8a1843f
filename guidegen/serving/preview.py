"""Every page as the files state it now.

Takes in what is known of the fleet, what the files state, and the path of a page; gives out the
page with what is said of it. Refuses a page in which the proof finds anything, or whose truck has
a fault: the one that was shown last stays.
"""

import traceback
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build.project import Project
from guidegen.build.rules import UNIT_BROKEN
from guidegen.finding import Finding, Findings
from guidegen.serving.bar import ALONE, FAULTY, HELD, PREVIEW, UNPROVED, Bar
from guidegen.serving.fleet_look import FleetLook
from guidegen.serving.page_press import PagePress, TruckPages
from guidegen.serving.sources import Sources, Stated
from guidegen.site.recent import Recent

_LAST_KEPT = 400
"""Pages that were shown: some 70 kB each, 28 MB in all."""

_TRUCKS_KEPT = 8
"""Trucks whose pages are drawn, some 5 MB each."""

_WORKER = "sw.js"
"""What keeps trucks on a tablet: it would show pages from before an edit."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A file as it is served."""

    raw: bytes
    bar: Bar = field(default_factory=Bar)


@dataclass(frozen=True, slots=True)
class _Truck:
    pages: TruckPages | None
    findings: tuple[Finding, ...]


class Preview:
    """The site as the files state it now; for one thread at a time."""

    def __init__(self, project: Project) -> None:
        """Begin with nothing known."""
        self._sources = Sources(project)
        self._stated: Stated | None = None
        self._faults: tuple[Finding, ...] = ()
        self._is_stale = False
        """Whether what all trucks share has faults, so that every page is as it was before."""
        self._press: PagePress | None = None
        self._trucks: dict[str, _Truck] = {}
        self._last: Recent[str, bytes] = Recent(_LAST_KEPT)
        self._whole: Path | None = None
        self._unproved: tuple[Finding, ...] = ()
        self.is_alone = False
        """Whether the site is not built as a whole."""

    def read(self) -> tuple[Finding, ...]:
        """Read what was saved, and return what was found in the files."""
        findings = Findings()
        stated = self._sources.read(findings)
        self._whole, self._unproved, self._trucks = None, (), {}
        self._faults = findings.errors
        self._is_stale = stated is None
        if stated is not None:
            self._stated = stated
        if self._press is not None:
            self._press.renew(self._press.look)  # templates of pages may have been saved
        return tuple(findings)

    def take_look(self, look: FleetLook | None) -> None:
        """Go by *look* at the whole fleet from now on."""
        if look is not None:
            self._trucks = {}
            if self._press is None:
                self._press = PagePress(look)
            else:
                self._press.renew(look)

    def take_whole(self, site: Path, unproved: tuple[Finding, ...], *, is_proved: bool) -> None:
        """Show the *site* that was built of all that was saved, if it *is_proved*."""
        self._whole = site if is_proved else None
        self._unproved = () if is_proved else unproved

    @property
    def is_ready(self) -> bool:
        """Whether there is anything to show."""
        return self._press is not None and self._stated is not None

    def file(self, path: str) -> Shown | None:
        """Return the file at *path*, from the root of the site; none if there is none.

        Args:
            path: With forward slashes; of a folder without its ``index.html``.
        """
        path = f"{path}index.html" if path == "" or path.endswith("/") else path
        number, slash, rest = path.partition("/")
        if path == _WORKER or self._press is None or self._stated is None:
            return None
        if self._whole is not None:
            file = self._whole / path
            if file.is_file() and file.resolve().is_relative_to(self._whole.resolve()):
                return self._keep(path, file.read_bytes(), self._bar())
        if slash and self._is_unit(number):
            return self._page(number, rest, path)
        raw = self._press.look.root.get(path)
        return None if raw is None else self._keep(path, raw, self._bar())

    def _is_unit(self, number: str) -> bool:
        stated, press = self._stated, self._press
        known = stated is not None and number in stated.records
        return known or (press is not None and number in press.look.claims.numbers)

    def _page(self, number: str, rest: str, path: str) -> Shown | None:
        truck = self._truck(number)
        if truck.pages is None:
            return self._held(path, truck.findings)
        try:
            page = truck.pages.page(rest)
        except Exception:  # noqa: BLE001 -- a fault of the program in one page must not stop the others
            return self._held(path, (_broken(number, traceback.format_exc()),))
        if page is None:
            return None
        if page.failures:
            return self._held(path, tuple(each.as_finding() for each in page.failures))
        return self._keep(path, page.raw, self._bar())

    def _truck(self, number: str) -> _Truck:
        known = self._trucks.get(number)
        if known is not None:
            return known
        if len(self._trucks) >= _TRUCKS_KEPT:
            self._trucks.pop(next(iter(self._trucks)))
        truck = self._trucks[number] = self._opened(number)
        return truck

    def _opened(self, number: str) -> _Truck:
        assert self._stated is not None  # noqa: S101 -- callers have looked
        assert self._press is not None  # noqa: S101 -- ditto
        try:
            loaded, found = self._stated.look_at(number)
            if loaded is None or any(each.is_error for each in found):
                return _Truck(None, (*self._faults, *found))
            return _Truck(self._press.open(loaded, self._stated), (*self._faults, *found))
        except Exception:  # noqa: BLE001 -- a fault of the program in one truck must not stop the others
            return _Truck(None, (_broken(number, traceback.format_exc()),))

    def _keep(self, path: str, raw: bytes, bar: Bar) -> Shown:
        return Shown(self._last.keep(path, raw), bar)

    def _held(self, path: str, found: tuple[Finding, ...]) -> Shown | None:
        last = self._last.find(path)
        errors = tuple(each for each in found if each.is_error)
        return Shown(b"" if last is None else last, Bar(HELD, errors))

    def _bar(self) -> Bar:
        if self._faults:
            return Bar(HELD if self._is_stale else FAULTY, self._faults)
        if self._unproved:
            return Bar(UNPROVED, self._unproved)
        if self._whole is not None:
            return Bar()
        return Bar(ALONE if self.is_alone else PREVIEW)


def _broken(number: str, why: str) -> Finding:
    return Finding(
        UNIT_BROKEN,
        None,
        f"{number} could not be made: {why.strip().splitlines()[-1]}",
        "this is a fault of guidegen and not of your files: report it",
        unit=number,
        place=f"specs/units/{number}.yml",
    )
