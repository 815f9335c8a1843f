"""The commands about revisions.

Takes in what was typed; gives out new revisions, and what changed with each.
Refuses to record what the proof has not passed.
"""

import time
from pathlib import Path
from typing import NoReturn

import click

from guidegen.build.lock import Locked
from guidegen.build.project import Project, open_project
from guidegen.build.record_files import (
    RecordChanged,
    alone,
    finish_release,
    open_record,
    record_path,
)
from guidegen.build.release import Approval, Release, plan_release
from guidegen.build.rules import OTHER_RUN
from guidegen.build.scratch import scratch_folder
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, named, progress, refuse, shown
from guidegen.finding import FaultyInput, Findings
from guidegen.mkdocs_plugin import draw_site
from guidegen.revisions.report import format_history, history_as_json


@click.command()
@click.option("--by", required=True, help="Who has approved the guides.")
@click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    default=None,
    show_default="today",
    help="Date that cards carry.",
)
@click.option("--dry-run", is_flag=True, help="Only say what would be released; nothing is proved.")
@PROJECT
@FORMAT
def release(by: str, day: object, dry_run: bool, root: Path, form: Format) -> None:  # noqa: FBT001 -- a flag of the command line
    """Give every guide that changed its next revision, once its pages are proved."""
    findings = Findings()
    project = open_project(root)
    approval = Approval(named(by), _date(day))
    if dry_run:
        _release(project, approval, findings, form, is_dry=True)
    try:
        with alone(project, time.strftime("%Y-%m-%d %H:%M")):
            _release(project, approval, findings, form, is_dry=False)
    except Locked as locked:
        what = f"another release is under way: {locked.by}"
        place = shown(record_path(project))
        findings.add(OTHER_RUN, None, what=what, fix=locked.cure, place=place)
        end(findings, form, {"released": False, "revisions": []}, "nothing was released")


def _release(
    project: Project, approval: Approval, findings: Findings, form: Format, *, is_dry: bool
) -> NoReturn:
    planned = plan_release(project, approval, findings, progress)
    if planned is None:
        end(findings, form, {"released": False, "revisions": []}, "nothing was released")
    if not planned.issued:
        if not is_dry:
            finish_release(project)
        end(
            findings,
            form,
            {"released": False, "revisions": []},
            "nothing to release: no guide has changed",
        )
    if is_dry:
        result = planned.as_json()
        summary = f"{planned.as_text()}\nnothing was released: this was a dry run, without a proof"
        end(findings, form, {"released": False, **result}, summary)
    proved = _proved(planned, project.config_file, findings)
    if proved is None:
        end(findings, form, {"released": False, "revisions": []}, "nothing was released")
    try:
        proved.write()
    except RecordChanged as changed:
        raise click.UsageError("another release came between; run this one again") from changed
    count = len(proved.issued)
    counted = "1 revision" if count == 1 else f"{count} revisions"
    summary = f"{proved.as_text()}\n{shown(record_path(project))}: {counted} released"
    end(findings, form, {"released": True, **proved.as_json()}, summary)


@click.command()
@click.argument("unit")
@PROJECT
@FORMAT
def history(unit: str, root: Path, form: Format) -> None:
    """Print the revisions of UNIT, the newest first, with what changed in each."""
    findings = Findings()
    project = open_project(root)
    record = open_record(project, findings)
    if record is None:
        end(findings, form, {})
    revisions = record.of(unit)
    files = [Path(path).stem for path, _ in project.spec_files("units")]
    if not revisions and unit not in files:
        refuse("unit", unit, sorted({*files, *record.by_unit()}))
    told = history_as_json(unit, revisions)
    end(findings, form, told, format_history(unit, revisions).rstrip())


def _proved(planned: Release, config_file: Path, findings: Findings) -> Release | None:
    """Publish into a scratch folder, with the new revisions; nothing unless all is proved."""
    with scratch_folder() as scratch:
        site = Path(scratch) / "site"
        try:
            outcome = draw_site(config_file, planned.publication, site)
        except FaultyInput as fault:
            findings.extend(fault.findings)
            return None
        findings.extend(outcome.findings)
        if not outcome.proved or outcome.findings.has_errors:
            return None
        return planned.with_outputs(site)


def _date(day: object) -> str:
    """Return the date that was typed, or that of today where the office is."""
    typed = getattr(day, "date", None)
    return typed().isoformat() if typed else time.strftime("%Y-%m-%d")
