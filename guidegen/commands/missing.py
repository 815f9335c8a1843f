"""The command that says what is missing.

Takes in what was typed; gives out which gap to close first, and the files for the office.
Refuses to look at the clock for anything but the date on a form, and the age of what is recorded.
"""

import sys
from pathlib import Path

import click

from guidegen.build.load import load_fleet
from guidegen.build.missing import (
    FormOrder,
    draw_forms,
    faulty_units,
    fleet_gaps,
    lacking,
    missing_files,
    write_forms,
    write_missing,
)
from guidegen.build.old_records import old_in
from guidegen.build.project import open_project
from guidegen.commands.terminal import (
    EXIT_FINDINGS,
    FORMAT,
    PROJECT,
    TODAY,
    Format,
    day_of,
    end,
    progress,
    refuse,
    shown,
)
from guidegen.finding import Findings
from guidegen.gaps.model import Grade
from guidegen.gaps.recheck import report_old
from guidegen.gaps.report import format_gaps, gaps_as_json
from guidegen.paper.stock import STOCKS


@click.command()
@click.argument("units", nargs=-1)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the page, the list for the shop and a form for each of UNITS to.",
)
@click.option("--values", is_flag=True, help="List what only the data page lacks too.")
@click.option(
    "--stock",
    type=click.Choice(list(STOCKS)),
    default="letter",
    show_default=True,
    help="What the forms are printed on.",
)
@TODAY
@PROJECT
@FORMAT
def missing(  # noqa: PLR0913, PLR0917 -- one parameter an option
    units: tuple[str, ...],
    out: Path | None,
    values: bool,  # noqa: FBT001 -- a flag of the command line
    stock: str,
    today: object,
    root: Path,
    form: Format,
) -> None:
    """Say what nobody has on record, what that holds back, and which gap to close first."""
    findings = Findings()
    project = open_project(root)
    loaded = load_fleet(project, findings, progress)
    if loaded is None:
        end(findings, form, {})
    for number in units:
        if number not in loaded.unit_numbers:
            refuse("unit", number, list(loaded.unit_numbers))
    fleet = fleet_gaps(loaded, faulty_units(findings))
    day = day_of(today)
    old = old_in(loaded, day)
    report_old(old, findings)
    least = Grade.VALUE_ONLY if values else Grade.LEAVES_OUT
    written: list[Path] = []
    if out is not None:
        order = FormOrder(lacking(fleet, units, least), STOCKS[stock], day, least)
        drawn = draw_forms(project, loaded.fleet.name, fleet, order, findings, progress)
        forms = write_forms(out, drawn)
        written += write_missing(out, missing_files(fleet, old, least=least, forms=forms))
        written += forms.values()
    if form == "json":
        files = [path.as_posix() for path in written]
        end(findings, form, {**gaps_as_json(fleet, old), "files": files})
    click.echo(format_gaps(fleet, old), nl=False)
    if written:
        click.echo(f"\n{len(written):,} files in {shown(out or Path())}")
    sys.exit(EXIT_FINDINGS if findings.has_errors else 0)
