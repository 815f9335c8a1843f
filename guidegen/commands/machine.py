"""The commands about the machine that guidegen runs on.

Takes in what was typed; gives out how machine and project stand, and what shells complete words
with. Refuses to change either.
"""

from dataclasses import asdict
from pathlib import Path

import click
from click.shell_completion import get_completion_class

from guidegen.build.doctor import Health, examine
from guidegen.build.engine_hash import program_hash
from guidegen.build.project import open_project
from guidegen.build.store import open_store
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end
from guidegen.finding import Findings

SHELLS = ("bash", "zsh", "fish")
_VARIABLE = "_GUIDEGEN_COMPLETE"


@click.command()
@PROJECT
@FORMAT
def doctor(root: Path, form: Format) -> None:
    """Say whether this machine and this project can do the work, and what to mend."""
    examined = examine(open_project(root), open_store(program_hash()))
    listed = [{**asdict(each), "health": each.health.value} for each in examined]
    lines = []
    for each in examined:
        lines.append(f"{each.name:14}{each.health.value:12}{each.found}")
        if each.fix:
            lines.append(f"{'':14}{'fix':12}{each.fix}")
    is_bad = any(each.health is Health.BAD for each in examined)
    end(Findings(), form, {"examined": listed}, "\n".join(lines), is_bad=is_bad)


@click.command()
@click.argument("shell", type=click.Choice(SHELLS))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print the script by which SHELL completes guidegen's words; put it where SHELL reads it."""
    kind = get_completion_class(shell)
    assert kind is not None  # noqa: S101 -- all of SHELLS are known to click
    program = context.find_root().command
    click.echo(kind(program, {}, "guidegen", _VARIABLE).source())
