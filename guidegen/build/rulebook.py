"""The rules that have a page.

Takes in nothing, or a folder; gives out the pages, and writes them as Markdown.
Refuses to leave a page of a rule that is gone: the folder holds these pages and no others.
"""

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from guidegen.coverage.pages import PAGES as COVERAGE_PAGES
from guidegen.plausibility.rulebook import PAGES as PLAUSIBILITY_PAGES
from guidegen.procedures.style.pages import PAGES as STYLE_PAGES
from guidegen.rule_page import RulePage, index_text, page_file, page_text

PAGES: Mapping[str, RulePage] = MappingProxyType(
    {page.rule.name: page for page in (*PLAUSIBILITY_PAGES, *STYLE_PAGES, *COVERAGE_PAGES)}
)
"""By the name of the rule."""

INDEX = "index.md"


def page_files() -> Mapping[str, str]:
    """Return the text of each page by its file name, the index among them."""
    files = {page_file(page): page_text(page) for page in PAGES.values()}
    return {INDEX: index_text(PAGES.values()), **files}


def write_pages(folder: Path) -> tuple[Path, ...]:
    """Write all pages into *folder*, remove other pages there, and return the files."""
    folder.mkdir(parents=True, exist_ok=True)
    files = page_files()
    for stray in folder.glob("*.md"):
        if stray.name not in files:
            stray.unlink()
    written = []
    for name, text in files.items():
        path = folder / name
        path.write_text(text, encoding="utf-8", newline="\n")
        written.append(path)
    return tuple(written)


def listed_rules() -> str:
    """Return one line for each rule: severity, name and what happens at the truck."""
    widest = max(len(name) for name in PAGES)
    return "\n".join(
        f"{page.rule.severity.value:7}  {name:{widest}}  {page.rule.why}"
        for name, page in PAGES.items()
    )
