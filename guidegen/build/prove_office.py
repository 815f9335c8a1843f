"""The proof of the pages for the office, read back from the site.

Takes in what the pages were made of, and the folder of a site; gives out failures.
Refuses to take a page for proved that stands on the disk otherwise than it was proved.
"""

from collections.abc import Collection, Mapping, Sequence
from pathlib import Path

from guidegen.build.manifest import MANIFEST
from guidegen.build.prove import OFFICE
from guidegen.gaps.model import FleetGaps
from guidegen.gaps.page import PAGE_NAME as MISSING_NAME
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.own.page import PAGE_NAME as REPLACED_NAME
from guidegen.proof import rules
from guidegen.proof.model import Failure
from guidegen.proof.office.prove_office import (
    OfficeClaims,
    claims_of_missing,
    claims_of_replaced,
    index_claims,
    prove_office,
)

INDEX_NAME = "index.html"
_FIX = "build again; if it comes again, look at the disk"


def prove_office_pages(
    site: Path,
    fleet_name: str,
    own: Sequence[OwnProcedure],
    gaps: FleetGaps | None,
    root: Collection[str],
) -> tuple[Failure, ...]:
    """Return what is wrong with the pages for the office in *site*.

    Args:
        site: Its folder.
        fleet_name: As it stands in the fleet file.
        own: What the fleet says in its own words.
        gaps: What is missing; none if the page of that was proved when it was made.
        root: Paths of the files of the site that are neither a truck's nor the office's.
    """
    folder = site / OFFICE
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    pages: dict[str, OfficeClaims] = {INDEX_NAME: index_claims(fleet_name, has_own=bool(own))}
    if own:
        pages[REPLACED_NAME] = claims_of_replaced(own)
    if gaps is not None:
        pages[MISSING_NAME] = claims_of_missing(gaps, names)
    # The list of all files is written when the proof has passed.
    paths = {*root, *(f"{OFFICE}/{name}" for name in names), MANIFEST}
    read = {n: (folder / n).read_bytes() for n in names if n.endswith((".html", ".css"))}
    return prove_office(pages, read, paths)


def changed_since_proof(site: Path, proved: Mapping[str, bytes]) -> tuple[Failure, ...]:
    """Return which of the files *proved*, by name in the office's folder, stand otherwise there."""
    folder = site / OFFICE
    return tuple(
        Failure(rules.TEXT_NOT_READ_BACK, "", f"{OFFICE}/{name}", "is not as it was proved", _FIX)
        for name, raw in proved.items()
        if not (folder / name).is_file() or (folder / name).read_bytes() != raw
    )
