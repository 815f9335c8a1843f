"""The commands about the library itself.

Takes in what was typed; gives out schemas, rules and numbers.
Refuses to look at any truck.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import click

from guidegen.build.number_list.collect import collect_numbers
from guidegen.build.number_pages import counted_numbers, numbers_as_json, write_number_pages
from guidegen.build.project import open_project
from guidegen.build.rulebook import PAGES, listed_rules, write_pages
from guidegen.build.schemas import write_schemas
from guidegen.commands.reference_pages import write_reference
from guidegen.commands.terminal import FORMAT, PROJECT, Format, end, refuse
from guidegen.finding import Findings
from guidegen.rule_page import RulePage, page_text


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    show_default="schema/ in the project",
    help="Folder to write to.",
)
@PROJECT
@FORMAT
def schema(out: Path | None, root: Path, form: Format) -> None:
    """Write the JSON Schemas that editors check spec files with."""
    files = _paths(write_schemas(out or root / "schema"))
    end(Findings(), form, {"files": files}, "\n".join(files))


@click.command()
@click.argument("name", required=False)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=None,
    help="Folder to write the pages of all rules to, instead of printing.",
)
@FORMAT
def rules(name: str | None, out: Path | None, form: Format) -> None:
    """Explain the rule called NAME, or list the rules that have a page."""
    if out is not None:
        files = _paths(write_pages(out))
        end(Findings(), form, {"files": files}, _counted_pages(files, out))
    if name is None:
        end(Findings(), form, _rules_as_json(PAGES.values()), listed_rules())
    if name not in PAGES:
        refuse("rule", name, list(PAGES))
    page = PAGES[name]
    end(Findings(), form, _rules_as_json([page]), page_text(page).rstrip("\n"))


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
@FORMAT
@click.pass_context
def reference(context: click.Context, out: Path, form: Format) -> None:
    """Write the reference of every command, rule, field and fact as Markdown."""
    program = context.find_root().command
    assert isinstance(program, click.Group)  # noqa: S101 -- the root is the program itself
    files = _paths(write_reference(program, out))
    end(Findings(), form, {"files": files}, _counted_pages(files, out))


def _paths(files: Iterable[Path]) -> list[str]:
    return [path.as_posix() for path in files]


def _counted_pages(files: Sequence[str], out: Path) -> str:
    return f"{len(files)} pages in {out.as_posix()}"


def _rules_as_json(pages: Iterable[RulePage]) -> dict[str, Any]:
    return {
        "rules": [
            {
                "name": page.rule.name,
                "severity": page.rule.severity.value,
                "why": page.rule.why,
                "page": page_text(page),
            }
            for page in pages
        ]
    }
