"""Arguments in, exit code out: the only door to the terminal.

Takes in what was typed; gives out findings, reports and one of four exit codes: 0 clean,
1 findings, 2 wrong usage, 70 a fault of guidegen itself. Refuses to hold any logic of its own.
"""

import json
import os
import sys
import traceback
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, Literal, NoReturn, TypeVar

import click

from guidegen import __version__
from guidegen.build.cover import cover_fleet
from guidegen.build.load import Loaded, load_fleet
from guidegen.build.number_list.collect import collect_numbers
from guidegen.build.number_pages import counted_numbers, numbers_as_json, write_number_pages
from guidegen.build.print_run import PrintOrder, print_booklet, print_cards
from guidegen.build.print_shop import open_print_shop, resized
from guidegen.build.print_training import TrainingOrder, TrainingShop
from guidegen.build.project import Project, open_project
from guidegen.build.prove import Outcome
from guidegen.build.publication import Publication, open_publication, prove_site
from guidegen.build.rulebook import PAGES, listed_rules, write_pages
from guidegen.build.schemas import write_schemas
from guidegen.build.start import start_project
from guidegen.decks.sizes import SIDES
from guidegen.difference_report import differences_as_json, format_differences
from guidegen.differences.compare import compare_guides
from guidegen.explanation_report import explanation_as_json, format_explanation
from guidegen.finding import FaultyInput, Findings, nearest
from guidegen.finding_report import findings_as_json, format_findings, summary_line
from guidegen.guide.explain import explain_procedure
from guidegen.mkdocs_plugin import draw_site, serve_site
from guidegen.paper.booklet import BOOKLET_STOCKS
from guidegen.paper.matter import Matter
from guidegen.paper.quiz import quiz_as_json
from guidegen.paper.signoff import signoff_as_json
from guidegen.paper.stock import STOCKS, Duplex, Printing
from guidegen.round.draw_svg import round_svg
from guidegen.round_report import format_round, round_as_json
from guidegen.rule_page import page_text
from guidegen.training.model import QUESTIONS
from guidegen.training.signoff import list_signoff
from guidegen.training.write_quiz import FleetKnowledge, write_quiz

T = TypeVar("T")

LONG_WORK = 50
"""Units from which a bar is worth its line."""

MOST_QUESTIONS = 200
EXIT_FINDINGS = 1
EXIT_BUG = 70

Format = Literal["text", "json"]

_PROJECT = click.option(
    "--project",
    "root",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(),
    show_default="this folder",
    help="Folder of the fleet: the one that holds specs/ and mkdocs.yml.",
)
_FORMAT = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="How findings and results are printed.",
)
_SITE = click.option(
    "--site",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="site/ in the project",
    help="Folder of the published site.",
)
_TRAINING_STOCK = click.option(
    "--stock",
    type=click.Choice(list(STOCKS)),
    default="letter",
    show_default=True,
    help="What the printer is fed with.",
)
_TRAINING_OUT = click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="training/ in the project",
    help="Folder to write to.",
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="guidegen")
def commands() -> None:
    """Make and prove a quick guide for every truck of a fleet.

    Exit codes: 0 clean, 1 findings, 2 wrong usage, 70 a fault of guidegen itself.
    """


@commands.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
def init(folder: Path) -> None:
    """Start a fleet in FOLDER, from the demo fleet, ready to be edited."""
    findings = Findings()
    if not start_project(folder, findings):
        _end(findings, "text", {})
    click.echo(f"{folder.as_posix()} holds a demo fleet of eight trucks.")
    click.echo(f"Next: cd {folder.as_posix()} && guidegen build")


@commands.command()
@_PROJECT
@_FORMAT
def check(root: Path, form: Format) -> None:
    """Read all specs and procedures, and report every fault at once."""
    findings = Findings()
    project = _project(root)
    loaded = load_fleet(project, findings, _progress)
    if loaded:
        cover_fleet(project, loaded, findings)
    ready = len(loaded.guides) if loaded else 0
    total = len(loaded.unit_numbers) if loaded else 0
    _end(findings, form, {"units": total, "ready": ready}, f"{ready} of {total} guides are ready")


