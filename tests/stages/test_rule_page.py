"""The pages of rules in the documents are made from the code, and none is old."""

from pathlib import Path

import pytest

from guidegen.build.rulebook import PAGES, listed_rules, page_files, write_pages
from guidegen.rule_page import RulePage, page_text


@pytest.mark.parametrize("name", sorted(page_files()))
def test_the_page_in_the_documents_is_the_one_that_the_code_makes(
    project_root: Path, name: str
) -> None:
    path = project_root / "docs" / "rules" / name

    assert path.read_text(encoding="utf-8") == page_files()[name], (
        "make the pages again: guidegen rules --out docs/rules"
    )


def test_the_documents_hold_no_page_of_a_rule_that_is_gone(project_root: Path) -> None:
    held = {path.name for path in (project_root / "docs" / "rules").iterdir()}

    assert held == set(page_files())


def test_writing_removes_pages_of_rules_that_are_gone(tmp_path: Path) -> None:
    (tmp_path / "gone.md").write_text("old", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")

    write_pages(tmp_path)

    assert {path.name for path in tmp_path.iterdir()} == {*page_files(), "notes.txt"}


@pytest.mark.parametrize("page", PAGES.values(), ids=lambda page: page.rule.name)
def test_a_page_says_what_why_wrong_right_and_where_from(page: RulePage) -> None:
    text = page_text(page)

    headings = [line for line in text.splitlines() if line.startswith("#")]
    assert [heading.split(" (")[0] for heading in headings] == [
        f"# {page.rule.name}",
        "## What it finds",
        "## Why it matters at the truck",
        "## Wrong",
        "## Right",
        "## Source and standing",
    ]
    assert page.standing.value in text
    assert page.wrong.text.strip() in text
    assert page.right.text.strip() in text
    assert text.endswith(".\n")


def test_the_list_of_rules_has_a_line_for_each() -> None:
    assert len(listed_rules().splitlines()) == len(PAGES)
