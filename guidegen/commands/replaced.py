"""The command that says what the fleet has replaced.

Takes in what was typed; gives out what of the library is other in this fleet, and the page for the
office. Refuses to look at any truck.
"""

from pathlib import Path

import click

from guidegen.build.project import open_project
from guidegen.build.replaced import read_replaced, write_replaced
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, refuse, shown
from guidegen.finding import Findings
from guidegen.procedures.own.report import format_replaced, replaced_as_json


@click.command()
@click.argument("procedures", nargs=-1)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the page for the office to.",
)
@PROJECT
@FORMAT
def replaced(procedures: tuple[str, ...], out: Path | None, root: Path, form: Format) -> None:
    """Say what the fleet's own procedures and steps have otherwise than the library."""
    findings = Findings()
    own = read_replaced(open_project(root), findings)
    ids = [each.template.id for each in own]
    for id_ in procedures:
        # One that has faults is told of in the findings.
        if id_ not in ids and not findings.has_errors:
            refuse("procedure of the fleet", id_, ids)
    asked = [each for each in own if not procedures or each.template.id in procedures]
    written = [path.as_posix() for path in write_replaced(out, own)] if out else []
    summary = format_replaced(asked).rstrip()
    if out is not None:
        summary += f"\n\n{len(written):,} files in {shown(out)}"
    end(findings, form, {**replaced_as_json(asked), "files": written}, summary)
