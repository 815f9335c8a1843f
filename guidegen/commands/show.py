"""The command that shows what a driver was given at a revision.

Takes in what was typed; gives out the recorded guide, and the pages where they can be drawn again.
Refuses to pass off pages of today as those of then.
"""

from pathlib import Path
from typing import Any

import click

from guidegen.build.outputs import Likeness, likeness_of
from guidegen.build.project import Project, open_project
from guidegen.build.record_files import open_record
from guidegen.build.scratch import scratch_folder
from guidegen.build.show import (
    plan_redrawing,
    told_of,
    warn_of_others,
    write_pages,
    write_told,
)
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, progress, refuse, shown
from guidegen.finding import Findings
from guidegen.mkdocs_plugin import draw_site
from guidegen.revisions.model import Record, Revision
from guidegen.revisions.retell import retold_as_text


@click.command()
@click.argument("unit")
@click.option(
    "--revision",
    "number",
    type=int,
    default=None,
    show_default="the last one",
    help="Number of the revision, as on cards and start page.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write to: the recorded guide, and its pages where they can be drawn again.",
)
@PROJECT
@FORMAT
def show(unit: str, number: int | None, out: Path | None, root: Path, form: Format) -> None:
    """Show what the guide of UNIT said at a revision."""
    findings = Findings()
    project = open_project(root)
    record = open_record(project, findings)
    if record is None:
        end(findings, form, {})
    revision = _chosen(record, unit, number)
    told = told_of(project, revision, findings)
    if told is None:
        end(findings, form, {})
    if out is None:
        end(findings, form, dict(told), retold_as_text(told).rstrip())
    written = write_told(told, out)
    likeness = _redrawn(project, record, revision, out, findings)
    pages = len(likeness.same)
    result: dict[str, Any] = {
        "unit": unit,
        "revision": revision.number,
        "files": [path.as_posix() for path in written],
        "pages_as_published": list(likeness.same),
        "pages_other_now": list(likeness.other),
    }
    lines = [shown(path) for path in written]
    if pages:
        folder = shown(_folder(out, revision))
        lines.append(f"{folder}: {pages} files, byte for byte as they were published")
    else:
        lines.append("no pages: what is shown is what was recorded")
    end(findings, form, result, "\n".join(lines))


def _chosen(record: Record, unit: str, number: int | None) -> Revision:
    revisions = record.of(unit)
    if not revisions:
        refuse("released unit", unit, sorted(record.by_unit()))
    if number is None:
        return revisions[-1]
    if not 1 <= number <= len(revisions):
        raise click.UsageError(
            f"there is no revision {number} of {unit}; the last is {len(revisions)}"
        )
    return revisions[number - 1]


def _redrawn(
    project: Project, record: Record, revision: Revision, out: Path, findings: Findings
) -> Likeness:
    """Draw the pages again, and write those that are as they were."""
    planned = plan_redrawing(project, record, revision, findings, progress)
    if planned is None:
        return Likeness((), ())
    with scratch_folder() as scratch:
        site = Path(scratch) / "site"
        outcome = draw_site(project.config_file, planned.publication, site)
        if not outcome.proved:
            findings.extend(outcome.findings)
            return Likeness((), tuple(sorted(planned.recorded)))
        likeness = likeness_of(site, planned.recorded)
        warn_of_others(revision, likeness, findings)
        write_pages(site, likeness, _folder(out, revision))
        return likeness


def _folder(out: Path, revision: Revision) -> Path:
    return out / f"{revision.unit}-revision-{revision.number}"
