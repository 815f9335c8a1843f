"""The reference: every command, rule, field and fact on a page.

Takes in the program's own commands, rules and catalogs; gives out Markdown by file name. Refuses
to leave anything undocumented: what lacks words is named, and no page is made.
"""

import importlib.util
import pkgutil
from collections.abc import Iterable, Iterator, Mapping
from importlib.abc import InspectLoader
from pathlib import Path
from typing import Any

import click

import guidegen
from guidegen.build.rulebook import PAGES
from guidegen.build.schemas import schemas
from guidegen.commands.results import RESULTS, WITHOUT
from guidegen.finding import Rule, Severity
from guidegen.specs.equipment import EQUIPMENT_SECTIONS, FactField
from guidegen.specs.fields import AmountField, ChoiceField, ChoicesField, CountField
from guidegen.specs.profile import ASKED, FACTS, HOLDER_LABELS

INDEX = "index.md"
_RULE_MADE = " = Rule("
"""In the source of a module that makes rules."""

_MADE = "Made by `guidegen reference`; do not edit.\n"


class Undocumented(ValueError):
    """Something that people meet has no words; the message names all of it."""


def reference_files(program: click.Group) -> Mapping[str, str]:
    """Return the text of each page by file name.

    Args:
        program: The command line.

    Raises:
        Undocumented: If a command, option, rule, field or fact has no words.
    """
    lacking: list[str] = []
    pages = {
        "commands.md": _page("Commands", _commands(program, lacking)),
        "facts.md": _page("Facts", _facts(lacking)),
        "fields.md": _page("Fields of the files", _fields(lacking)),
        "results.md": _page("What commands print with `--format json`", _results(program, lacking)),
        "rules.md": _page("Rules", _rules(lacking)),
    }
    if lacking:
        raise Undocumented(f"these have no words: {', '.join(lacking)}")
    index = [
        *("- [Commands](commands.md): what to type, and every option.",),
        *("- [Results](results.md): what commands print for programs.",),
        *("- [Fields](fields.md): what each kind of YAML file may hold.",),
        *("- [Facts](facts.md): what a procedure may name, and a condition may ask for.",),
        *("- [Rules](rules.md): every finding by its name, and what happens at the truck.",),
    ]
    return {INDEX: _page("Reference", index), **pages}


def write_reference(program: click.Group, folder: Path) -> tuple[Path, ...]:
    """Write all pages into *folder*, remove other pages there, and return the files.

    Raises:
        Undocumented: As of `reference_files`; nothing is written then.
    """
    files = reference_files(program)
    folder.mkdir(parents=True, exist_ok=True)
    for stray in folder.glob("*.md"):
        if stray.name not in files:
            stray.unlink()
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return tuple(folder / name for name in files)


def all_rules() -> Mapping[str, Rule]:
    """Return every rule of the program by name."""
    found: dict[str, Rule] = {page.rule.name: page.rule for page in PAGES.values()}
    for module in pkgutil.walk_packages(guidegen.__path__, "guidegen."):
        if _makes_rules(module.name):
            values = vars(importlib.import_module(module.name)).values()
            found.update((rule.name, rule) for rule in values if isinstance(rule, Rule))
    return dict(sorted(found.items()))


def _makes_rules(module: str) -> bool:
    """Whether *module* makes rules; to read in all others would take seconds."""
    loader = getattr(importlib.util.find_spec(module), "loader", None)
    return isinstance(loader, InspectLoader) and _RULE_MADE in (loader.get_source(module) or "")


def _page(title: str, lines: Iterable[str]) -> str:
    return "\n".join([f"# {title}", "", _MADE, *lines]) + "\n"


def _commands(program: click.Group, lacking: list[str]) -> Iterator[str]:
    context = click.Context(program, info_name="guidegen")
    for name, command, inner in _walk(program, context):
        usage = " ".join(command.collect_usage_pieces(inner))
        yield f"## guidegen {name}\n"
        yield f"```text\nguidegen {name} {usage}".rstrip() + "\n```\n"
        if not command.help:
            lacking.append(f"command `{name}`")
        yield " ".join((command.help or "").split()) + "\n"
        for option in command.get_params(inner):
            if isinstance(option, click.Option) and "--help" not in option.opts:
                if not option.help:
                    lacking.append(f"option `{option.opts[0]}` of `{name}`")
                yield f"- `{', '.join(option.opts)}`: {option.help}{_default(option, inner)}"
        yield ""


def _results(program: click.Group, lacking: list[str]) -> Iterator[str]:
    yield "One object on standard output, and nothing else there; bars and messages go to the"
    yield "error output.\n"
    yield "Every object has the key `findings`: a list of what was found, each with `rule`,"
    yield "`severity` (`error` or `warning`), its place (`path`, `line`, `column`, `end_line`,"
    yield "`end_column`; null where there is none), `what`, `why`, `fix`, `unit` and `notes`."
    yield "The other keys are the result, and stand below. A run that comes to no result prints"
    yield "`findings` and what it knows of the rest.\n"
    yield "Look at the exit code first: 0 clean, 1 findings, 2 wrong usage, 70 a fault of guidegen"
    yield "itself. Nothing stands on standard output after the last two.\n"
    for name, command, inner in _walk(program, click.Context(program, info_name="guidegen")):
        options = {opt for each in command.get_params(inner) for opt in each.opts}
        keys = RESULTS.get(name, {})
        if name in WITHOUT and "--format" not in options:
            continue
        if "--format" not in options or not keys:
            lacking.append(f"JSON of `{name}`")
        yield f"## guidegen {name} --format json\n"
        yield from (f"- `{key}`: {words}" for key, words in keys.items())
        yield ""
    yield "## Commands without it\n"
    yield from (f"- `guidegen {name}`: {why}." for name, why in WITHOUT.items())


