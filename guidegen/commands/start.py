"""The command that starts a fleet.

Takes in what was typed; gives out a project to be edited.
Refuses a folder that holds anything.
"""

from pathlib import Path

import click

from guidegen.build.project import open_project
from guidegen.build.start import start_project
from guidegen.build.workbook_files import DEFAULT_NAME, export_workbook
from guidegen.commands.terminal import end
from guidegen.finding import Findings


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option(
    "--workbook",
    "is_bare",
    is_flag=True,
    help="Start without a truck, with an empty workbook in which trucks and models are entered.",
)
def init(folder: Path, is_bare: bool) -> None:  # noqa: FBT001 -- a flag of the command line
    """Start a fleet in FOLDER, from the demo fleet, ready to be edited."""
    findings = Findings()
    if not start_project(folder, findings, is_bare=is_bare):
        end(findings, "text", {})
    if is_bare:
        made = export_workbook(open_project(folder), findings)
        if made is None:
            end(findings, "text", {})
        (folder / DEFAULT_NAME).write_bytes(made[0])
        click.echo(f"{folder.as_posix()} holds {DEFAULT_NAME}, in which trucks are entered.")
        click.echo(
            f"Next: say who you are in {folder.as_posix()}/specs/fleet.yml, fill it in, then"
        )
        click.echo(f"cd {folder.as_posix()} && guidegen workbook import {DEFAULT_NAME}")
        return
    click.echo(f"{folder.as_posix()} holds a demo fleet of eight trucks.")
    click.echo(f"Next: cd {folder.as_posix()} && guidegen build")
