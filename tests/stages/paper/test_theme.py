"""The theme of printed matter: what cannot be read in a cab is refused."""

import pytest
from printed import PAPER
from wcag_contrast_ratio import rgb  # type: ignore[import-untyped]

from guidegen.finding import Findings
from guidegen.paper.theme import Theme, contrast, theme_from
from guidegen.specs.read import read_theme

TYPED = (PAPER / "theme.yml").read_text(encoding="utf-8")


def read(typed: str) -> tuple[Theme | None, list[str]]:
    findings = Findings()
    file = read_theme("paper/theme.yml", typed.encode(), findings)
    found = theme_from(file, findings) if file else None
    return found, [f"{finding.where} {finding.rule.name}" for finding in findings]


def test_the_theme_of_the_library_is_sound() -> None:
    found, findings = read(TYPED)

    assert findings == []
    assert found is not None


@pytest.mark.parametrize(
    ("before", "after", "line"),
    [("text: 9.5 pt", "text: 6 pt", "text"), ("unit: 26 pt", "unit: 12 pt", "unit")],
)
def test_type_that_is_too_small_is_refused_at_its_line(before: str, after: str, line: str) -> None:
    number = 1 + TYPED[: TYPED.index(before)].count("\n")
    column = 3 + len(f"{line}: ")

    found, findings = read(TYPED.replace(before, after))

    assert found is None
    assert findings == [f"paper/theme.yml:{number}:{column} type-too-small"]


def test_type_that_is_too_pale_is_refused() -> None:
    found, findings = read(TYPED.replace('quiet: "#3a4046"', 'quiet: "#a0a0a0"'))

    assert found is None
    assert [each.split()[1] for each in findings] == ["type-too-pale"]


def test_a_size_without_its_measure_is_refused() -> None:
    _, findings = read(TYPED.replace("text: 9.5 pt", "text: 9.5"))

    assert [each.split()[1] for each in findings] == ["text-of-wrong-form"]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("#000000", "#ffffff"),
        ("#d05d29", "#000000"),
        ("#005387", "#ffffff"),
        ("#777777", "#fafafa"),
    ],
)
def test_contrast_is_that_of_wcag(first: str, second: str) -> None:
    # Judge: wcag-contrast-ratio, WCAG 2.2's formula (reference K3).
    colors = [[int(each[n : n + 2], 16) / 255 for n in (1, 3, 5)] for each in (first, second)]

    assert contrast(first, second) == pytest.approx(rgb(*colors))
