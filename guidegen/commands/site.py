"""The commands that make a site and prove it.

Takes in what was typed; gives out the site, and what was found.
Refuses to publish what the proof has not passed.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from guidegen.build.fleet_memory import FleetMemory, open_memory
from guidegen.build.folder_states import read_ahead
from guidegen.build.patch import is_in_order
from guidegen.build.project import Project, open_project
from guidegen.build.prove import Outcome
from guidegen.build.publication import Publication, open_publication, prove_site
from guidegen.build.workers import started
from guidegen.collector import look_as_usual
from guidegen.commands.terminal import (
    FORMAT,
    PROJECT,
    Format,
    end,
    progress,
    shown,
    tell,
)
from guidegen.commands.work import Work, publish, work_options
from guidegen.finding import FaultyInput, Findings

SITE = click.option(
    "--site",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="site/ in the project",
    help="Folder of the published site.",
)

_WORTH_A_START = 32
"""Units of a fleet that was never built, from which other processes are started at once."""


@click.command()
@PROJECT
@SITE
@work_options
@FORMAT
def build(root: Path, site: Path | None, form: Format, work: Work) -> None:
    """Build the site, prove it, and only then put it in place of the old one."""
    project = open_project(root)
    target = (site or project.root / "site").resolve()
    findings = Findings()
    memory = open_memory(work.store, project.root, target)
    # While this process reads specs and library, others read in the program, or another one looks
    # at the site as it stands.
    is_worth_it = not memory.units and len(list(project.spec_files("units"))) >= _WORTH_A_START
    with (
        started(work.workers, "guidegen.build.far_press", is_worth_it=is_worth_it),
        read_ahead(target, is_worth_it=bool(memory.units) and is_in_order(target)) as memory.states,
    ):
        publication = replace(_opened(project, findings, form, memory), workers=work.workers)
        try:
            outcome = publish(publication, target, work)
        except FaultyInput as fault:
            findings.extend(fault.findings)
            end(findings, form, {})
    findings.extend(outcome.findings)
    end(findings, form, _counts(outcome, target), _summary(outcome, target))


@click.command()
@PROJECT
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Host and port.")
def serve(root: Path, address: str) -> None:
    """Show the site while its files are edited; what is saved is shown at once.

    The page that is open is drawn and proved first, and says that it is a preview until the whole
    site is proved. Nothing is written into the project.
    """
    # The site engine takes a while to be read in, and no other command needs it.
    from guidegen.mkdocs_plugin import docs_folder  # noqa: PLC0415
    from guidegen.serving.session import serve_project  # noqa: PLC0415

    project = open_project(root)
    host, _, port = address.rpartition(":")
    if not host or not port.isdecimal():
        raise click.UsageError(f"`{address}` is no host and port: write it as 127.0.0.1:8000")
    watched = (*project.watched, project.config_file, docs_folder(project.config_file))
    look_as_usual()
    try:
        serve_project(project, watched, (host, int(port)), tell)
    except OSError as fault:
        raise click.ClickException(f"nothing can be served at {address}: {fault}") from fault
    except KeyboardInterrupt:
        click.echo("stopped")


@click.command()
@click.argument(
    "site", type=click.Path(path_type=Path, file_okay=False), required=False, default=None
)
@PROJECT
@FORMAT
def prove(site: Path | None, root: Path, form: Format) -> None:
    """Read a published SITE back, and compare it with the guides of this fleet."""
    project = open_project(root)
    target = (site or project.root / "site").resolve()
    findings = Findings()
    publication = _opened(project, findings, form)
    outcome = prove_site(publication, target)
    findings.extend(outcome.findings)
    end(findings, form, _counts(outcome, target), _summary(outcome, target))


def _opened(
    project: Project, findings: Findings, form: Format, memory: FleetMemory | None = None
) -> Publication:
    """Return the publication of *project*; end with its findings if there is none."""
    try:
        publication = open_publication(project.root, progress, memory)
    except FaultyInput as fault:
        findings.extend(fault.findings)
        end(findings, form, {})
    findings.extend(publication.findings)
    return publication


def _counts(outcome: Outcome, target: Path) -> dict[str, Any]:
    return {"site": target.as_posix(), "published": outcome.published, **outcome.counts}


def _summary(outcome: Outcome, target: Path) -> str:
    counted = ", ".join(f"{count:,} {name}" for name, count in outcome.counts.items())
    where = f"{shown(target)}: " if outcome.published else "not published: "
    return f"{where}{counted}"
