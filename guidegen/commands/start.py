"""The command that starts a fleet.

Takes in what was typed; gives out a project to be edited.
Refuses a folder that holds anything.
"""

from pathlib import Path
from typing import Any

import click

from guidegen.build.project import open_project
from guidegen.build.start import start_project
from guidegen.build.workbook_files import DEFAULT_NAME, export_workbook
from guidegen.commands.terminal import FORMAT, Format, end
from guidegen.finding import Findings


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.option(
    "--workbook",
    "is_bare",
    is_flag=True,
    help="Start without a truck, with an empty workbook in which trucks and models are entered.",
)
@FORMAT
def init(folder: Path, is_bare: bool, form: Format) -> None:  # noqa: FBT001 -- a flag of the command line
    """Start a fleet in FOLDER, from the demo fleet, ready to be edited."""
    findings = Findings()
    name = folder.as_posix()
    result: dict[str, Any] = {"folder": name, "started": False, "workbook": None}
    if not start_project(folder, findings, is_bare=is_bare):
        end(findings, form, result)
    result["started"] = True
    if not is_bare:
        lines = (
            f"{name} holds a demo fleet of eight trucks.",
            f"Next: cd {name} && guidegen build",
        )
        end(findings, form, result, "\n".join(lines))
    made = export_workbook(open_project(folder), findings)
    if made is None:
        end(findings, form, result)
    (folder / DEFAULT_NAME).write_bytes(made[0])
    told = (
        f"{name} holds {DEFAULT_NAME}, in which trucks are entered.",
        f"Next: say who you are in {name}/specs/fleet.yml, fill it in, then",
        f"cd {name} && guidegen workbook import {DEFAULT_NAME}",
    )
    end(
        findings,
        form,
        {**result, "workbook": (folder / DEFAULT_NAME).as_posix()},
        "\n".join(told),
    )
