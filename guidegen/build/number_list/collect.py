"""The whole list, section by section.

Takes in a project; gives out every number of its library and of guidegen's own code that decides
what is said of a truck. Refuses a library with faults: they are reported instead.
"""

import importlib
import pkgutil
from collections.abc import Iterable, Iterator
from types import ModuleType

from guidegen import figures, plausibility
from guidegen.build.load_library import load_library
from guidegen.build.number_list.believable import believable_numbers, label_numbers
from guidegen.build.number_list.code_sources import (
    CONVERSION,
    FORMULAS,
    ROUND,
    SHARED_BY_RULES,
    WRITING,
)
from guidegen.build.number_list.constants import CodeSource, code_numbers, has_page, rule_numbers
from guidegen.build.number_list.find import Weight
from guidegen.build.number_list.measure_numbers import factor_numbers, step_numbers
from guidegen.build.number_list.model import Ground, NumberEntry, NumberSection
from guidegen.build.number_list.stated import listed_numbers, stated_numbers
from guidegen.build.number_list.texts import (
    caption_numbers,
    fixed_numbers,
    page_numbers,
    procedure_numbers,
    scale_numbers,
)
from guidegen.build.project import Project
from guidegen.build.read_specs import SUBSTANCES_FILE
from guidegen.coverage.read import read_lists
from guidegen.differences import standing
from guidegen.finding import Findings
from guidegen.procedures import figure_kinds, words
from guidegen.procedures.model import ProcedureTemplate
from guidegen.round import acts, reasons
from guidegen.specs.bounds import Bounds
from guidegen.specs.equipment import Equipment
from guidegen.specs.profile import Law
from guidegen.specs.read import read_profile, read_substances
from guidegen.specs.substances import Substances

_SHAPES = ((Equipment, ""), (Law, "law."), (Substances, "substance."), (Bounds, "bounds."))
_FIXED_WORDS = (
    (words.CHAPTERS, words),
    (words.STATIONS, words),
    *((states, words) for states in words.STATES.values()),
    (words.LABELS, words),
    (words.SIGNAL_DEFINITIONS, words),
    (words.LAMP_ACTS, words),
    (words.LAMP_COLORS, words),
    (figure_kinds.FIGURE_WORDS, figure_kinds),
    (standing.RANKS, standing),
    (standing.REASONS, standing),
    (acts.ACTS, acts),
    (reasons.PREMISES, reasons),
)
_WEIGHT_TITLES = {
    Weight.MEASURED: ("text-measured", "Texts: numbers with a measure"),
    Weight.COUNTED: ("text-counted", "Texts: counts and parts"),
    Weight.NAMED: ("text-names", "Texts: numbers that are names"),
    Weight.LEAST: ("text-least", "Texts: one, both, first"),
}
_TEXT_INTRO = (
    "Each text of procedures and lamps with such a number, and what its file names for it."
)


def collect_numbers(project: Project, findings: Findings) -> tuple[NumberSection, ...] | None:
    """Return the sections of the list, or nothing if the library has faults.

    Args:
        project: Whose library is listed.
        findings: Takes the faults of its files.
    """
    own = Findings()
    library = load_library(project, own)
    files = tuple(_file_sections(project, own))
    findings.extend(own)
    if library is None or own.has_errors:
        return None
    return (*files, *_code_sections(), *_text_sections(library.values()), _page_section(project))


def rule_modules() -> tuple[ModuleType, ...]:
    """Return every module of the rules of plausibility, in the order of their names."""
    return _modules_of(plausibility)


def _modules_of(package: ModuleType) -> tuple[ModuleType, ...]:
    found = pkgutil.walk_packages(package.__path__, f"{package.__name__}.")
    return tuple(importlib.import_module(each.name) for each in found)


