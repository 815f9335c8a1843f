"""From a proved site to what readers see, and back to what they saw before.

Takes in the folder of a site and the place that readers know; gives out which version they see now.
Refuses a site that is not, byte for byte, the one that was proved; a place that holds what others
put there; and a version that is not whole any more.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.build import rules
from guidegen.build.disk import DISK, Disk
from guidegen.build.lock import Locked, held
from guidegen.build.manifest import MANIFEST, PROOF, Manifest, faults_in, open_manifest
from guidegen.build.progress import Progress, unseen
from guidegen.build.stage_version import NotWhole, Shelf
from guidegen.build.targets import LOCK, Target, Unable, about
from guidegen.build.versions import Version, line_of, next_number, number_in, surplus
from guidegen.finding import Findings, Rule

MOST_TOLD = 10
"""Files of a site that are told one by one when they are other than they were proved."""


@dataclass(frozen=True, slots=True)
class ProvedSite:
    """A site whose proof passed and which is still what was proved."""

    folder: Path
    manifest: Manifest
    editions: Mapping[str, str]
    """Fingerprint of each truck's guide, by number."""

    units: Mapping[str, str]
    """The revision of each truck, by number, as its pages say it."""


@dataclass(frozen=True, slots=True)
class Moment:
    """When something is published."""

    time: str
    """As ``2026-11-30 07:15``."""

    released: str = ""
    """Date of the last release, as ``2026-11-30``; empty without a record."""


@dataclass(frozen=True, slots=True)
class Switched:
    """What readers see now, and what they saw."""

    version: Version
    before: Version | None
    is_switched: bool = True
    """No if they saw this already."""


def open_proved_site(folder: Path, findings: Findings) -> ProvedSite | None:
    """Return the site in *folder* if its proof passed and no byte changed since.

    Args:
        folder: Of the built site.
        findings: Takes why it is refused.
    """
    again = "build it anew with `guidegen build`"
    shown = folder.as_posix()
    proof, manifest = folder / PROOF, open_manifest(folder)
    if not proof.is_file() or not (folder / MANIFEST).is_file():
        what = f"`{shown}` holds no site with a report of its proof"
        findings.add(rules.SITE_WITHOUT_PROOF, None, what=what, fix=again, place=shown)
        return None
    faults = ["the list of its files"] if manifest is None else list(faults_in(folder, manifest))
    for fault in faults[:MOST_TOLD]:
        what = f"{fault} since the proof" if manifest else f"{fault} is not as it was written"
        findings.add(rules.SITE_CHANGED, None, what=what, fix=again, place=shown)
    if len(faults) > MOST_TOLD:
        what = f"{len(faults) - MOST_TOLD} more files are other than they were proved"
        findings.add(rules.SITE_CHANGED, None, what=what, fix=again, place=shown)
    if faults or manifest is None:
        return None
    report = json.loads(proof.read_bytes())
    if report["proved"] is not True:
        what = f"the proof of `{shown}` has not passed"
        findings.add(rules.SITE_WITHOUT_PROOF, None, what=what, fix=again, place=shown)
        return None
    editions = {each["unit"]: each["edition"] for each in report["units"]}
    packs = {unit: json.loads((folder / unit / "pack.json").read_bytes()) for unit in editions}
    return ProvedSite(folder, manifest, editions, {u: p["revision"] for u, p in packs.items()})


