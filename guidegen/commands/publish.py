"""The command that shows a site to its readers.

Takes in what was typed; gives out which version readers see now.
Refuses a site that the proof has not passed or that was changed since.
"""

import time
from pathlib import Path
from typing import NoReturn

import click

from guidegen.build.behind import check_behind
from guidegen.build.project import Project, open_project
from guidegen.build.publish import Moment, ProvedSite, Publishing, Switched, open_proved_site
from guidegen.build.record_files import open_record
from guidegen.build.targets import open_target
from guidegen.build.versions import tell_changes
from guidegen.commands.site import SITE
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, progress, shown
from guidegen.finding import Findings


@click.command()
@click.argument("target", type=click.Path(path_type=Path))
@click.option("--keep", type=click.IntRange(1), default=3, show_default=True, help="Versions kept.")
@click.option("--rollback", is_flag=True, help="Show readers the version before.")
@click.option("--list", "is_listed", is_flag=True, help="Only list the versions that are kept.")
@click.option(
    "--pointer",
    is_flag=True,
    help="For a Windows share whose pages are opened as files: a page leads to the version.",
)
@SITE
@PROJECT
@FORMAT
def publish(  # noqa: PLR0913, PLR0917 -- one parameter an option
    target: Path,
    keep: int,
    rollback: bool,  # noqa: FBT001 -- a flag of the command line
    is_listed: bool,  # noqa: FBT001 -- ditto
    pointer: bool,  # noqa: FBT001 -- ditto
    site: Path | None,
    root: Path,
    form: Format,
) -> None:
    """Copy the proved site to TARGET, and switch readers over to it in one move."""
    if not target.name or target.name == "..":
        raise click.UsageError("TARGET needs a name of its own, as in `/srv/guides`")
    if rollback and is_listed:
        raise click.UsageError("write --rollback or --list, not both")
    findings = Findings()
    place = open_target(target, is_pointer=pointer)
    publishing = Publishing(place, findings, progress=progress)
    if is_listed:
        _list(publishing, form)
    now = time.strftime("%Y-%m-%d %H:%M")
    if rollback:
        _end(publishing.roll_back(now), target, findings, form, back=True)
    project = open_project(root)
    proved = open_proved_site((site or project.root / "site").resolve(), findings)
    if proved is None:
        _end(None, target, findings, form)
    moment = Moment(now, _last_release(project, proved, findings))
    _end(publishing.publish(proved, moment, keep), target, findings, form)


def _last_release(project: Project, site: ProvedSite, findings: Findings) -> str:
    """Return the date of the last release, and warn of trucks that the site lags behind."""
    if not project.specs.is_dir():
        return ""
    check_behind(project, site.editions, site.units, findings)
    record = open_record(project, Findings())
    return record.last_date if record else ""


def _list(publishing: Publishing, form: Format) -> NoReturn:
    listed = publishing.listed()
    versions = [
        {
            "version": each.number,
            "standing": standing,
            "published": each.published,
            "released": each.released,
            "digest": each.digest,
            "units": dict(each.units),
        }
        for each, standing in listed
    ]
    lines = [f"{each} ({standing})" for each, standing in listed]
    summary = "\n".join(lines) or "nothing was ever published here"
    end(Findings(), form, {"versions": versions}, summary)


def _end(
    switched: Switched | None,
    target: Path,
    findings: Findings,
    form: Format,
    *,
    back: bool = False,
) -> NoReturn:
    if switched is None:
        end(findings, form, {"switched": False}, "nothing was switched")
    version, before = switched.version, switched.before
    result = {
        "switched": switched.is_switched,
        "version": version.number,
        "published": version.published,
        "released": version.released,
        "digest": version.digest,
        "before": before.number if before else None,
    }
    if not switched.is_switched:
        end(findings, form, result, f"{shown(target)}: shows this already, {version}")
    lines = [f"{shown(target)}: {'back to ' if back else ''}{version}"]
    changes = tell_changes(before, version) if before else ()
    lines += [f"  {line}" for line in changes]
    end(findings, form, result, "\n".join(lines))
