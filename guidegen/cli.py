"""Arguments in, exit code out: the only door to the terminal, with `guidegen.commands`.

Takes in what was typed; gives out findings, reports and one of four exit codes: 0 clean,
1 findings, 2 wrong usage, 70 a fault of guidegen itself. Refuses to hold any logic of its own.
"""

import sys
import traceback
from importlib import import_module
from typing import NoReturn

import click

from guidegen import __version__
from guidegen.collector import leave_all, look_no_more, paused
from guidegen.finding import FaultyInput

EXIT_BUG = 70

# By name and not by import: a command reads in what it needs itself and no other. Half of the
# program's second of start would go to printing and to MkDocs.
_COMMANDS: dict[str, tuple[str, str]] = {
    "check": ("check", "check"),
    **{name: ("site", name) for name in ("build", "serve", "prove")},
    "init": ("start", "init"),
    "pack": ("stick", "pack"),
    **{name: ("guide", name) for name in ("explain", "coverage", "compare")},
    "round": ("guide", "inspection_round"),
    **{name: ("release", name) for name in ("release", "history")},
    "show": ("show", "show"),
    "publish": ("publish", "publish"),
    "missing": ("missing", "missing"),
    "replaced": ("replaced", "replaced"),
    "workbook": ("workbook", "workbook"),
    **{name: ("paper", name) for name in ("cards", "booklet", "quiz", "signoff")},
    "reprint": ("reprint", "reprint"),
    **{name: ("library", name) for name in ("schema", "rules", "numbers", "reference")},
    **{name: ("machine", name) for name in ("doctor", "completion")},
}
"""Module of `guidegen.commands`, and what the command is called in it."""


class _Commands(click.Group):
    """The commands by name, each read in when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return all names, sorted."""
        del ctx
        return sorted(_COMMANDS)

    def invoke(self, ctx: click.Context) -> object:
        """Run the command that was typed; tell what ends it before it has begun."""
        try:
            # What a command makes lives for as long as the command; one that goes on for long, and
            # work that leaves much behind, look for themselves.
            with paused():
                return super().invoke(ctx)
        except FaultyInput as fault:
            # Of a change to the specs that was cut short and cannot be finished.
            from guidegen.commands.terminal import asked_format, end  # noqa: PLC0415 -- see above

            end(fault.findings, asked_format(ctx), {})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command; nothing if there is none of that name."""
        del ctx
        if cmd_name not in _COMMANDS:
            return None
        module, name = _COMMANDS[cmd_name]
        command = getattr(import_module(f"guidegen.commands.{module}"), name)
        assert isinstance(command, click.Command)  # noqa: S101 -- the table names commands
        return command


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="guidegen")
def commands() -> None:
    """Make and prove a quick guide for every truck of a fleet.

    Exit codes: 0 clean, 1 findings, 2 wrong usage, 70 a fault of guidegen itself.
    """


def main() -> NoReturn:
    """Run the command line; end the process with one of the four exit codes."""
    look_no_more()
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
    finally:
        leave_all()
    sys.exit(0)
