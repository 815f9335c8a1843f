"""What the commands share that put cards on record.

Takes in what was typed; gives out the occasion of a printing, and the record that it is added to.
Refuses to print what could not be recorded afterwards: a date before the last printing, or a record
that is damaged.
"""

import functools
import time
from collections.abc import Callable
from typing import Any, TypeVar

import click

from guidegen.build.print_record import Occasion
from guidegen.build.printing_files import open_printings, printings_path
from guidegen.build.project import Project
from guidegen.commands.terminal import Format, day_of, end, named, shown
from guidegen.finding import Findings
from guidegen.printings.model import PrintRecord
from guidegen.printings.record import PRINTINGS

F = TypeVar("F", bound=Callable[..., Any])

_MOST_COPIES = 99


def recording(help_: str) -> Callable[[F], Callable[..., Any]]:
    """Give a command the options of a printing, and `Occasion` as its argument ``occasion``.

    It is given none without ``--record``. *help_* says what that does.
    """

    def decorate(command: F) -> Callable[..., Any]:
        @click.option("--record", "is_recorded", is_flag=True, help=help_)
        @click.option("--by", default=None, help="Who prints or collects them; with --record.")
        @click.option(
            "--copies",
            type=click.IntRange(1, _MOST_COPIES),
            default=None,
            show_default="1",
            help="How many of each card are printed from the file; with --record.",
        )
        @click.option(
            "--date",
            "day",
            type=click.DateTime(["%Y-%m-%d"]),
            default=None,
            show_default="today",
            help="Date of the printing; with --record.",
        )
        @functools.wraps(command)
        def recorded(
            *given: object,
            is_recorded: bool,
            by: str | None,
            copies: int | None,
            day: object,
            **typed: object,
        ) -> object:
            if not is_recorded and (by, copies, day) != (None, None, None):
                raise click.UsageError("--by, --copies and --date go with --record")
            occasion = Occasion(
                date=day_of(day),
                since=time.strftime("%Y-%m-%d %H:%M"),
                by="" if by is None else named(by),
                copies=copies or 1,
            )
            return command(*given, occasion=occasion if is_recorded else None, **typed)

        return recorded

    return decorate


def opened_record(
    project: Project, occasion: Occasion | None, findings: Findings, form: Format
) -> PrintRecord:
    """Return the record of printings; end with *findings* if nothing can be added to it now.

    Args:
        project: Whose record it is.
        occasion: Of what is to be recorded; none if nothing is.
        findings: Takes what is wrong.
        form: How it is told.
    """
    own = Findings()
    record = open_printings(project, own)
    if record is not None and occasion is not None:
        place = project.shown(printings_path(project))
        PRINTINGS.check_date(occasion.date, record.last_date, place, own)
    findings.extend(own)
    if record is None or own.has_errors:
        end(findings, form, {"recorded": False}, "nothing was printed, nothing was recorded")
    return record


def told_of(project: Project, *, is_recorded: bool) -> str:
    """Return whether cards are on record, in a line."""
    if is_recorded:
        return f"on record in {shown(printings_path(project))}"
    return "nothing was recorded"
