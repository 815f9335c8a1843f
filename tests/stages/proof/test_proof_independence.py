import ast
from pathlib import Path

import pytest

from guidegen.finding import Rule, Severity
from guidegen.proof import rules

FORBIDDEN = (
    "guidegen.site",
    "guidegen.differences.compare",
    "guidegen.differences.model",
    "guidegen.figures.draw_svg",
    "guidegen.round.draw_svg",
    "guidegen.round.reasons.reason_words",
    "guidegen.round.plan_view.numbers_in_words",
    "guidegen.quantity.express",
    "guidegen.quantity.convert",
    "guidegen.gaps.page",
    "guidegen.gaps.matrix",
    "guidegen.gaps.groups",
    "guidegen.gaps.order",
    "guidegen.procedures.own.page",
    "guidegen.procedures.own.report",
    "guidegen.build",
    "guidegen.cards",
    "jinja2",
    "mkdocs",
    "pathlib",
    "os",
    "datetime",
    "time",
)


def modules(project_root: Path) -> list[Path]:
    found = sorted((project_root / "guidegen" / "proof").rglob("*.py"))
    assert found
    return found


def imported(path: Path) -> set[str]:
    names = set[str]()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def test_the_proof_imports_nothing_that_prints_and_opens_no_file(project_root: Path) -> None:
    found = {
        f"{path.name}: {name}"
        for path in modules(project_root)
        for name in imported(path)
        for forbidden in FORBIDDEN
        if name == forbidden or name.startswith(f"{forbidden}.")
    }

    assert found == set()


def test_the_proof_opens_no_file(project_root: Path) -> None:
    calls = {
        f"{path.name}:{node.lineno}"
        for path in modules(project_root)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") in ("open", "print")
    }

    assert calls == set()


RULES = [each for each in vars(rules).values() if isinstance(each, Rule)]


@pytest.mark.parametrize("rule", RULES, ids=[rule.name for rule in RULES])
def test_every_rule_says_what_happens_at_the_truck_and_holds_back(rule: Rule) -> None:
    assert rule.severity is Severity.ERROR
    assert rule.why[0].islower() or rule.why.startswith("a ")
    assert not rule.why.endswith(".")