def _walk(
    group: click.Group, context: click.Context, before: str = ""
) -> Iterator[tuple[str, click.Command, click.Context]]:
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        assert command is not None  # noqa: S101 -- the group has just named it
        inner = click.Context(command, info_name=name, parent=context)
        if isinstance(command, click.Group):
            yield from _walk(command, inner, f"{before}{name} ")
        else:
            yield f"{before}{name}", command, inner


def _default(option: click.Option, context: click.Context) -> str:
    if isinstance(option.show_default, str):
        return f" Without it: {option.show_default}."
    default = option.get_default(context)
    # Click marks an option without a default by a value of its own.
    if option.is_flag or not isinstance(default, str | int) or not option.show_default:
        return ""
    return f" Without it: `{default}`."


def _facts(lacking: list[str]) -> Iterator[str]:
    yield "What procedures name in braces and conditions ask for, in the order of the data page.\n"
    section = ""
    for fact in FACTS.values():
        if fact.section != section:
            section = fact.section
            yield f"\n## {HOLDER_LABELS.get(section, 'Identity')}\n"
            yield "| fact | what it is | what it holds | where the office finds it |"
            yield "|---|---|---|---|"
        if not fact.label or not fact.description:
            lacking.append(f"fact `{fact.name}`")
        cells = (f"`{fact.name}`", fact.label, _holds(fact), fact.description)
        yield "| " + " | ".join(_cell(cell) for cell in cells) + " |"
    yield "\n## For conditions alone\n"
    yield "No text can name these.\n"
    yield "| fact | what it is | what it holds | where the office finds it |"
    yield "|---|---|---|---|"
    for name in (name for name in ASKED if name not in FACTS):
        fact = ASKED[name]
        cells = (f"`{name}`", fact.label, _holds(fact), fact.description)
        yield "| " + " | ".join(_cell(cell) for cell in cells) + " |"
    yield "\n## Things that a truck may have\n"
    yield "For `fitted(…)` in conditions.\n"
    for name, thing in EQUIPMENT_SECTIONS.items():
        if not thing.label:
            lacking.append(f"section `{name}`")
        yield f"- `{name}`: {thing.label}"


def _holds(fact: FactField) -> str:
    match fact.field:
        case AmountField():
            kind = fact.field
            return f"{kind.dimension.value}, {kind.low} to {kind.high}"
        case CountField():
            return f"a number, {fact.field.low} to {fact.field.high}"
        case ChoiceField():
            return "one of " + ", ".join(f"`{choice}`" for choice in fact.field.choices)
        case ChoicesField():
            return "several of " + ", ".join(f"`{choice}`" for choice in fact.field.choices)
        case _:
            return str(getattr(fact.field, "says", "yes or no"))


def _fields(lacking: list[str]) -> Iterator[str]:
    for file, schema in schemas().items():
        yield f"## {file.removesuffix('.schema.json')}\n"
        yield f"{_cell(schema.get('description', ''))}\n"
        for name, field in schema.get("properties", {}).items():
            yield from _field(file, name, field, schema, lacking)
        for inner, shape in sorted(schema.get("$defs", {}).items()):
            yield f"\n### {inner}\n"
            yield f"{_cell(shape.get('description', ''))}\n"
            for name, field in shape.get("properties", {}).items():
                yield from _field(f"{file}, {inner}", name, field, schema, lacking)
        yield ""


def _field(
    where: str, name: str, field: Mapping[str, Any], schema: Mapping[str, Any], lacking: list[str]
) -> Iterator[str]:
    described = field.get("description") or _described_elsewhere(field, schema)
    if not described:
        lacking.append(f"field `{name}` of {where}")
    yield f"- `{name}`: {_cell(described)}"


def _described_elsewhere(field: Mapping[str, Any], schema: Mapping[str, Any]) -> str:
    """Return the words of the shape that a field leads to, if it has none of its own."""
    for each in (field, *field.get("anyOf", ()), field.get("items", {})):
        target = str(each.get("$ref", "")).rpartition("/")[2]
        shape = schema.get("$defs", {}).get(target, {})
        if shape.get("description"):
            return str(shape["description"])
    return ""


def _rules(lacking: list[str]) -> Iterator[str]:
    yield "Error: what it finds holds the truck, or all, back. Warning: the office is told.\n"
    yield "| rule | | what happens at the truck |"
    yield "|---|---|---|"
    for name, rule in all_rules().items():
        if not rule.why:
            lacking.append(f"rule `{name}`")
        shown = f"[`{name}`](../rules/{name}.md)" if name in PAGES else f"`{name}`"
        grade = "error" if rule.severity is Severity.ERROR else "warning"
        yield f"| {shown} | {grade} | {_cell(rule.why)} |"


def _cell(text: str) -> str:
    return " ".join(str(text).split()).replace("|", "\\|")
