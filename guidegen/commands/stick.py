"""The command that packs trucks' guides for sticks.

Takes in what was typed; gives out zip files.
Refuses a site that the proof does not pass.
"""

from pathlib import Path

import click

from guidegen.build.pack_sticks import pack_sticks
from guidegen.build.project import open_project
from guidegen.build.publication import open_publication
from guidegen.commands.terminal import FORMAT, PROJECT, Format, chosen, end, progress, shown
from guidegen.finding import FaultyInput, Findings


@click.command()
@click.argument("units", nargs=-1)
@click.option("--all", "is_all", is_flag=True, help="Every unit of the fleet.")
@click.option(
    "--site",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="site/ in the project",
    help="Folder of the published site.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="sticks/ in the project",
    help="Folder to write to.",
)
@PROJECT
@FORMAT
def pack(  # noqa: PLR0913, PLR0917 -- one parameter an option
    units: tuple[str, ...],
    is_all: bool,  # noqa: FBT001 -- a flag of the command line
    site: Path | None,
    out: Path | None,
    root: Path,
    form: Format,
) -> None:
    """Pack the guides of UNITS for sticks: a zip file each, which opens without a network."""
    findings = Findings()
    project = open_project(root)
    written: tuple[Path, ...] = ()
    try:
        publication = open_publication(project.root, progress)
        findings.extend(publication.findings)
        numbers = chosen(units, publication.loaded, findings, form, is_all=is_all)
        target = (site or project.root / "site").resolve()
        written = pack_sticks(
            publication, target, numbers, out or project.root / "sticks", findings
        )
    except FaultyInput as fault:
        findings.extend(fault.findings)
    listed = [{"file": path.as_posix(), "bytes": path.stat().st_size} for path in written]
    summary = "\n".join(f"{shown(path)}: {path.stat().st_size / 1e6:.1f} MB" for path in written)
    end(findings, form, {"files": listed}, summary)
