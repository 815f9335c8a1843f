"""Arguments in, exit code out: the only door to the terminal, with `guidegen.commands`.

Takes in what was typed; gives out findings, reports and one of four exit codes: 0 clean,
1 findings, 2 wrong usage, 70 a fault of guidegen itself. Refuses to hold any logic of its own.
"""

import sys
import traceback
from collections.abc import Callable
from typing import NoReturn

import click

from guidegen import __version__

EXIT_BUG = 70

# Imports stand in functions so that a command reads in what it needs itself and no other: half of
# the program's second of start goes to printing and to MkDocs.
# ruff: noqa: PLC0415


def _of_site(name: str) -> click.Command:
    from guidegen.commands import site

    found = {"init": site.init, "check": site.check, "build": site.build}
    return {**found, "serve": site.serve, "prove": site.prove}[name]


def _of_stick(_: str) -> click.Command:
    from guidegen.commands import stick

    return stick.pack


def _of_guide(name: str) -> click.Command:
    from guidegen.commands import guide

    found = {"explain": guide.explain, "round": guide.inspection_round}
    return {**found, "coverage": guide.coverage, "compare": guide.compare}[name]


def _of_release(name: str) -> click.Command:
    from guidegen.commands import release

    return {"release": release.release, "history": release.history}[name]


def _of_paper(name: str) -> click.Command:
    from guidegen.commands import paper

    found = {"cards": paper.cards, "booklet": paper.booklet}
    return {**found, "quiz": paper.quiz, "signoff": paper.signoff}[name]


def _of_library(name: str) -> click.Command:
    from guidegen.commands import library

    found = {"schema": library.schema, "rules": library.rules}
    return {**found, "numbers": library.numbers}[name]


_COMMANDS: dict[str, Callable[[str], click.Command]] = {
    **dict.fromkeys(("init", "check", "build", "serve", "prove"), _of_site),
    "pack": _of_stick,
    **dict.fromkeys(("explain", "round", "coverage", "compare"), _of_guide),
    **dict.fromkeys(("release", "history"), _of_release),
    **dict.fromkeys(("cards", "booklet", "quiz", "signoff"), _of_paper),
    **dict.fromkeys(("schema", "rules", "numbers"), _of_library),
}


class _Commands(click.Group):
    """The commands by name, each read in when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return all names, sorted."""
        del ctx
        return sorted(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command; nothing if there is none of that name."""
        del ctx
        return _COMMANDS[cmd_name](cmd_name) if cmd_name in _COMMANDS else None


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="guidegen")
def commands() -> None:
    """Make and prove a quick guide for every truck of a fleet.

    Exit codes: 0 clean, 1 findings, 2 wrong usage, 70 a fault of guidegen itself.
    """


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
