"""What all commands share.

Takes in findings, results and names as typed; gives out text or JSON and an exit code.
Refuses to decide anything: what is a fault is said by the stages.
"""

import json
import os
import sys
import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, Literal, NoReturn, TypeVar

import click

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import Project
from guidegen.finding import Finding, Findings, nearest
from guidegen.finding_report import findings_as_json, format_findings, summary_line

T = TypeVar("T")

LONG_WORK = 50
"""Units from which a bar is worth its line."""

EXIT_FINDINGS = 1

LONGEST_NAME = 100
"""Letters of who approves or prints."""

Format = Literal["text", "json"]

PROJECT = click.option(
    "--project",
    "root",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path(),
    show_default="this folder",
    help="Folder of the fleet: the one that holds specs/ and mkdocs.yml.",
)
_FORMAT_KEY = "guidegen.format"


def _remember(context: click.Context, option: click.Parameter, form: str) -> str:
    """Keep how to print, for faults that end a command before it could look."""
    del option
    context.meta[_FORMAT_KEY] = form
    return form


FORMAT = click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    callback=_remember,
    help="How findings and results are printed.",
)

TODAY = click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    default=None,
    show_default="the day of this computer",
    help="Day from which the age of recorded values is counted.",
)


def asked_format(context: click.Context) -> Format:
    """Return how the command that was run is to print."""
    return "json" if context.meta.get(_FORMAT_KEY) == "json" else "text"


def day_of(today: object) -> str:
    """Return the day that was typed, or that of today where the office is."""
    typed = getattr(today, "date", None)
    return typed().isoformat() if typed else time.strftime("%Y-%m-%d")


def named(by: str) -> str:
    """Return the name that was typed after ``--by``, in one line; what is none is wrong usage."""
    name = " ".join(by.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        raise click.UsageError(f"--by needs a name of 1 to {LONGEST_NAME} letters")
    return name


def progress(things: Iterable[T], total: int, doing: str) -> Iterator[T]:
    """Show a bar on a terminal, for work that is long enough to wonder about."""
    if total < LONG_WORK or not sys.stderr.isatty():
        yield from things
        return
    with click.progressbar(things, length=total, label=doing, file=sys.stderr) as shown:
        yield from shown


def loaded_fleet(project: Project, findings: Findings, form: Format, *units: str) -> Loaded:
    """Return the fleet; end with its findings if one of *units* has no guide because of them."""
    loaded = load_fleet(project, findings)
    if loaded is None:
        end(findings, form, {})
    for number in units:
        if number in loaded.unit_numbers and number not in loaded.guides:
            end(findings, form, {})
        if number not in loaded.guides:
            refuse("unit", number, list(loaded.guides))
    return loaded


def chosen(
    units: tuple[str, ...], loaded: Loaded, findings: Findings, form: Format, *, is_all: bool
) -> tuple[str, ...]:
    """Return the numbers of the units that are asked for, all of which have a guide.

    End with *findings* if one of *units* has no guide because of them.
    """
    if is_all:
        return tuple(loaded.guides)
    if not units:
        raise click.UsageError("name the units, or write --all")
    for number in units:
        if number not in loaded.unit_numbers:
            refuse("unit", number, list(loaded.guides))
    if not set(units) <= set(loaded.guides):
        end(findings, form, {})
    return units


def refuse(kind: str, name: str, choices: list[str]) -> NoReturn:
    """End with wrong usage: there is no *kind* called *name*."""
    near = nearest(name, choices)
    hint = f"did you mean `{near}`?" if near else f"there are: {', '.join(choices)}"
    raise click.UsageError(f"there is no {kind} `{name}`; {hint}")


def shown(path: Path) -> str:
    """Return *path* as people read it: from here, if it lies below."""
    here = Path.cwd()
    return path.relative_to(here).as_posix() if path.is_relative_to(here) else path.as_posix()


def tell(words: str, found: Iterable[Finding]) -> None:
    """Print a line, and what was found, while a command goes on."""
    listed = tuple(found)
    click.echo(words)
    if listed:
        color = sys.stderr.isatty() and not os.environ.get("NO_COLOR")
        click.echo(format_findings(listed, color=color).rstrip(), err=True)
    sys.stdout.flush()


def end(
    findings: Findings,
    form: Format,
    result: dict[str, Any],
    summary: str = "",
    *,
    is_bad: bool = False,
) -> NoReturn:
    """Print findings and result; leave with 0 or 1.

    Args:
        findings: What was found; an error among them makes it 1.
        form: As text, or as one object of JSON.
        result: What `guidegen.commands.results` says of the command.
        summary: The result as text.
        is_bad: Whether the result itself makes it 1.
    """
    if form == "json":
        listed = findings_as_json(findings)
        click.echo(json.dumps({**result, "findings": listed}, indent=2, ensure_ascii=False))
    else:
        color = sys.stderr.isatty() and not os.environ.get("NO_COLOR")
        if len(findings):
            click.echo(format_findings(findings, color=color).rstrip(), err=True)
            click.echo(summary_line(findings), err=True)
        if summary:
            click.echo(summary)
    sys.exit(EXIT_FINDINGS if findings.has_errors or is_bad else 0)
