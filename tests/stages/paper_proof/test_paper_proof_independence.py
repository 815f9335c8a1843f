import ast
from pathlib import Path

FORBIDDEN = (
    "guidegen.paper.",
    "guidegen.site",
    "guidegen.wording",
    "guidegen.figures.draw_svg",
    "guidegen.quantity.express",
    "guidegen.quantity.convert",
    "guidegen.build",
    "segno",
    "typst",
    "pathlib",
    "os.",
    "datetime",
    "time.",
)
DOORS = {
    "pypdfium2": {"read_pdf.py", "read_links.py", "read_spoken.py"},
    "zxingcpp": {"compare_code.py"},
}


def imported(path: Path) -> set[str]:
    names = set[str]()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {f"{alias.name}." for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names |= {f"{node.module}.{alias.name}." for alias in node.names}
    return names


def modules(project_root: Path) -> list[Path]:
    found = sorted((project_root / "guidegen" / "paper_proof").glob("*.py"))
    assert found
    return found


def test_the_proof_of_paper_imports_nothing_of_what_prints_it(project_root: Path) -> None:
    reached = {name for path in modules(project_root) for name in imported(path)}

    assert [name for name in sorted(reached) if name.startswith(FORBIDDEN)] == []


def test_each_library_comes_in_by_its_own_door(project_root: Path) -> None:
    for library, doors in DOORS.items():
        users = {
            path.name
            for path in modules(project_root)
            if any(name.startswith(f"{library}.") for name in imported(path))
        }
        assert users == doors
