"""What is missing in a fleet, and the files that say so.

Takes in a fleet as it was read, with its findings; gives out its gaps, the office's page and lists,
and a form for each truck. Refuses to count a truck as freed by gaps when its files have other
faults too.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from types import MappingProxyType

from guidegen.build.load import Loaded
from guidegen.build.load_group import UnitGroup, asked_of_identity, group_units
from guidegen.build.print_shop import paper_folder, theme_of
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.store import hash_of
from guidegen.build.whole_file import write_whole
from guidegen.finding import Finding, Findings
from guidegen.gaps.find import Finder, gather
from guidegen.gaps.look_up import look_ups
from guidegen.gaps.model import FleetGaps, Grade, KnownGaps, UnitGaps
from guidegen.gaps.page import PAGE_NAME, STYLE, STYLE_NAME, Beside, missing_page
from guidegen.gaps.recheck import Old
from guidegen.gaps.shop_list import as_csv, as_plain_text, shop_rows
from guidegen.guide import rules as guide_rules
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

    is_day_shown: bool = True
    """Whether the head of each page says the day."""


def faulty_units(findings: Iterable[Finding]) -> frozenset[str]:
    """Return the numbers of units of which *findings* tell an error that is no gap."""
    return frozenset(e.unit for e in findings if e.is_error and e.rule not in _GAP_RULES)


def fleet_gaps(
    loaded: Loaded, faulty: frozenset[str], remembered: dict[str, KnownGaps] | None = None
) -> FleetGaps:
    """Return what is missing in the fleet *loaded*.

    Trucks that state the same but for what tells them apart lack the same: one is looked at.

    Args:
        loaded: The fleet.
        faulty: Numbers of units that have other faults too, as `faulty_units` has them.
        remembered: What was found before, by hash of all that it hangs on; takes what is found.
    """
    known = {} if remembered is None else remembered
    found = sorted(_gaps_by_group(loaded, known), key=lambda each: each.number)
    # A round that cannot be done names its trucks in a note alone: they have no guide, and no gap.
    marked = (
        replace(each, has_other_faults=True)
        if each.number in faulty or (each.number not in loaded.guides and not each.is_held_back)
        else each
        for each in found
    )
    not_read = tuple(n for n in loaded.unit_numbers if n not in loaded.units)
    return gather(marked, loaded.library, not_read=not_read)


def _gaps_by_group(loaded: Loaded, known: dict[str, KnownGaps]) -> Iterator[UnitGaps]:
    """Yield the gaps of all units; keep in *known* those of this fleet, and no others."""
    before = dict(known)
    known.clear()
    key_of = _key_of(loaded)
    finder: Finder | None = None
    for group in group_units(loaded.units.records.values(), loaded.library):
        first = group.first
        key = key_of(group)
        found = before.get(key)
        if found is None:
            finder = finder or Finder(loaded.library)
            gaps = finder.of(loaded.units[first.number])
            found = KnownGaps(gaps.gaps, look_ups(gaps))
        known[key] = found
        for record in group.records:
            yield UnitGaps(
                record.number,
                record.model,
                record.yard and loaded.fleet.yard_name(record.yard),
                found.gaps,
                alike=first.number,
                look_ups=found.look_ups,
                resolved=partial(loaded.units.__getitem__, record.number),
            )


def _key_of(loaded: Loaded) -> Callable[[UnitGroup], str]:
    """Return what gives the hash of all that the gaps of a group hang on, but for the base."""
    models = loaded.guides.shelf.base.specs.models
    texts = {id_: hash_of(model.span.file.text) for id_, model in models.items()}
    asked = asked_of_identity(loaded.library)

    def key(group: UnitGroup) -> str:
        own = group.first.own_parts if asked else ()
        return hash_of(texts.get(group.first.model, ""), group.first.signature, *own)

    return key


def missing_files(
    fleet: FleetGaps,
    old: Sequence[Old] = (),
    *,
    least: Grade = Grade.LEAVES_OUT,
    forms: Collection[str] = (),
    icon: str = "",
) -> Mapping[str, bytes]:
    """Return the bytes of each file for the office, by its name in the folder of the office.

    The page goes by the stylesheet of the proof's report, which stands beside it, and its own.

    Args:
        fleet: With its gaps.
        old: Values that are to be checked again.
        least: Gaps that matter less are left out of the lists.
        forms: Numbers of the trucks that have a form to walk around them with.
        icon: Address of the site's icon; empty if the folder stands in no site.
    """
    rows = shop_rows(fleet, least=least)
    beside = Beside(
        styles=(PROOF_STYLE_NAME, STYLE_NAME),
        lists={CSV_NAME: "as a spreadsheet", TEXT_NAME: "as plain text"},
        forms={number: form_path(number) for number in forms},
        icon=icon,
    )
    return MappingProxyType(
        {
            PAGE_NAME: missing_page(fleet, old=old, beside=beside).encode(),
            STYLE_NAME: STYLE.encode(),
            # Spreadsheets take a file without the mark for one in the letters of the machine.
            CSV_NAME: as_csv(rows).encode("utf-8-sig"),
            TEXT_NAME: as_plain_text(rows).encode(),
        }
    )


def form_path(number: str) -> str:
    """Return where the form of a truck stands in the folder of the office."""
    return f"{FORMS}/{number}.pdf"


def write_missing(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write *files*, with the stylesheet that they share with the proof's report."""
    folder.mkdir(parents=True, exist_ok=True)
    whole = {PROOF_STYLE_NAME: PROOF_STYLE.encode(), **files}
    return tuple(write_whole(folder / name, raw) for name, raw in whole.items())


def draw_forms(  # noqa: PLR0913, PLR0917 -- a form is all of this
    project: Project,
    fleet_name: str,
    fleet: FleetGaps,
    order: FormOrder,
    findings: Findings,
    progress: Progress = unseen,
) -> Iterator[tuple[str, bytes]]:
    """Yield number and form of each truck of *order* that lacks something."""
    theme = theme_of(project, findings)
    if theme is None:
        return
    # Who prints no form need not read in what prints.
    from guidegen.paper.missing import FormPress  # noqa: PLC0415

    press = FormPress.at(paper_folder(project), theme, fleet_name)
    for number in progress(order.units, len(order.units), "drawing forms"):
        entries = look_ups(fleet.units[number], least=order.least)
        if not entries:
            continue
        pdf = press.draw(
            fleet.units[number],
            entries,
            order.stock,
            order.day,
            findings,
            is_day_shown=order.is_day_shown,
        )
        if pdf is not None:
            yield number, pdf


def write_forms(folder: Path, forms: Iterable[tuple[str, bytes]]) -> Mapping[str, Path]:
    """Write *forms* into *folder*; return where each stands, by number."""
    return {number: write_whole(folder / form_path(number), pdf) for number, pdf in forms}


def lacking(fleet: FleetGaps, units: Collection[str], least: Grade) -> tuple[str, ...]:
    """Return the numbers of *units*, all if none are named, that lack something."""
    return tuple(
        number
        for number, unit in fleet.units.items()
        if (not units or number in units) and any(g.grade.rank <= least.rank for g in unit.gaps)
    )