@dataclass(frozen=True, slots=True)
class Publishing:
    """One place that readers know, with all that may be done to it."""

    target: Target
    findings: Findings
    """Takes why something is not done, and what is left over."""

    disk: Disk = DISK
    progress: Progress = unseen

    def publish(self, site: ProvedSite, moment: Moment, keep: int) -> Switched | None:
        """Show *site* to readers; nothing and a finding if it cannot be done.

        Args:
            site: Proved, and as it was proved.
            moment: When it is published.
            keep: How many versions are kept, this one among them; at least 1.
        """
        if self._is_within(site.folder):
            return None
        return self._at_work(moment.time, lambda: self._published(site, moment, keep))

    def roll_back(self, time: str) -> Switched | None:
        """Show readers the version that they saw before; nothing and a finding if there is none.

        Args:
            time: The time of day, for whoever is kept waiting.
        """
        if not self.target.current():
            self._without_version_before("nothing was ever published")
            return None
        return self._at_work(time, self._rolled_back)

    def listed(self) -> tuple[tuple[Version, str], ...]:
        """Return each version with its standing, the newest first."""
        versions, current = self._shelf.versions(), number_in(self.target.current())
        line = {each.number for each in line_of(versions, current)}
        standing = {True: "before", False: "taken back"}
        return tuple(
            (each, "shown" if number == current else standing[number in line])
            for number, each in sorted(versions.items(), reverse=True)
        )

    @property
    def _shelf(self) -> Shelf:
        return Shelf(self.target.versions, self.disk)

    def _published(self, site: ProvedSite, moment: Moment, keep: int) -> Switched:
        self.target.prepare()
        self._clear()
        switched = self._shown(site, moment)
        for version in surplus(self._shelf.versions(), switched.version.number, keep):
            self._remove(version.name)
        return switched

    def _shown(self, site: ProvedSite, moment: Moment) -> Switched:
        versions = self._shelf.versions()
        before = versions.get(number_in(self.target.current()))
        digest = site.manifest.digest
        if before and before.digest == digest and self._shelf.is_whole(before):
            return Switched(before, before, is_switched=False)
        follows = before.number if before else 0
        number = next_number(self._shelf.names())
        version = Version(number, digest, moment.time, follows, site.units, moment.released)
        try:
            self._shelf.stage(site.folder, site.manifest, version, self.progress)
        except (OSError, NotWhole):
            self._remove(version.name)
            raise
        self.target.show(version.name)
        return Switched(version, before)

    def _rolled_back(self) -> Switched | None:
        self.target.prepare()
        versions = self._shelf.versions()
        line = line_of(versions, number_in(self.target.current()))
        if len(line) < 2:  # noqa: PLR2004 -- the one that is shown, and one before it
            self._without_version_before("no version from before is kept")
            return None
        shown, before = line[:2]
        self._shelf.check(before)
        self.target.show(before.name)
        return Switched(before, shown)

    def _at_work(self, time: str, act: Callable[[], Switched | None]) -> Switched | None:
        """Hold the place for one run, and turn what goes wrong there into a finding."""
        try:
            if self._is_in_the_way():
                return None
            about(self.target.versions, self.disk)
            with held(self.target.versions / LOCK, time, self.disk):
                return None if self._is_in_the_way() else act()
        except (Locked, NotWhole, OSError, Unable) as fault:
            rule, what, fix = _told(fault)
            place = self.target.path.as_posix()
            self.findings.add(rule, None, what=what, fix=fix, place=place)
            return None

    def _clear(self) -> None:
        """Remove what runs that were cut short have left."""
        whole = {each.name for each in self._shelf.versions().values()}
        for name in self._shelf.names():
            if name not in whole and name != self.target.current():
                self._remove(name)

    def _remove(self, name: str) -> None:
        left = self._shelf.remove(name)
        if left:
            self.findings.add(
                rules.VERSION_LEFT,
                None,
                what=left,
                fix="take it away if nobody needs it; the next run clears up the rest",
                place=self.target.path.as_posix(),
            )

    def _is_in_the_way(self) -> bool:
        what = self.target.in_the_way()
        if not what:
            return False
        stands, _, cure = what.rpartition("; ")
        place = self.target.path.as_posix()
        self.findings.add(rules.TARGET_IN_THE_WAY, None, what=stands, fix=cure, place=place)
        return True

    def _is_within(self, site: Path) -> bool:
        """Say whether site and place stand in one another, and report it."""
        path, folder = self.target.path, site.resolve()
        if not path.is_relative_to(folder) and not folder.is_relative_to(path):
            return False
        self.findings.add(
            rules.TARGET_IN_THE_WAY,
            None,
            what=f"`{path.as_posix()}` and the built site stand in one another",
            fix="name a folder beside the project, or the root of your web server",
            place=path.as_posix(),
        )
        return True

    def _without_version_before(self, what: str) -> None:
        self.findings.add(
            rules.NO_VERSION_BEFORE,
            None,
            what=what,
            fix="check out what you want to show, then `guidegen build` and `guidegen publish`",
            place=self.target.path.as_posix(),
        )


def _told(fault: Exception) -> tuple[Rule, str, str]:
    """Return the rule, what is wrong, and the cure."""
    match fault:
        case Locked():
            return rules.OTHER_RUN, f"another run is under way: {fault.by}", fault.cure
        case Unable():
            fix = "publish with `--pointer`, into a folder of its own"
            return rules.TARGET_NOT_WRITTEN, str(fault), fix
        case OSError():
            name = f"`{Path(fault.filename).as_posix()}`: " if fault.filename else ""
            what = f"{name}{fault.strerror}; readers see what they saw before"
            fix = "make room or allow writing there, and run this again"
            return rules.TARGET_NOT_WRITTEN, what, fix
        case _:
            fix = "publish again; if it happens again, have the disk looked at"
            return rules.VERSION_DAMAGED, str(fault), fix
