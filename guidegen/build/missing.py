"""What is missing in a fleet, and the files that say so.

Takes in a fleet as it was read, with its findings; gives out its gaps, the office's page and lists,
and a form for each truck. Refuses to count a truck as freed by gaps when its files have other
faults too.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType

from guidegen.build.load import Loaded
from guidegen.build.print_run import write_whole
from guidegen.build.print_shop import paper_folder, theme_of
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.gaps.find import find_gaps
from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import FleetGaps, Grade
from guidegen.gaps.page import PAGE_NAME, STYLE, STYLE_NAME, missing_page
from guidegen.gaps.recheck import Old
from guidegen.gaps.shop_list import as_csv, as_plain_text, shop_rows
from guidegen.guide import rules as guide_rules
from guidegen.paper.missing import FormPress
from guidegen.paper.stock import Stock
from guidegen.proof.report import STYLE as PROOF_STYLE
from guidegen.proof.report import STYLE_NAME as PROOF_STYLE_NAME

CSV_NAME = "missing.csv"
TEXT_NAME = "missing.txt"
FORMS = "forms"
_GAP_RULES = frozenset({guide_rules.NOT_ON_RECORD, guide_rules.FACT_NOT_ON_RECORD})


@dataclass(frozen=True, slots=True)
class FormOrder:
    """For which trucks to print forms, and how."""

    units: tuple[str, ...]
    stock: Stock
    day: str
    """On which they are made, as ``2026-11-20``."""

    least: Grade
    """Gaps that matter less are left out."""


def fleet_gaps(loaded: Loaded, findings: Findings) -> FleetGaps:
    """Return what is missing in the fleet *loaded*; *findings* are those of its loading."""
    faulty = {each.unit for each in findings if each.is_error and each.rule not in _GAP_RULES}
    not_read = tuple(n for n in loaded.unit_numbers if n not in loaded.units)
    found = find_gaps(loaded.units.values(), loaded.library, not_read=not_read)
    # A round that cannot be done names its trucks in a note alone: they have no guide, and no gap.
    faulty |= {n for n in loaded.units if n not in loaded.guides and n not in found.held_back}
    units = {
        number: replace(unit, has_other_faults=True) if number in faulty else unit
        for number, unit in found.units.items()
    }
    return replace(found, units=MappingProxyType(units))


def missing_files(
    fleet: FleetGaps, old: Sequence[Old] = (), *, least: Grade = Grade.LEAVES_OUT
) -> Mapping[str, str]:
    """Return the text of each file for the office, by its name in the folder of the office.

    The page goes by the stylesheet of the proof's report, which stands beside it, and its own.

    Args:
        fleet: With its gaps.
        old: Values that are to be checked again.
        least: Gaps that matter less are left out of the lists.
    """
    rows = shop_rows(fleet, least=least)
    styles = (PROOF_STYLE_NAME, STYLE_NAME)
    return MappingProxyType(
        {
            PAGE_NAME: missing_page(fleet, old=old, styles=styles),
            STYLE_NAME: STYLE,
            CSV_NAME: as_csv(rows),
            TEXT_NAME: as_plain_text(rows),
        }
    )


def write_missing(folder: Path, files: Mapping[str, str]) -> tuple[Path, ...]:
    """Write *files*, with the stylesheet that they share with the proof's report."""
    folder.mkdir(parents=True, exist_ok=True)
    whole = {PROOF_STYLE_NAME: PROOF_STYLE, **files}
    # Spreadsheets take a file without the mark for one in the letters of the machine.
    return tuple(
        write_whole(folder / name, text.encode("utf-8-sig" if name.endswith(".csv") else "utf-8"))
        for name, text in whole.items()
    )


def print_forms(  # noqa: PLR0913, PLR0917 -- a form is all of this
    project: Project,
    loaded: Loaded,
    fleet: FleetGaps,
    order: FormOrder,
    folder: Path,
    findings: Findings,
    progress: Progress = unseen,
) -> tuple[Path, ...]:
    """Write a form for each truck of *order* that lacks something; return the paths."""
    theme = theme_of(project, findings)
    if theme is None:
        return ()
    press = FormPress.at(paper_folder(project), theme, loaded.fleet.name)
    written = []
    for number in progress(order.units, len(order.units), "drawing forms"):
        entries = look_ups(fleet.units[number], least=order.least)
        if not entries:
            continue
        pdf = press.draw(fleet.units[number], entries, order.stock, order.day, findings)
        if pdf is not None:
            written.append(write_whole(folder / FORMS / f"{number}.pdf", pdf))
    return tuple(written)


def lacking(fleet: FleetGaps, units: Collection[str], least: Grade) -> tuple[str, ...]:
    """Return the numbers of *units*, all if none are named, that lack something."""
    return tuple(
        number
        for number, unit in fleet.units.items()
        if (not units or number in units) and any(g.grade.rank <= least.rank for g in unit.gaps)
    )
