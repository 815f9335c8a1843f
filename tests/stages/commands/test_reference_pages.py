"""The reference names all that there is, and is the one in the documentation."""

import ast
from pathlib import Path

import click
import pytest

from guidegen.cli import commands
from guidegen.commands.reference_pages import (
    Undocumented,
    all_rules,
    reference_files,
    write_reference,
)
from guidegen.specs.profile import FACTS


def test_the_pages_in_the_documentation_are_those_of_the_program(project_root: Path) -> None:
    folder = project_root / "docs" / "reference"
    found = {path.name: path.read_text(encoding="utf-8") for path in folder.glob("*.md")}

    assert found == reference_files(commands), (
        "make the pages again: guidegen reference --out docs/reference"
    )


def test_every_command_fact_and_rule_is_named() -> None:
    pages = reference_files(commands)

    assert all(
        f"## guidegen {name}" in pages["commands.md"]
        for name in commands.list_commands(click.Context(commands))
    )
    assert all(f"| `{name}` |" in pages["facts.md"] for name in FACTS)
    assert all(f"`{name}`" in pages["rules.md"] for name in all_rules())


def test_every_rule_that_the_program_makes_is_among_them(project_root: Path) -> None:
    made = {
        call.args[0].value
        for path in (project_root / "guidegen").rglob("*.py")
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call)
        and isinstance(call.func, ast.Name)
        and call.func.id == "Rule"
        and isinstance(call.args[0], ast.Constant)
    }

    assert made == {*all_rules()}


def test_a_command_or_option_without_words_makes_no_page(tmp_path: Path) -> None:
    @click.group()
    def program() -> None:
        """Be a program."""

    @program.command()
    @click.option("--depth")
    def dig(depth: str) -> None:
        click.echo(depth)

    (tmp_path / "old.md").write_text("kept", encoding="utf-8")

    with pytest.raises(Undocumented, match="command `dig`, option `--depth` of `dig`"):
        write_reference(program, tmp_path)

    assert [path.name for path in tmp_path.iterdir()] == ["old.md"]
