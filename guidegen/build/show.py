"""What a driver was given at a revision.

Takes in a project and a revision; gives out all that the guide said then, and the publication that
draws its pages again where the templates and guidegen are those of that time. Refuses to call
pages the ones that were published unless their hashes say so.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from guidegen.build.as_of import FleetThen
from guidegen.build.load import load_fleet
from guidegen.build.outputs import Likeness
from guidegen.build.pack_sticks import shared_by_copies
from guidegen.build.program import program_of
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.publication import Publication, publication_of
from guidegen.build.record_files import Editions, edition_path, read_outputs
from guidegen.finding import FaultyInput, Findings
from guidegen.revisions import rules
from guidegen.revisions.model import Record, Revision
from guidegen.revisions.retell import retell, retold_as_page, retold_as_text

_MOST_NAMED = 5


@dataclass(frozen=True, slots=True)
class Redrawing:
    """A publication in which a truck's pages are those of one of its revisions."""

    publication: Publication
    recorded: Mapping[str, str]
    """SHA-256 of each file that was published of the truck, by path in the site."""


def told_of(project: Project, revision: Revision, findings: Findings) -> Mapping[str, Any] | None:
    """Return all that *revision* said; nothing and a finding if its edition is not as it was."""
    if Editions(project, findings).kept(revision) is None:
        return None
    content = json.loads(edition_path(project, revision.edition).read_bytes())
    return retell(revision, content)


def plan_redrawing(
    project: Project,
    record: Record,
    revision: Revision,
    findings: Findings,
    progress: Progress = unseen,
) -> Redrawing | None:
    """Return what draws the pages of *revision* again; nothing and a warning why it cannot be.

    Args:
        project: As it stands.
        record: Of all revisions.
        revision: That is to be shown.
        findings: Takes the warning.
        progress: Shows how far the work has come.
    """
    own = Findings()
    recorded = read_outputs(project, revision, own)
    if recorded is None:
        findings.extend(own)
        if not own.has_errors:
            _not_drawn(revision, "the record of that time kept no hashes of pages", findings)
        return None
    program = program_of(project)
    if program != revision.program:
        why = f"guidegen or its templates changed since: {revision.program} then, {program} now"
        _not_drawn(revision, why, findings)
        return None
    loaded = load_fleet(project, Findings(), progress)
    if loaded is None or revision.unit not in loaded.guides:
        _not_drawn(revision, "the truck has no guide now", findings)
        return None
    then = FleetThen(project, loaded, record).at(revision)
    if then is None:
        _not_drawn(revision, "its edition was kept by an older guidegen", findings)
        return None
    try:
        publication = publication_of(project, then, Findings())
    except FaultyInput:
        _not_drawn(revision, "the fleet's cards have faults now", findings)
        return None
    return Redrawing(publication, recorded)


def write_told(told: Mapping[str, Any], folder: Path) -> tuple[Path, ...]:
    """Write what a revision said into *folder*, as a page, as text and as JSON."""
    folder.mkdir(parents=True, exist_ok=True)
    name = f"{told['unit']}-revision-{told['revision']}"
    texts = {
        "html": retold_as_page(told),
        "txt": retold_as_text(told),
        "json": json.dumps(told, ensure_ascii=False, indent=2) + "\n",
    }
    written = []
    for ending, text in texts.items():
        path = folder / f"{name}.{ending}"
        path.write_text(text, encoding="utf-8", newline="\n")
        written.append(path)
    return tuple(written)


def write_pages(site: Path, likeness: Likeness, folder: Path) -> None:
    """Copy the files of *site* that are as they were into *folder*, and what they load."""
    shared = shared_by_copies(site)
    same = {name: (site / name).read_bytes() for name in likeness.same}
    for name, raw in {**shared, **same}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)


def warn_of_others(revision: Revision, likeness: Likeness, findings: Findings) -> None:
    """Warn of files that are drawn otherwise now, or not at all."""
    if not likeness.other:
        return
    more = len(likeness.other) - _MOST_NAMED
    named = ", ".join(likeness.other[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    why = f"what they say of other trucks, or of the fleet, changed since: {named}"
    _not_drawn(revision, why, findings)


def _not_drawn(revision: Revision, why: str, findings: Findings) -> None:
    findings.add(
        rules.PAGES_NOT_DRAWN,
        None,
        what=f"not all pages of revision {revision.number} can be drawn as they were; {why}",
        fix="go by what was recorded, or check out the commit of that release and run this there",
        unit=revision.unit,
    )