def _file_sections(project: Project, findings: Findings) -> Iterator[NumberSection]:
    stated: list[NumberEntry] = []
    for path, raw in project.template_files("profiles"):
        profile = read_profile(path, raw, findings)
        stated += stated_numbers(profile.stated) if profile else ()
    intro = "Every value of the jurisdiction profiles, as typed and as its source prints it beside."
    yield _section("places", "Limits and bounds of places", intro, stated)
    path_of_fluids = project.template(SUBSTANCES_FILE)
    shown = project.shown(path_of_fluids)
    fluids = read_substances(shown, path_of_fluids.read_bytes(), findings) or {}
    intro = "Every value of the file of fluids."
    yield _section("fluids", "Facts of fluids", intro, stated_numbers(fluids))
    lists = read_lists(project.template_files("coverage"), findings)
    intro = "Every text of the lists that holds a number."
    yield _section("coverage", "Lists of the law", intro, listed_numbers(lists))


def _code_sections() -> Iterator[NumberSection]:
    intro = "Constants of facts that are worked out."
    yield _section("formulas", "Formulas", intro, _all_of(FORMULAS))
    rules = (*rule_numbers(rule_modules()), *_all_of(SHARED_BY_RULES))
    intro = "Constants that specs are compared with. Each rule has a page in docs/rules."
    yield _section("rules", "Rules of plausibility", intro, rules)
    fields = (entry for shape, prefix in _SHAPES for entry in believable_numbers(shape, prefix))
    intro = "The least and the greatest. What lies outside holds a file back as mistyped."
    yield _section("fields", "Believable amounts", intro, fields)
    measures = (*factor_numbers(), *step_numbers(), *code_numbers(CONVERSION))
    intro = "Factors, steps of printing, and what decides between two measures."
    yield _section("measures", "Measures", intro, measures)
    intro = "In millimeters. All but the truck's own length are guesses."
    yield _section("round", "Places around the truck", intro, code_numbers(ROUND))
    intro = "Limits for texts."
    yield _section("writing", "How procedures are written", intro, _all_of(WRITING))


def _text_sections(library: Iterable[ProcedureTemplate]) -> Iterator[NumberSection]:
    found = list(procedure_numbers(library))
    for weight, (id_, title) in _WEIGHT_TITLES.items():
        entries = [entry for each, entry in found if each is weight]
        yield _section(id_, title, _TEXT_INTRO, entries)


def _page_section(project: Project) -> NumberSection:
    entries: list[NumberEntry] = []
    for folder, ending in (("pages", "*.j2"), ("docs", "*.md")):
        paths = sorted((project.templates / folder).glob(ending))
        entries += page_numbers((project.shown(p), p.read_text(encoding="utf-8")) for p in paths)
    entries += caption_numbers(_modules_of(figures))
    for mapping, module in _FIXED_WORDS:
        entries += fixed_numbers(mapping, module)
    entries += scale_numbers(figure_kinds.FIGURE_WORDS, figure_kinds)
    labels = (entry for shape, _ in _SHAPES for entry in label_numbers(shape))
    entries += {(entry.place.partition(":")[0], entry.says): entry for entry in labels}.values()
    intro = "Words around the procedures, names of values, and scales of drawn gauges."
    return _section("pages", "Pages, captions and fixed words", intro, entries)


def _all_of(sources: Iterable[CodeSource]) -> Iterator[NumberEntry]:
    return (entry for source in sources for entry in code_numbers(source))


def _section(id_: str, title: str, intro: str, entries: Iterable[NumberEntry]) -> NumberSection:
    return NumberSection(id_, title, intro, tuple(entries))


def modules_without_source() -> tuple[str, ...]:
    """Return the modules of rules whose numbers neither a page nor the list here speaks for."""
    named = {source.module for source in SHARED_BY_RULES}
    return tuple(
        module.__name__
        for module in rule_modules()
        if module not in named
        and not has_page(module)
        and tuple(code_numbers(CodeSource(module, "unknown", Ground.PRACTICE)))
    )
