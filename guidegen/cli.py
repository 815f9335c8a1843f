"""Arguments in, exit code out: the only door to the terminal, with `guidegen.commands`.

Takes in what was typed; gives out findings, reports and one of four exit codes: 0 clean,
1 findings, 2 wrong usage, 70 a fault of guidegen itself. Refuses to hold any logic of its own.
"""

import sys
import traceback
from typing import NoReturn

import click

from guidegen import __version__
from guidegen.commands import guide, library, paper, release, site, stick, workbook
from guidegen.commands.terminal import end
from guidegen.finding import FaultyInput

EXIT_BUG = 70


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="guidegen")
def commands() -> None:
    """Make and prove a quick guide for every truck of a fleet.

    Exit codes: 0 clean, 1 findings, 2 wrong usage, 70 a fault of guidegen itself.
    """


for command in (
    *(site.init, site.check, site.build, site.serve, site.prove, stick.pack),
    *(guide.explain, guide.inspection_round, guide.coverage, guide.compare),
    *(release.release, release.history),
    *(paper.cards, paper.booklet, paper.quiz, paper.signoff),
    workbook.workbook,
    *(library.schema, library.rules, library.numbers),
):
    commands.add_command(command)


def main() -> NoReturn:
    """Run the command line; end the process with one of the four exit codes."""
    try:
        commands(standalone_mode=True)
    except FaultyInput as fault:
        end(fault.findings, "text", {})
    except Exception:  # noqa: BLE001 -- the one place where a bug is told from a finding
        click.echo(traceback.format_exc(), err=True, nl=False)
        click.echo(
            "This is a fault of guidegen, not of your files. Nothing was published. "
            "Please report it with the lines above and `guidegen --version`.",
            err=True,
        )
        sys.exit(EXIT_BUG)
    sys.exit(0)
