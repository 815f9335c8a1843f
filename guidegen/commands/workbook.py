"""The commands about the workbook that the office's clerk fills in.

Takes in what was typed; gives out a workbook, or what one would change and did change.
Refuses to write to the clerk's file, and to write specs without being told to.
"""

from pathlib import Path

import click

from guidegen.build.project import open_project
from guidegen.build.spec_disk import Disk
from guidegen.build.workbook_files import DEFAULT_NAME, export_workbook
from guidegen.build.workbook_import import ImportPlan, plan_import, write_import
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, shown
from guidegen.finding import Findings
from guidegen.workbook import rules

_MOST_NAMED = 5


@click.group()
def workbook() -> None:
    """The specs as a workbook: export it, let the clerk fill it in, import it."""


@workbook.command("export")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    default=None,
    show_default=f"{DEFAULT_NAME} in the project",
    help="File to write.",
)
@click.option("--force", is_flag=True, help="Write over a workbook that is there.")
@PROJECT
@FORMAT
def export(out: Path | None, force: bool, root: Path, form: Format) -> None:  # noqa: FBT001 -- a flag of the command line
    """Write all trucks and models into a workbook, to be filled in and imported."""
    findings = Findings()
    project = open_project(root)
    target = out or project.root / DEFAULT_NAME
    made = export_workbook(project, findings)
    if made is None:
        end(findings, form, {"written": False}, "no workbook was written")
    raw, trucks = made
    if not force and target.exists() and target.read_bytes() != raw:
        findings.add(
            rules.WORKBOOK_IN_THE_WAY,
            None,
            what=f"`{shown(target)}` is there already and holds something else",
            fix="import it first, name another file with `--out`, or write `--force`",
            place=shown(target),
        )
        end(findings, form, {"written": False}, "no workbook was written")
    if not _is_written(target, raw, findings):
        end(findings, form, {"written": False}, "no workbook was written")
    result = {"written": True, "file": target.as_posix(), "trucks": trucks}
    counted = f"{trucks} truck{'s' * (trucks != 1)}"
    end(findings, form, result, f"{shown(target)}: {counted}")


@workbook.command("import")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False, exists=True))
@click.option("--apply", "is_real", is_flag=True, help="Write the changes into the specs.")
@PROJECT
@FORMAT
def import_(file: Path, is_real: bool, root: Path, form: Format) -> None:  # noqa: FBT001 -- a flag of the command line
    """Say what the workbook FILE changes; with --apply, change the specs. FILE stays as it is."""
    findings = Findings()
    project = open_project(root)
    plan = plan_import(project, file.name, file.read_bytes(), findings)
    if plan is None or findings.has_errors:
        listed = _listed(plan) if plan else ""
        summary = f"{listed}nothing was written: there are faults"
        end(findings, form, {"written": False, **(plan.as_json() if plan else {})}, summary)
    result = plan.as_json()
    if not plan.files:
        end(
            findings, form, {"written": False, **result}, f"{_listed(plan)}nothing is to be changed"
        )
    counted = _counted(plan)
    if not is_real:
        summary = f"{_listed(plan)}{counted}; nothing was written: this was a dry run (--apply)"
        end(findings, form, {"written": False, **result}, summary)
    is_written = write_import(project, plan, findings)
    summary = f"{counted}, written" if is_written else "nothing can be called written"
    end(findings, form, {"written": is_written, **result}, f"{_listed(plan)}{summary}")


def _is_written(target: Path, raw: bytes, findings: Findings) -> bool:
    draft = target.with_name(f".{target.name}.new")
    try:
        Disk().write(draft, raw)
        Disk().replace(draft, target)
    except OSError as fault:
        draft.unlink(missing_ok=True)
        findings.add(
            rules.CANNOT_WRITE,
            None,
            what=f"`{shown(target)}` cannot be written: {fault.strerror or fault}",
            fix="close it in the program for spreadsheets, or name another file with `--out`",
            place=shown(target),
        )
        return False
    return True


def _listed(plan: ImportPlan) -> str:
    lines = list(plan.lines)
    if plan.newer:
        few = ", ".join(plan.newer[:_MOST_NAMED])
        more = len(plan.newer) - _MOST_NAMED
        others = f" and {more} more" if more > 0 else ""
        lines.append(
            f"changed since the export: {few}{others}; cells that nobody touched do not undo that"
        )
    return "".join(f"{line}\n" for line in lines)


def _counted(plan: ImportPlan) -> str:
    changes, files = len(plan.lines), len(plan.files)
    return f"{changes} change{'s' * (changes != 1)} in {files} file{'s' * (files != 1)}"