@commands.command()
@_PROJECT
@_SITE
@_FORMAT
def build(root: Path, site: Path | None, form: Format) -> None:
    """Build the site, prove it, and only then put it in place of the old one."""
    project = _project(root)
    target = (site or project.root / "site").resolve()
    findings = Findings()
    publication = _publication(project, findings, form)
    outcome = draw_site(project.config_file, publication, target)
    findings.extend(outcome.findings)
    _end(findings, form, _counts(outcome, target), _summary(outcome, target))


@commands.command()
@_PROJECT
@click.option("--address", default="127.0.0.1:8000", show_default=True, help="Host and port.")
def serve(root: Path, address: str) -> None:
    """Show the site, and build it again whenever a spec or template is saved."""
    project = _project(root)
    serve_site(project.config_file, address)


@commands.command()
@click.argument(
    "site", type=click.Path(path_type=Path, file_okay=False), required=False, default=None
)
@_PROJECT
@_FORMAT
def prove(site: Path | None, root: Path, form: Format) -> None:
    """Read a published SITE back, and compare it with the guides of this fleet."""
    project = _project(root)
    target = (site or project.root / "site").resolve()
    findings = Findings()
    publication = _publication(project, findings, form)
    outcome = prove_site(publication, target)
    findings.extend(outcome.findings)
    _end(findings, form, _counts(outcome, target), _summary(outcome, target))


@commands.command()
@click.argument("unit")
@click.argument("procedure")
@_PROJECT
@_FORMAT
def explain(unit: str, procedure: str, root: Path, form: Format) -> None:
    """Say why PROCEDURE is in the guide of UNIT, or out of it."""
    findings = Findings()
    loaded = load_fleet(_project(root), findings)
    if loaded is None:
        _end(findings, form, {})
    known_unit = loaded.units.get(unit)
    known_procedure = loaded.library.get(procedure)
    if known_unit is None:
        _refuse("unit", unit, list(loaded.units))
    if known_procedure is None:
        _refuse("procedure", procedure, list(loaded.library))
    explanation = explain_procedure(known_procedure, known_unit)
    if form == "json":
        click.echo(json.dumps(explanation_as_json(explanation), indent=2, ensure_ascii=False))
    else:
        click.echo(format_explanation(explanation), nl=False)


@commands.command("round")
@click.argument("unit")
@click.option(
    "--plan",
    type=click.Path(path_type=Path, dir_okay=False),
    default=None,
    help="File to write the numbered plan of the truck to, as SVG.",
)
@_PROJECT
@_FORMAT
def inspection_round(unit: str, plan: Path | None, root: Path, form: Format) -> None:
    """Print the inspection round of UNIT: its checks in order, and why each comes where it does."""
    findings = Findings()
    loaded = load_fleet(_project(root), findings)
    if loaded is None:
        _end(findings, form, {})
    guide = loaded.guides.get(unit)
    if guide is None and unit in loaded.unit_numbers:
        _end(findings, form, {})
    if guide is None:
        _refuse("unit", unit, list(loaded.unit_numbers))
    tour = loaded.rounds.get(guide.edition)
    if tour is None:
        _end(Findings(), form, {}, f"no procedure of {unit} has a place in a round")
    if plan is not None:
        plan.write_text(round_svg(tour) + "\n", encoding="utf-8", newline="\n")
    _end(Findings(), form, round_as_json(tour, guide), format_round(tour, guide).rstrip())


