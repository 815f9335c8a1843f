"""The commands about the library itself.

Takes in what was typed; gives out schemas, rules and numbers.
Refuses to look at any truck.
"""

from pathlib import Path

import click

from guidegen.build.number_list.collect import collect_numbers
from guidegen.build.number_pages import counted_numbers, numbers_as_json, write_number_pages
from guidegen.build.project import open_project
from guidegen.build.rulebook import PAGES, listed_rules, write_pages
from guidegen.build.schemas import write_schemas
from guidegen.commands.reference_pages import write_reference
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, refuse
from guidegen.finding import Findings
from guidegen.rule_page import page_text


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="schema/ in the project",
    help="Folder to write to.",
)
@PROJECT
def schema(out: Path | None, root: Path) -> None:
    """Write the JSON Schemas that editors check spec files with."""
    for path in write_schemas(out or root / "schema"):
        click.echo(path.as_posix())


@click.command()
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
        refuse("rule", name, list(PAGES))


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the pages of the list to, instead of counting.",
)
@PROJECT
@FORMAT
def numbers(out: Path | None, root: Path, form: Format) -> None:
    """List every number of the library with its source and what it rests on, for a reviewer."""
    findings = Findings()
    sections = collect_numbers(open_project(root), findings)
    if sections is None:
        end(findings, form, {})
    summary = counted_numbers(sections)
    if out is not None:
        summary = f"{len(write_number_pages(sections, out))} pages in {out.as_posix()}"
    end(findings, form, {"sections": numbers_as_json(sections)}, summary)


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    required=True,
    help="Folder to write to.",
)
@click.pass_context
def reference(context: click.Context, out: Path) -> None:
    """Write the reference of every command, rule, field and fact as Markdown."""
    program = context.find_root().command
    assert isinstance(program, click.Group)  # noqa: S101 -- the root is the program itself
    click.echo(f"{len(write_reference(program, out))} pages in {out.as_posix()}")
