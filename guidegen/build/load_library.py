"""From the files of a project to the procedures of its trucks.

Takes in a project; gives out the library in the order of the guide, the fleet's own procedures
among them, with findings. Refuses a library of which any file has faults: no truck would have its
guide.
"""

from collections.abc import Iterable, Mapping

from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.own_procedures import LAMP_FILE, own_files, own_procedures
from guidegen.build.project import Project
from guidegen.build.read_specs import ReadFleet
from guidegen.build.store import Store, hash_of
from guidegen.finding import Findings
from guidegen.procedures.fleet_names import check_fleet_names
from guidegen.procedures.lamps import by_gravity, read_lamps
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.order import in_order, read_order
from guidegen.procedures.own.place import with_own
from guidegen.procedures.read import KeptFiles, read_procedures
from guidegen.procedures.style.check import check_style
from guidegen.procedures.style.glossary import read_glossary

ORDER_FILE = "procedure-order.yml"
GLOSSARY_FILE = "glossary.yml"


def load_library(
    project: Project, findings: Findings, kept: KeptFiles | None = None
) -> Mapping[str, ProcedureTemplate] | None:
    """Return the procedures in the order of the guide, the fleet's own among them.

    Nothing if any has faults.

    Args:
        project: Where its files are.
        findings: Takes the faults.
        kept: What was read of each file before; see `read_procedures`.
    """
    own = Findings()
    files = tuple(project.template_files("procedures"))
    library = read_procedures(files, own, kept)
    order_path = project.templates / ORDER_FILE
    order = read_order(project.shown(order_path), order_path.read_bytes(), own)
    ordered = in_order(library, order, own)
    lamps_path = project.templates / LAMP_FILE
    lamps = read_lamps(project.shown(lamps_path), lamps_path.read_bytes(), own)
    _check_style(project, (*library.values(), *lamps.values()), own)
    fleets = own_procedures(project, files, own)
    told = frozenset(own)
    styled = Findings()
    # House rules are no instructions that a driver works through.
    written = (each.template for each in fleets if each.template.station)
    _check_style(project, written, styled)
    # A replacement has from the library what was told of the library.
    own.extend(each for each in styled if each not in told)
    # One that the fleet takes more gravely moves up.
    own_lamps = {each.template.id: each.template for each in fleets if each.template.id in lamps}
    lamps = by_gravity({**lamps, **own_lamps}.values())
    whole = with_own({**ordered, **lamps}, fleets, own)
    findings.extend(own)
    return None if own.has_errors else whole


def remembered_library(
    project: Project,
    key: str,
    findings: Findings,
    memory: FleetMemory,
    kept: KeptFiles | None = None,
) -> Mapping[str, ProcedureTemplate] | None:
    """Return the library as *memory* has it, or read and remember it if nothing is found in it.

    Args:
        project: Where its files are.
        key: Of `library_hash`.
        findings: Takes the faults.
        memory: Holds the library that was read last.
        kept: What was read of each file before; see `load_library`.
    """
    if memory.library is not None and memory.library[0] == key:
        return memory.library[1]
    store = memory.store or Store(None, "")
    stored = store.get(store.key("library", key))
    if isinstance(stored, Mapping):
        memory.library = key, stored
        return stored
    own = Findings()
    library = load_library(project, own, kept)
    findings.extend(own)
    if library is not None and not len(own):
        memory.library = key, library
        store.put(store.key("library", key), library)
    return library


def library_hash(project: Project) -> str:
    """Return the hash of all files of procedures, each with its path as people read it."""
    singles = (project.template(name) for name in (ORDER_FILE, LAMP_FILE, GLOSSARY_FILE))
    files = [
        *project.template_files("procedures"),
        *own_files(project),
        *((project.shown(path), path.read_bytes()) for path in singles),
    ]
    return hash_of(*(part for file in files for part in file))


def _check_style(
    project: Project, procedures: Iterable[ProcedureTemplate], findings: Findings
) -> None:
    path = project.template(GLOSSARY_FILE)
    glossary = read_glossary(project.shown(path), path.read_bytes(), findings)
    if glossary is not None:
        check_style(procedures, glossary, findings)


def knows_names(
    read: ReadFleet,
    library: Mapping[str, ProcedureTemplate],
    findings: Findings,
) -> bool:
    """Say whether the fleet has all models and yards that conditions of *library* name."""
    own = Findings()
    # A model whose file has faults is told of there.
    models = read.specs.faulty_models.union(read.specs.models)
    yards = [yard.id for yard in read.specs.fleet.yards]
    check_fleet_names(library.values(), models, yards, own)
    findings.extend(own)
    return not own.has_errors
