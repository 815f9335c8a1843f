"""The site as a whole: what the pages of single units cannot show.

Takes in the verdicts of all units and a reader of files; gives out failures of frames that
differ, of the fleet page, of folders of unknown trucks and of addresses that leave the site.
Refuses a truck that is listed twice, or not at all.
"""

import re
from collections import Counter
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, field

from guidegen.proof import rules
from guidegen.proof.claims import START_PATH
from guidegen.proof.compare_app import compare_app
from guidegen.proof.compare_fleet_page import compare_fleet_page
from guidegen.proof.compare_truck_list import compare_truck_list
from guidegen.proof.fleet_claims import FleetClaims, Read
from guidegen.proof.known_pages import KnownPages, nothing_known
from guidegen.proof.links import judge_address
from guidegen.proof.model import Failure, FrameRead, UnitVerdict
from guidegen.proof.read_frame import read_surround
from guidegen.proof.unit_record import UnitRecord

_UNIT_FOLDER = re.compile(r"[A-Z0-9]+(-[A-Z0-9]+)*")
_FIX = "repair the page template"
_FIX_ADDRESS = "carry the file in the site and lead to it by a relative address"


def compare_fleet(
    units: Sequence[UnitRecord],
    verdicts: Sequence[UnitVerdict],
    read: Read,
    fleet: FleetClaims,
    known: KnownPages | None = None,
) -> tuple[Failure, ...]:
    """Return what is wrong with the site of *units* beyond their own pages.

    Args:
        units: Every truck whose guide is published.
        verdicts: One for each.
        read: Reads a file of the site.
        fleet: What is known of the site.
        known: What was proved before; takes what is proved now.
    """
    pages = known or nothing_known(fleet)
    return (
        *_differing_frames(verdicts),
        *compare_fleet_page(units, read, fleet, pages),
        *compare_truck_list(units, read, fleet),
        *_unknown_units(fleet),
        *_addresses_of_styles(fleet),
        *_other_pages(read, fleet, pages),
        *(compare_app(read, fleet) if fleet.shell is not None else ()),
    )


def _differing_frames(verdicts: Sequence[UnitVerdict]) -> Iterator[Failure]:
    # Units of one edition have the same frames, so that these are counted once for all of them.
    units: dict[tuple[FrameRead, ...], list[str]] = {}
    for verdict in verdicts:
        units.setdefault(verdict.frames, []).append(verdict.unit)
    by_kind: dict[str, Counter[str]] = {}
    for frames, numbers in units.items():
        for frame in frames:
            by_kind.setdefault(frame.kind, Counter())[frame.digest] += len(numbers)
    usual = {kind: counts.most_common(1)[0][0] for kind, counts in by_kind.items()}
    for verdict in verdicts if any(len(counts) > 1 for counts in by_kind.values()) else ():
        for kind, page, digest in verdict.frames:
            if digest != usual[kind]:
                path = f"{verdict.unit}/{page}"
                what = f"what stands around the body differs from most pages of the kind `{kind}`"
                yield Failure(rules.FRAME_DIFFERS, verdict.unit, path, what, _FIX)


@dataclass(frozen=True, slots=True)
class _Reachable(Container[str]):
    """All files of the site, those of units among them."""

    read: Read
    fleet: FleetClaims
    asked: list[str] = field(default_factory=list)
    """Files of units that were asked for, but start pages."""

    def __contains__(self, path: object) -> bool:
        if path in self.fleet.paths:
            return True
        folder, _, name = str(path).partition("/")
        if folder not in self.fleet.numbers:
            return False
        # A start page that is not there has been said with its unit.
        if name == START_PATH:
            return True
        self.asked.append(str(path))
        return self.read(str(path)) is not None


def _unknown_units(fleet: FleetClaims) -> Iterator[Failure]:
    folders = {path.partition("/")[0] for path in fleet.paths if "/" in path}
    for folder in sorted(folders - fleet.numbers):
        if _UNIT_FOLDER.fullmatch(folder):
            what = f"there is no guide for a truck `{folder}`"
            fix = "delete the folder, and build into an empty one"
            yield Failure(rules.UNKNOWN_TRUCK, "", f"{folder}/", what, fix)


def _addresses_of_styles(fleet: FleetClaims) -> Iterator[Failure]:
    for path, address in fleet.styles.addresses:
        if address.startswith("#"):
            continue
        stray = judge_address(path, address, fleet.paths)
        if stray is not None:
            yield Failure(stray.rule, "", path, stray.what, _FIX_ADDRESS)


def _other_pages(read: Read, fleet: FleetClaims, known: KnownPages) -> Iterator[Failure]:
    for path in sorted(fleet.paths):
        if not path.endswith(".html"):
            continue
        raw, reachable = read(path) or b"", _Reachable(read, fleet)
        if known.find(path, raw) is None:
            yield from _page(path, raw, reachable)
        # A file of a truck may be gone another time.
        if not reachable.asked:
            known.keep(path, raw)


def _page(path: str, raw: bytes, reachable: _Reachable) -> Iterator[Failure]:
    text = raw.decode("utf-8", "replace")
    surround = read_surround(text, "")
    for stray in surround.strays:
        if stray.rule is not rules.UNCLAIMED_MARK:
            yield Failure(stray.rule, "", path, stray.what, _FIX_ADDRESS)
    for address in surround.addresses:
        found = judge_address(path, address, reachable)
        if found is not None:
            yield Failure(found.rule, "", path, found.what, _FIX_ADDRESS)
    if "data-guide=" in text:
        what = "holds the body of a guide, and belongs to no truck"
        yield Failure(rules.PAGE_TOO_MANY, "", path, what, _FIX)