@commands.command()
@click.option("--unit", default=None, help="Number of one unit, instead of all.")
@_PROJECT
@_FORMAT
def coverage(unit: str | None, root: Path, form: Format) -> None:
    """Compare each guide with what the law of the fleet's place lists."""
    findings = Findings()
    project = _project(root)
    loaded = load_fleet(project, findings, _progress)
    if loaded is None:
        _end(findings, form, {})
    if unit is not None and unit not in loaded.unit_numbers:
        _refuse("unit", unit, list(loaded.unit_numbers))
    covered = cover_fleet(project, loaded, findings, unit)
    if covered is None:
        _end(findings, form, {}, f"no list is on record for {loaded.fleet.jurisdiction}")
    _end(findings, form, covered.as_json(), covered.as_text())


@commands.command()
@click.argument("known")
@click.argument("given")
@_PROJECT
@_FORMAT
def compare(known: str, given: str, root: Path, form: Format) -> None:
    """Say what is other about GIVEN for a driver who knows KNOWN; both are unit numbers."""
    findings = Findings()
    loaded = load_fleet(_project(root), findings)
    if loaded is None:
        _end(findings, form, {})
    for number in (known, given):
        if number in loaded.unit_numbers and number not in loaded.guides:
            _end(findings, form, {})
        if number not in loaded.guides:
            _refuse("unit", number, list(loaded.guides))
    before, after = loaded.guides[known], loaded.guides[given]
    sheet = compare_guides(before, after)
    if form == "json":
        result = differences_as_json(sheet, before, after)
        click.echo(json.dumps(result, indent=2, ensure_ascii=False))
    else:
        click.echo(format_differences(sheet, before, after), nl=False)


@commands.command()
@click.argument("units", nargs=-1)
@click.option("--all", "is_all", is_flag=True, help="Cards of every unit of the fleet.")
@click.option("--card", default=None, help="Only the card with this id.")
@click.option("--size", type=click.Choice(list(SIDES)), default=None, help="Instead of its own.")
@click.option(
    "--stock",
    type=click.Choice(list(STOCKS)),
    default=None,
    help="Lay all cards on sheets of this size too, with trim marks.",
)
@click.option(
    "--duplex",
    type=click.Choice([each.value for each in Duplex]),
    default=Duplex.LONG.value,
    show_default=True,
    help="On which edge the printer turns a sheet.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="cards/ in the project",
    help="Folder to write to.",
)
@_PROJECT
@_FORMAT
def cards(  # noqa: PLR0913, PLR0917 -- one parameter an option
    units: tuple[str, ...],
    is_all: bool,  # noqa: FBT001 -- a flag of the command line
    card: str | None,
    size: str | None,
    stock: str | None,
    duplex: str,
    out: Path | None,
    root: Path,
    form: Format,
) -> None:
    """Print the laminated cards of UNITS as PDF, one file a card."""
    findings = Findings()
    project = _project(root)
    loaded = load_fleet(project, findings, _progress)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if loaded is None or shop is None:
        _end(findings, form, {})
    numbers = _chosen(units, loaded, is_all=is_all)
    kinds = {kind.id: kind for kind in resized(shop.kinds, size)}
    if card is not None and card not in kinds:
        _refuse("card", card, list(kinds))
    wanted = [kinds[card]] if card else list(kinds.values())
    order = PrintOrder(
        numbers,
        tuple(wanted),
        out or project.root / "cards",
        Printing(STOCKS[stock], Duplex(duplex)) if stock else None,
    )
    printed = print_cards(shop, order, findings, _progress)
    _end(findings, form, printed.as_json(), printed.as_text())


@commands.command()
@click.argument("unit")
@click.option(
    "--questions",
    type=click.IntRange(1, MOST_QUESTIONS),
    default=QUESTIONS,
    show_default=True,
    help="How many, if the guide gives as many.",
)
@_TRAINING_STOCK
@_TRAINING_OUT
@_PROJECT
@_FORMAT
def quiz(  # noqa: PLR0913, PLR0917 -- one parameter an option
    unit: str, questions: int, stock: str, out: Path | None, root: Path, form: Format
) -> None:
    """Print a quiz on the guide of UNIT as PDF, its key at the end; or give it as JSON."""
    findings = Findings()
    project = _project(root)
    loaded = _loaded(project, findings, form, unit)
    guide = loaded.guides[unit]
    asked = write_quiz(guide, FleetKnowledge.of(loaded.guides.values()), questions)
    if form == "json":
        _end(findings, form, quiz_as_json(asked, Matter(guide)))
    order = TrainingOrder(unit, STOCKS[stock], out or project.root / "training")
    path = TrainingShop(project, loaded).quiz(asked, order, findings)
    _end(findings, form, {}, f"{len(asked.questions)} questions: {_shown(path)}" if path else "")


