"""The theme of printed matter: what cannot be read in a cab is refused."""

import io

import pytest
from PIL import Image
from printed import PAPER
from wcag_contrast_ratio import rgb  # type: ignore[import-untyped]

from guidegen.finding import Findings
from guidegen.paper.logo import Logo, logo_from
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


LOGO = "logo:\n  file: mark.svg\n  alt: Mark of the sample fleet\n"
SHAPES = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 24"><path d="M0 0 L9 9"/></svg>'


def png(width: int, height: int) -> bytes:
    drawn = io.BytesIO()
    Image.new("L", (width, height)).save(drawn, "PNG")
    return drawn.getvalue()


def logo(raw: bytes | None, typed: str = LOGO) -> tuple[Logo | None, list[str], list[str]]:
    findings = Findings()
    file = read_theme("paper/theme.yml", (TYPED + typed).encode(), findings)
    found = logo_from(file.logo, raw, findings) if file and file.logo else None
    told = list(findings)
    return found, [f"{each.where} {each.rule.name}" for each in told], [each.what for each in told]


def test_a_logo_of_plain_shapes_or_fine_dots_is_taken() -> None:
    # 30 mm at 300 dots to the inch of 25.4 mm are 354.3 dots.
    for raw, kind, ratio in ((SHAPES, "svg", 2.0), (png(355, 100), "png", 3.55)):
        found, findings, _ = logo(raw)
        assert findings == []
        assert found is not None
        assert (found.format, found.ratio) == (kind, ratio)


@pytest.mark.parametrize(
    ("raw", "rule", "says"),
    [
        (None, "logo-missing", "there is no file `mark.svg` beside the theme"),
        (png(340, 100), "logo-too-coarse", "288 dots an inch"),
        (b"GIF89a", "logo-not-plain", "no plain SVG or PNG"),
        (b"", "logo-not-plain", "no plain SVG or PNG"),
        (SHAPES.replace(b"<path", b"<text>T</text><path"), "logo-not-plain", "`<text>` in line 1"),
        (SHAPES.replace(b"<path", b"<script/><path"), "logo-not-plain", "`<script>` in line 1"),
        (SHAPES.replace(b"<path", b'\n<image href="x.png"/><path'), "logo-not-plain", "in line 2"),
        (SHAPES.replace(b"<path", b'<path onclick="x()"'), "logo-not-plain", "`onclick`"),
        (SHAPES.replace(b"<path", b'<path fill="url(x.svg#a)"'), "logo-not-plain", "`fill`"),
        (b'<!DOCTYPE svg SYSTEM "x.dtd">' + SHAPES, "logo-not-plain", "a document type"),
        (SHAPES.replace(b"viewBox", b"view"), "logo-not-plain", "`viewBox`"),
        (SHAPES.replace(b"48 24", b"48 0"), "logo-not-plain", "no plain SVG or PNG"),
        (SHAPES[:40], "logo-not-plain", "no plain SVG or PNG"),
    ],
)
def test_a_logo_that_cannot_be_printed_alike_everywhere_is_refused_at_its_line(
    raw: bytes | None, rule: str, says: str
) -> None:
    number = 2 + (TYPED + LOGO)[: (TYPED + LOGO).index("file: ")].count("\n") - 1

    found, findings, what = logo(raw)

    assert found is None
    assert findings == [f"paper/theme.yml:{number}:9 {rule}"]
    assert says in what[0]


def test_a_logo_without_words_is_refused() -> None:
    _, findings, _ = logo(SHAPES, "logo:\n  file: mark.svg\n")

    assert [each.split()[1] for each in findings] == ["field-missing"]


def test_without_a_logo_the_templates_are_given_what_they_always_were() -> None:
    found, _ = read(TYPED)

    assert found is not None
    assert "logo" not in found.as_file()
