"""The commands that look into guides.

Takes in what was typed; gives out why, in which order, what of the law, and what differs.
Refuses to write anything but the plan that is asked for.
"""

from pathlib import Path

import click

from guidegen.build.cover import cover_fleet
from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.commands.terminal import (
    FORMAT,
    PROJECT,
    Format,
    end,
    progress,
    refuse,
)
from guidegen.difference_report import differences_as_json, format_differences
from guidegen.differences.compare import compare_guides
from guidegen.explanation_report import explanation_as_json, format_explanation
from guidegen.finding import Findings
from guidegen.guide.explain import explain_procedure
from guidegen.round.draw_svg import round_svg
from guidegen.round_report import format_round, round_as_json


@click.command()
@click.argument("unit")
@click.argument("procedure")
@PROJECT
@FORMAT
def explain(unit: str, procedure: str, root: Path, form: Format) -> None:
    """Say why PROCEDURE is in the guide of UNIT, or out of it."""
    findings = Findings()
    loaded = load_fleet(open_project(root), findings)
    if loaded is None:
        end(findings, form, {})
    known_unit = loaded.units.get(unit)
    known_procedure = loaded.library.get(procedure)
    if known_unit is None:
        refuse("unit", unit, list(loaded.units))
    if known_procedure is None:
        refuse("procedure", procedure, list(loaded.library))
    explanation = explain_procedure(known_procedure, known_unit)
    result = explanation_as_json(explanation)
    end(Findings(), form, result, format_explanation(explanation).rstrip())


@click.command("round")
@click.argument("unit")
@click.option(
    "--plan",
    type=click.Path(path_type=Path, dir_okay=False),
    default=None,
    help="File to write the numbered plan of the truck to, as SVG.",
)
@PROJECT
@FORMAT
def inspection_round(unit: str, plan: Path | None, root: Path, form: Format) -> None:
    """Print the inspection round of UNIT: its checks in order, and why each comes where it does."""
    findings = Findings()
    loaded = load_fleet(open_project(root), findings)
    if loaded is None:
        end(findings, form, {})
    guide = loaded.guides.get(unit)
    if guide is None and unit in loaded.unit_numbers:
        end(findings, form, {})
    if guide is None:
        refuse("unit", unit, list(loaded.unit_numbers))
    tour = loaded.rounds.get(guide.edition)
    if tour is None:
        end(Findings(), form, {}, f"no procedure of {unit} has a place in a round")
    if plan is not None:
        plan.write_text(round_svg(tour) + "\n", encoding="utf-8", newline="\n")
    end(Findings(), form, round_as_json(tour, guide), format_round(tour, guide).rstrip())


@click.command()
@click.option("--unit", default=None, help="Number of one unit, instead of all.")
@PROJECT
@FORMAT
def coverage(unit: str | None, root: Path, form: Format) -> None:
    """Compare each guide with what the law of the fleet's place lists."""
    findings = Findings()
    project = open_project(root)
    loaded = load_fleet(project, findings, progress)
    if loaded is None:
        end(findings, form, {})
    if unit is not None and unit not in loaded.unit_numbers:
        refuse("unit", unit, list(loaded.unit_numbers))
    covered = cover_fleet(project, loaded, findings, unit)
    if covered is None:
        end(findings, form, {}, f"no list is on record for {loaded.fleet.jurisdiction}")
    end(findings, form, covered.as_json(), covered.as_text())


@click.command()
@click.argument("known")
@click.argument("given")
@PROJECT
@FORMAT
def compare(known: str, given: str, root: Path, form: Format) -> None:
    """Say what is other about GIVEN for a driver who knows KNOWN; both are unit numbers."""
    findings = Findings()
    loaded = load_fleet(open_project(root), findings)
    if loaded is None:
        end(findings, form, {})
    for number in (known, given):
        if number in loaded.unit_numbers and number not in loaded.guides:
            end(findings, form, {})
        if number not in loaded.guides:
            refuse("unit", number, list(loaded.guides))
    before, after = loaded.guides[known], loaded.guides[given]
    sheet = compare_guides(before, after)
    result = differences_as_json(sheet, before, after)
    end(Findings(), form, result, format_differences(sheet, before, after).rstrip())