@commands.command()
@click.argument("unit")
@click.option("--knows", default=None, help="Number of the truck that the driver is signed off on.")
@_TRAINING_STOCK
@_TRAINING_OUT
@_PROJECT
@_FORMAT
def signoff(  # noqa: PLR0913, PLR0917 -- one parameter an option
    unit: str, knows: str | None, stock: str, out: Path | None, root: Path, form: Format
) -> None:
    """Print the sheet that trainer and driver sign for UNIT as PDF; or give it as JSON."""
    findings = Findings()
    project = _project(root)
    loaded = _loaded(project, findings, form, unit, *([knows] if knows else []))
    guide = loaded.guides[unit]
    known = loaded.guides[knows] if knows else None
    listed = list_signoff(guide, known)
    told: list[dict[str, Any]] = []
    if known is not None and listed.differences is not None:
        told = differences_as_json(listed.differences, known, guide)["differences"]
    if form == "json":
        _end(findings, form, signoff_as_json(listed, Matter(guide), told))
    order = TrainingOrder(unit, STOCKS[stock], out or project.root / "training")
    path = TrainingShop(project, loaded).signoff(listed, told, order, findings)
    lines = sum(len(part.lines) for part in listed.parts)
    _end(findings, form, {}, f"{lines} lines: {_shown(path)}" if path else "")


@commands.command()
@click.argument("unit")
@click.option(
    "--stock",
    type=click.Choice(list(BOOKLET_STOCKS)),
    default="letter",
    show_default=True,
    help="Size of its pages.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    default=None,
    show_default="booklets/UNIT.pdf in the project",
    help="File to write.",
)
@_PROJECT
@_FORMAT
def booklet(unit: str, stock: str, out: Path | None, root: Path, form: Format) -> None:
    """Print the whole guide of UNIT as a PDF with contents, data pages and an index."""
    findings = Findings()
    project = _project(root)
    loaded = load_fleet(project, findings, _progress)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if loaded is None or shop is None:
        _end(findings, form, {})
    (number,) = _chosen((unit,), loaded, is_all=False)
    path = out or project.root / "booklets" / f"{number}.pdf"
    pages = print_booklet(shop, number, BOOKLET_STOCKS[stock], path, findings)
    if pages is None:
        _end(findings, form, {"unit": number, "pages": 0, "file": None})
    result = {"unit": number, "pages": pages, "file": path.as_posix()}
    _end(findings, form, result, f"{_shown(path)}: {pages} pages")


@commands.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="schema/ in the project",
    help="Folder to write to.",
)
@_PROJECT
def schema(out: Path | None, root: Path) -> None:
    """Write the JSON Schemas that editors check spec files with."""
    for path in write_schemas(out or root / "schema"):
        click.echo(path.as_posix())


@commands.command()
@click.argument("name", required=False)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the pages of all rules to, instead of printing.",
)
def rules(name: str | None, out: Path | None) -> None:
    """Explain the rule called NAME, or list the rules that have a page."""
    if out is not None:
        click.echo(f"{len(write_pages(out))} pages in {out.as_posix()}")
    elif name is None:
        click.echo(listed_rules())
    elif name in PAGES:
        click.echo(page_text(PAGES[name]), nl=False)
    else:
        _refuse("rule", name, list(PAGES))


