"""The commands that print.

Takes in what was typed; gives out PDF files.
Refuses half a file: each is replaced as a whole.
"""

from pathlib import Path
from typing import Any

import click

from guidegen.build.load import load_fleet
from guidegen.build.print_record import Desk, Occasion, put_on_record
from guidegen.build.print_run import PrintOrder, print_booklet, print_cards
from guidegen.build.print_shop import open_print_shop, resized
from guidegen.build.print_training import TrainingOrder, TrainingShop
from guidegen.build.project import open_project
from guidegen.build.workers import Workers, usual_count, workers_of
from guidegen.commands.recording import opened_record, recording, told_of
from guidegen.commands.terminal import (
    FORMAT,
    LONG_WORK,
    PROJECT,
    Format,
    chosen,
    end,
    loaded_fleet,
    progress,
    refuse,
    shown,
)
from guidegen.commands.work import worker_options
from guidegen.decks.sizes import SIDES
from guidegen.difference_report import differences_as_json
from guidegen.finding import Findings
from guidegen.paper.booklet import BOOKLET_STOCKS
from guidegen.paper.matter import Matter
from guidegen.paper.quiz import quiz_as_json
from guidegen.paper.signoff import signoff_as_json
from guidegen.paper.stock import STOCKS, Duplex, Printing
from guidegen.training.model import QUESTIONS
from guidegen.training.signoff import list_signoff
from guidegen.training.write_quiz import FleetKnowledge, write_quiz

MOST_QUESTIONS = 200

STOCK = click.option(
    "--stock",
    type=click.Choice(list(STOCKS)),
    default="letter",
    show_default=True,
    help="What the printer is fed with.",
)
DUPLEX = click.option(
    "--duplex",
    type=click.Choice([each.value for each in Duplex]),
    default=Duplex.LONG.value,
    show_default=True,
    help="On which edge the printer turns a sheet.",
)
OUT = click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="training/ in the project",
    help="Folder to write to.",
)


@click.command()
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
@DUPLEX
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="cards/ in the project",
    help="Folder to write to.",
)
@recording("Put the printed cards on record, for `guidegen reprint`.")
@PROJECT
@worker_options
@FORMAT
def cards(  # noqa: PLR0913, PLR0917 -- one parameter an option
    units: tuple[str, ...],
    is_all: bool,  # noqa: FBT001 -- a flag of the command line
    card: str | None,
    size: str | None,
    stock: str | None,
    duplex: str,
    out: Path | None,
    occasion: Occasion | None,
    root: Path,
    form: Format,
    workers: Workers | None,
) -> None:
    """Print the laminated cards of UNITS as PDF, one file a card."""
    findings = Findings()
    project = open_project(root)
    if occasion is not None:
        opened_record(project, occasion, findings, form)
    loaded = load_fleet(project, findings, progress)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if loaded is None or shop is None:
        end(findings, form, {})
    numbers = chosen(units, loaded, findings, form, is_all=is_all)
    kinds = {kind.id: kind for kind in resized(shop.kinds, size)}
    if card is not None and card not in kinds:
        refuse("card", card, list(kinds))
    wanted = [kinds[card]] if card else list(kinds.values())
    order = PrintOrder(
        numbers,
        tuple(wanted),
        out or project.root / "cards",
        Printing(STOCKS[stock], Duplex(duplex)) if stock else None,
    )
    if workers is None and len(numbers) >= LONG_WORK:
        workers = workers_of(usual_count())
    own = Findings()
    printed = print_cards(shop, order, own, progress, workers)
    is_recorded = False
    if occasion is not None and not own.has_errors:
        entry = Desk(shop).entry(printed.kinds, occasion)
        is_recorded = put_on_record(project, entry, occasion, own)
    findings.extend(own)
    result, summary = printed.as_json(), printed.as_text()
    if occasion is not None:
        result = {**result, "recorded": is_recorded}
        summary += f"\n{told_of(project, is_recorded=is_recorded)}"
    end(findings, form, result, summary)


@click.command()
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
@PROJECT
@FORMAT
def booklet(unit: str, stock: str, out: Path | None, root: Path, form: Format) -> None:
    """Print the whole guide of UNIT as a PDF with contents, data pages and an index."""
    findings = Findings()
    project = open_project(root)
    loaded = load_fleet(project, findings, progress)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if loaded is None or shop is None:
        end(findings, form, {})
    (number,) = chosen((unit,), loaded, findings, form, is_all=False)
    path = out or project.root / "booklets" / f"{number}.pdf"
    pages = print_booklet(shop, number, BOOKLET_STOCKS[stock], path, findings)
    if pages is None:
        end(findings, form, {"unit": number, "pages": 0, "file": None})
    result = {"unit": number, "pages": pages, "file": path.as_posix()}
    end(findings, form, result, f"{shown(path)}: {pages} pages")


@click.command()
@click.argument("unit")
@click.option(
    "--questions",
    type=click.IntRange(1, MOST_QUESTIONS),
    default=QUESTIONS,
    show_default=True,
    help="How many, if the guide gives as many.",
)
@STOCK
@OUT
@PROJECT
@FORMAT
def quiz(  # noqa: PLR0913, PLR0917 -- one parameter an option
    unit: str, questions: int, stock: str, out: Path | None, root: Path, form: Format
) -> None:
    """Print a quiz on the guide of UNIT as PDF, its key at the end; or give it as JSON."""
    findings = Findings()
    project = open_project(root)
    loaded = loaded_fleet(project, findings, form, unit)
    guide = loaded.guides[unit]
    asked = write_quiz(guide, FleetKnowledge.of(loaded.guides.values()), questions)
    if form == "json":
        end(findings, form, quiz_as_json(asked, Matter(guide)))
    order = TrainingOrder(unit, STOCKS[stock], out or project.root / "training")
    path = TrainingShop(project, loaded).quiz(asked, order, findings)
    end(findings, form, {}, f"{len(asked.questions)} questions: {shown(path)}" if path else "")


@click.command()
@click.argument("unit")
@click.option("--knows", default=None, help="Number of the truck that the driver is signed off on.")
@STOCK
@OUT
@PROJECT
@FORMAT
def signoff(  # noqa: PLR0913, PLR0917 -- one parameter an option
    unit: str, knows: str | None, stock: str, out: Path | None, root: Path, form: Format
) -> None:
    """Print the sheet that trainer and driver sign for UNIT as PDF; or give it as JSON."""
    findings = Findings()
    project = open_project(root)
    loaded = loaded_fleet(project, findings, form, unit, *([knows] if knows else []))
    guide = loaded.guides[unit]
    if knows == unit:
        raise click.UsageError(f"--knows names another truck than `{unit}`, or is left out")
    known = loaded.guides[knows] if knows else None
    listed = list_signoff(guide, known)
    told: list[dict[str, Any]] = []
    if known is not None and listed.differences is not None:
        told = differences_as_json(listed.differences, known, guide)["differences"]
    if form == "json":
        end(findings, form, signoff_as_json(listed, Matter(guide), told))
    order = TrainingOrder(unit, STOCKS[stock], out or project.root / "training")
    path = TrainingShop(project, loaded).signoff(listed, told, order, findings)
    lines = sum(len(part.lines) for part in listed.parts)
    end(findings, form, {}, f"{lines} lines: {shown(path)}" if path else "")
