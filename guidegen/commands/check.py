"""The command that looks at the files of a fleet.

Takes in what was typed; gives out what was found.
Refuses to make anything: it reads in nothing that draws or proves pages, and so begins at once.
"""

from pathlib import Path

import click

from guidegen.build.cover import cover_fleet
from guidegen.build.load import load_fleet
from guidegen.build.old_records import old_in
from guidegen.build.print_shop import open_stated_shop
from guidegen.build.project import open_project
from guidegen.commands.terminal import FORMAT, PROJECT, TODAY, Format, day_of, end, progress
from guidegen.finding import Findings
from guidegen.gaps.recheck import report_old


@click.command()
@TODAY
@PROJECT
@FORMAT
def check(today: object, root: Path, form: Format) -> None:
    """Read all specs and procedures, and report every fault at once."""
    findings = Findings()
    project = open_project(root)
    loaded = load_fleet(project, findings, progress)
    if loaded:
        cover_fleet(project, loaded, findings)
        open_stated_shop(project, loaded, findings)
        report_old(old_in(loaded, day_of(today)), findings)
    ready = len(loaded.guides) if loaded else 0
    # A fault of the fleet file leaves no guide, and the trucks are there all the same.
    total = len(loaded.unit_numbers) if loaded else len(list(project.spec_files("units")))
    end(findings, form, {"units": total, "ready": ready}, f"{ready} of {total} guides are ready")
