"""From the files of a project to the values that guides are made of.

Takes in a project; gives out the fleet's specs and the library, with the findings of both.
Refuses to stop at the first fault: every file is read before anything is given up.
"""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.build import rules
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.record_files import read_history
from guidegen.differences.offer import Offer, offer_known
from guidegen.finding import Findings, Note, Rule, nearest
from guidegen.guide.assemble import assemble_guides
from guidegen.guide.model import Guide
from guidegen.plausibility.check import plausible_units
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.procedures.lamps import read_lamps
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.order import in_order, read_order
from guidegen.procedures.read import read_procedures
from guidegen.procedures.style.check import check_style
from guidegen.procedures.style.glossary import read_glossary
from guidegen.revisions.model import FleetHistory
from guidegen.round.fleet_rounds import plan_rounds
from guidegen.round.model import Round
from guidegen.specs import rules as spec_rules
from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.read import (
    read_fleet,
    read_model,
    read_profile,
    read_substances,
    read_unit,
)
from guidegen.units.model import Unit
from guidegen.units.resolve import FleetSpecs, resolve_units

ORDER_FILE = "procedure-order.yml"
GLOSSARY_FILE = "glossary.yml"
SUBSTANCES_FILE = "substances.yml"
LAMP_FILE = "lamps.yml"


@dataclass(frozen=True, slots=True)
class Loaded:
    """A fleet, read and fitted."""

    fleet: Fleet
    unit_numbers: tuple[str, ...]
    """All units that have a file, also those held back."""

    units: Mapping[str, Unit]
    """Those that could be resolved and can be believed."""

    library: Mapping[str, ProcedureTemplate]
    guides: Mapping[str, Guide]
    """Those that nothing holds back."""

    rounds: Mapping[str, Round]
    """The inspection round of each edition, by its fingerprint; none where no procedure has a
    place in one."""

    history: FleetHistory | None = None
    """What was released of each truck; none if nothing ever was."""

    @property
    def offer(self) -> Offer:
        """The trucks that drivers may pick as those that they know."""
        stated = self.fleet.trained_on
        trained_on = None if stated is None else [str(each.value) for each in stated]
        return offer_known(self.guides.values(), trained_on)


def load_fleet(project: Project, findings: Findings, progress: Progress = unseen) -> Loaded | None:
    """Return the fleet with its guides, or nothing if fleet, library or record have faults.

    Faults of single units or models hold back those units only.
    """
    specs = load_specs(project, findings, progress)
    library = load_library(project, findings)
    if specs is None or library is None:
        return None
    resolved = resolve_units(specs, findings)
    units = plausible_units(resolved, specs.profile.stated, RULEBOOK, findings)
    shown = progress(units.values(), len(units), "fitting procedures")
    assembled = assemble_guides(shown, library, findings)
    planned = plan_rounds(assembled, library, findings)
    numbers = tuple(PurePosixPath(path).stem for path, _ in project.spec_files("units"))
    check_trained_on(specs.fleet, numbers, findings)
    recorded = Findings()
    history = read_history(project, planned.guides.values(), recorded)
    findings.extend(recorded)
    if recorded.has_errors:
        return None
    return Loaded(specs.fleet, numbers, units, library, planned.guides, planned.rounds, history)


def load_specs(
    project: Project, findings: Findings, progress: Progress = unseen
) -> FleetSpecs | None:
    """Return what the files state, or nothing if fleet, jurisdiction or library have faults."""
    models = _read_all(project.spec_files("models"), read_model, spec_rules.MODEL_TWICE, findings)
    files = list(project.spec_files("units"))
    shown = progress(files, len(files), "reading specs")
    units = _read_all(shown, read_unit, spec_rules.UNIT_TWICE, findings)
    if not files:
        findings.add(
            rules.NO_UNITS,
            None,
            what="there is no unit file in `specs/units`",
            fix="write one file for each truck, or start from the demo: `guidegen init my-fleet`",
            place=project.shown(project.specs / "units"),
        )
    ground = load_ground(project, findings)
    return None if ground is None else replace(ground, units=units, models=models)


def load_ground(project: Project, findings: Findings) -> FleetSpecs | None:
    """Return the fleet's specs without units and models, or nothing if there are faults."""
    fleet = _read_one(project, "specs/fleet.yml", read_fleet, findings)
    if fleet is None:
        return None
    profile_path = project.templates / "profiles" / f"{fleet.jurisdiction}.yml"
    profile = read_profile(project.shown(profile_path), profile_path.read_bytes(), findings)
    path = project.templates / SUBSTANCES_FILE
    substances = read_substances(project.shown(path), path.read_bytes(), findings)
    if profile is None or substances is None:
        return None
    none: Mapping[str, Spec] = MappingProxyType({})
    return FleetSpecs(fleet, none, none, profile, substances)


def load_library(project: Project, findings: Findings) -> Mapping[str, ProcedureTemplate] | None:
    """Return the procedures in the order of the guide, or nothing if any has faults."""
    own = Findings()
    library = read_procedures(project.template_files("procedures"), own)
    order_path = project.templates / ORDER_FILE
    order = read_order(project.shown(order_path), order_path.read_bytes(), own)
    ordered = in_order(library, order, own)
    lamps_path = project.templates / LAMP_FILE
    lamps = read_lamps(project.shown(lamps_path), lamps_path.read_bytes(), own)
    _check_style(project, (*library.values(), *lamps.values()), own)
    findings.extend(own)
    return None if own.has_errors else MappingProxyType({**ordered, **lamps})


def check_trained_on(fleet: Fleet, numbers: Collection[str], findings: Findings) -> None:
    """Report units that drivers are said to be signed off on and that have no file."""
    for stated in fleet.trained_on or ():
        number = str(stated.value)
        if number not in numbers:
            near = nearest(number, numbers)
            findings.add(
                spec_rules.TRAINED_ON_UNKNOWN_UNIT,
                stated.span,
                what=f"`trained_on` names `{number}`, and no unit file has that number",
                fix=f"did you mean `{near}`?" if near else "write its unit file, or take it out",
            )


def _check_style(
    project: Project, procedures: Iterable[ProcedureTemplate], findings: Findings
) -> None:
    path = project.template(GLOSSARY_FILE)
    glossary = read_glossary(project.shown(path), path.read_bytes(), findings)
    if glossary is not None:
        check_style(procedures, glossary, findings)


def _read_one(
    project: Project,
    name: str,
    read: Callable[[str, bytes, Findings], Fleet | None],
    findings: Findings,
) -> Fleet | None:
    path = project.root / name
    if not path.is_file():
        findings.add(
            rules.FILE_MISSING,
            None,
            what=f"there is no `{name}`",
            fix="run guidegen in the folder of your fleet, or start one: `guidegen init my-fleet`",
            place=name,
        )
        return None
    return read(name, path.read_bytes(), findings)


def _read_all(
    files: Iterable[tuple[str, bytes]],
    read: Callable[[str, bytes, Findings], Spec | None],
    twice: Rule,
    findings: Findings,
) -> Mapping[str, Spec]:
    specs: dict[str, Spec] = {}
    for path, raw in files:
        spec = read(path, raw, findings)
        if spec is None:
            continue
        first = specs.setdefault(spec.id, spec)
        if first is not spec:
            findings.add(
                twice,
                spec.span,
                what=f"`{spec.id}` has two files",
                fix="delete one of the two",
                notes=[Note("the other is", first.span)],
                unit=spec.id,
            )
    return MappingProxyType(specs)
