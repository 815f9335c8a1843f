"""Numbers in guidegen's own code that decide what is said of a truck.

Takes in modules; gives out their constants that hold numbers, each with what stands beside it in
the code and the source of its rule. Refuses a module that nobody has named a source for.
"""

import ast
import inspect
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import ModuleType

from guidegen.build.number_list.model import (
    Ground,
    NumberEntry,
    ground_of_standing,
    ground_of_words,
)
from guidegen.build.number_list.source_lines import code_place
from guidegen.plausibility.model import Plausibility
from guidegen.rule_page import RulePage

COUNTING = frozenset({0, 1, 2})
"""Numbers that formulas are made of: nothing, one, and the two ends or halves of a thing."""

_PROSE = ("Rule", "RulePage", "Example", "Plausibility", "compile")
"""Calls whose texts are words about numbers, or patterns of spellings."""

_DIGIT = re.compile(r"[0-9]")
_PATTERN = re.compile(r"\\[bdsw]|\[[^\]]*-[^\]]*\]|\(\?")
"""What only patterns of spellings hold; their digits are no amounts."""


@dataclass(frozen=True, slots=True)
class CodeSource:
    """Where the numbers of one module come from."""

    module: ModuleType
    source: str
    ground: Ground
    is_deep: bool = False
    """Whether numbers inside its functions are values too, and not only counts."""

    own: Mapping[str, tuple[str, Ground]] = field(default_factory=dict)
    """Constants whose source is another than the module's, by name."""


def rule_numbers(modules: tuple[ModuleType, ...]) -> Iterator[NumberEntry]:
    """Yield the constants of the modules of rules, each with the source of the rule's page."""
    for module in modules:
        page = _page_of(module)
        if page is not None:
            source = f"{page.source} (rule `{page.rule.name}`)"
            yield from code_numbers(CodeSource(module, source, ground_of_standing(page.standing)))


def has_page(module: ModuleType) -> bool:
    """Whether *module* holds a rule, and so the source of its numbers."""
    return _page_of(module) is not None


def code_numbers(of: CodeSource) -> Iterator[NumberEntry]:
    """Yield the constants of one module that hold numbers.

    What stands beside a constant in the code goes before the module's source, if it names one.
    """
    tree = ast.parse(inspect.getsource(of.module))
    for place, node in enumerate(tree.body):
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
            numbers = tuple(numbers_of(node.value))
            if numbers:
                beside = _said_beside(tree.body, place)
                yield _entry(of, node, numbers, beside)
        elif of.is_deep and isinstance(node, ast.FunctionDef):
            yield from _inside(of, node)


def numbers_of(node: ast.AST) -> Iterator[str]:
    """Yield the numbers of an expression as written, and its texts that hold digits."""
    if isinstance(node, ast.Call) and _name(node.func) in _PROSE:
        return
    if isinstance(node, ast.Constant):
        match node.value:
            case bool() | None:
                return
            case int() | float():
                yield str(node.value)
            case str() as text if _DIGIT.search(text) and not _PATTERN.search(text):
                yield text
            case _:
                return
    for inner in ast.iter_child_nodes(node):
        yield from numbers_of(inner)


def _inside(of: CodeSource, function: ast.FunctionDef) -> Iterator[NumberEntry]:
    """Yield each line of a function that holds a number which is no mere count."""
    lines: dict[int, list[str]] = {}
    for node in ast.walk(function):
        is_number = isinstance(node, ast.Constant) and type(node.value) in (int, float)
        if isinstance(node, ast.Constant) and is_number and node.value not in COUNTING:
            lines.setdefault(node.lineno, []).append(str(node.value))
    source = inspect.getsource(of.module).split("\n")
    for line, numbers in sorted(lines.items()):
        yield NumberEntry(
            code_place(of.module, line),
            tuple(numbers),
            f"`{source[line - 1].strip()}` in `{function.name}`",
            of.source,
            of.ground,
        )


def _entry(
    of: CodeSource, node: ast.Assign | ast.AnnAssign, numbers: tuple[str, ...], beside: str
) -> NumberEntry:
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    name = ", ".join(ast.unparse(target).strip("()") for target in targets)
    says = f"`{name}`: {beside}" if beside else f"`{name}`"
    source, ground = of.own.get(name, (of.source, of.ground))
    if name not in of.own and ground_of_words(beside) is not Ground.NAMED:
        ground = ground_of_words(beside)
        source = ground.value
    return NumberEntry(code_place(of.module, node.lineno), numbers, says, source, ground)


def _said_beside(body: list[ast.stmt], place: int) -> str:
    """Return the text below a constant, which documents it; empty if there is none."""
    below = body[place + 1] if place + 1 < len(body) else None
    if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
        return " ".join(str(below.value.value).split())
    return ""


def _page_of(module: ModuleType) -> RulePage | None:
    for each in vars(module).values():
        if isinstance(each, Plausibility) and each.check.__module__ == module.__name__:
            return each.page
    return None


def _name(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else ast.unparse(function)