@commands.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the pages of the list to, instead of counting.",
)
@_PROJECT
@_FORMAT
def numbers(out: Path | None, root: Path, form: Format) -> None:
    """List every number of the library with its source and what it rests on, for a reviewer."""
    findings = Findings()
    sections = collect_numbers(_project(root), findings)
    if sections is None:
        _end(findings, form, {})
    summary = counted_numbers(sections)
    if out is not None:
        summary = f"{len(write_number_pages(sections, out))} pages in {out.as_posix()}"
    _end(findings, form, {"sections": numbers_as_json(sections)}, summary)


def main() -> NoReturn:
    """Run the command line; end the process with one of the four exit codes."""
    try:
        commands(standalone_mode=True)
    except Exception:  # noqa: BLE001 -- the one place where a bug is told from a finding
        click.echo(traceback.format_exc(), err=True, nl=False)
        click.echo(
            "This is a fault of guidegen, not of your files. Nothing was published. "
            "Please report it with the lines above and `guidegen --version`.",
            err=True,
        )
        sys.exit(EXIT_BUG)
    sys.exit(0)


def _progress(things: Iterable[T], total: int, doing: str) -> Iterator[T]:
    """Show a bar on a terminal, for work that is long enough to wonder about."""
    if total < LONG_WORK or not sys.stderr.isatty():
        yield from things
        return
    with click.progressbar(things, length=total, label=doing, file=sys.stderr) as shown:
        yield from shown


def _project(root: Path) -> Project:
    return open_project(root)


def _publication(project: Project, findings: Findings, form: Format) -> Publication:
    try:
        publication = open_publication(project.root, _progress)
    except FaultyInput as fault:
        findings.extend(fault.findings)
        _end(findings, form, {})
    findings.extend(publication.findings)
    return publication


def _chosen(units: tuple[str, ...], loaded: Loaded, *, is_all: bool) -> tuple[str, ...]:
    """Return the numbers of the units that are asked for, all of which have a guide."""
    if is_all:
        return tuple(loaded.guides)
    if not units:
        raise click.UsageError("name the units, or write --all")
    for number in units:
        if number not in loaded.guides:
            _refuse("unit with a guide", number, list(loaded.guides))
    return units


def _loaded(project: Project, findings: Findings, form: Format, *units: str) -> Loaded:
    """Return the fleet; end with its findings if one of *units* has no guide because of them."""
    loaded = load_fleet(project, findings)
    if loaded is None:
        _end(findings, form, {})
    for number in units:
        if number in loaded.unit_numbers and number not in loaded.guides:
            _end(findings, form, {})
        if number not in loaded.guides:
            _refuse("unit", number, list(loaded.guides))
    return loaded


def _refuse(kind: str, name: str, choices: list[str]) -> NoReturn:
    near = nearest(name, choices)
    hint = f"did you mean `{near}`?" if near else f"there are: {', '.join(choices)}"
    raise click.UsageError(f"there is no {kind} `{name}`; {hint}")


def _counts(outcome: Outcome, target: Path) -> dict[str, Any]:
    return {"site": target.as_posix(), "published": outcome.published, **outcome.counts}


def _summary(outcome: Outcome, target: Path) -> str:
    counted = ", ".join(f"{count:,} {name}" for name, count in outcome.counts.items())
    where = f"{_shown(target)}: " if outcome.published else "not published: "
    return f"{where}{counted}"


def _shown(path: Path) -> str:
    here = Path.cwd()
    return path.relative_to(here).as_posix() if path.is_relative_to(here) else path.as_posix()


def _end(findings: Findings, form: Format, result: dict[str, Any], summary: str = "") -> NoReturn:
    """Print findings and result; leave with 0 or 1."""
    if form == "json":
        listed = findings_as_json(findings)
        click.echo(json.dumps({**result, "findings": listed}, indent=2, ensure_ascii=False))
    else:
        color = sys.stderr.isatty() and not os.environ.get("NO_COLOR")
        if len(findings):
            click.echo(format_findings(findings, color=color), err=True, nl=False)
            click.echo(summary_line(findings), err=True)
        if summary:
            click.echo(summary)
    sys.exit(EXIT_FINDINGS if findings.has_errors else 0)
