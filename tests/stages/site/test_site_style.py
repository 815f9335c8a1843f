"""The stylesheets, judged by the contrast formula of WCAG 2.2 in a package of its own."""

import re
from pathlib import Path

import pytest
import tinycss2
from mkdocs.config import load_config
from wcag_contrast_ratio import rgb  # type: ignore[import-untyped]

from guidegen.site.join_sheets import join_sheets

LEAST_FOR_TEXT = 4.5
LEAST_FOR_EDGES = 3.0
"""WCAG 2.2, 1.4.3 and 1.4.11 (reference K3)."""

SIGNAL_PAIRS = {
    "danger": ("#9b2423", "#ffffff", 7.86),
    "warning": ("#d05d29", "#000000", 5.28),
    "caution": ("#f9a900", "#000000", 10.70),
    "notice": ("#005387", "#ffffff", 8.12),
}
"""Colors of ISO 3864-4 as approximated for screens, and contrasts (references S8 and S10)."""

Scheme = dict[str, str]


THEMES = {
    "day": ":root",
    "dark": ':root[data-theme="dark"]',
    "night-red": ':root[data-theme="night-red"]',
    "paper": ":root[data-theme]",
    "dark without a script": ":root:not(.js)",
}
"""Selector under which each theme has its colors."""


@pytest.fixture(scope="module")
def css(project_root: Path) -> str:
    """All stylesheets of the settings, joined as they are published."""
    theme = project_root / "site_templates" / "theme"
    settings = load_config(config_file=str(project_root / "mkdocs.yml"))
    return join_sheets((theme / path).read_text(encoding="utf-8") for path in settings.extra_css)


@pytest.fixture(scope="module")
def schemes(css: str) -> dict[str, Scheme]:
    found: dict[str, Scheme] = {name: Scheme() for name in THEMES}
    for selector, declared in rules(css):
        for name, wanted in THEMES.items():
            if selector == wanted:
                found[name].update({k: v for k, v in declared if k.startswith("--gg-")})
    return {name: {**found["day"], **own} for name, own in found.items()}


def test_every_stylesheet_and_script_stands_in_the_settings(project_root: Path) -> None:
    settings = load_config(config_file=str(project_root / "mkdocs.yml"))
    extra = settings.extra
    theme = project_root / "site_templates" / "theme"
    sheets = [path.relative_to(theme).as_posix() for path in theme.rglob("*.css")]
    scripts = [path.relative_to(theme).as_posix() for path in theme.rglob("*.js")]
    assert sorted(sheets) == sorted(settings.extra_css)
    named = [str(path) for path in settings.extra_javascript]
    # The worker is asked for by the browser, and by no page.
    assert sorted(scripts) == sorted(
        [*named, extra["first_script"], *extra["search_scripts"], "sw.js"]
    )


def test_joining_stylesheets_keeps_their_rules_and_strings() -> None:
    joined = join_sheets(['a { b: "/* x */" } /* gone */\n\n', "/* gone */ c { d: url(e) }"])
    assert joined == 'a { b: "/* x */" }\nc { d: url(e) }\n'


def test_dark_is_the_same_with_a_script_and_without(schemes: dict[str, Scheme]) -> None:
    assert schemes["dark"] == schemes["dark without a script"]
    assert schemes["dark"] != schemes["day"]


def test_night_red_has_no_green_and_blue_light_to_speak_of(schemes: dict[str, Scheme]) -> None:
    # Rods are nearly blind to long waves; below half of its red, what is left of green and blue
    # only keeps letters readable. Common practice, no source.
    for name, color in schemes["night-red"].items():
        red, green, blue = (int(color[at : at + 2], 16) for at in (1, 3, 5))
        assert max(green, blue) <= red / 2, name


def test_in_night_red_signal_panels_differ_by_border_too(css: str) -> None:
    borders = {
        selector: dict(declared)["border"]
        for selector, declared in rules(css)
        if selector.startswith(".gg-caution[data-signal=") and "border" in dict(declared)
    }
    assert len(borders) == len(set(borders.values())) == 4


def rules(css: str) -> list[tuple[str, list[tuple[str, str]]]]:
    """Every rule with its selector and declarations, those in media queries too."""
    found = []
    pending = tinycss2.parse_stylesheet(css, skip_comments=True, skip_whitespace=True)
    while pending:
        node = pending.pop(0)
        if node.type == "at-rule" and node.lower_at_keyword == "media" and node.content:
            pending += tinycss2.parse_rule_list(
                node.content, skip_comments=True, skip_whitespace=True
            )
        elif node.type == "qualified-rule":
            content = tinycss2.parse_blocks_contents(
                node.content, skip_comments=True, skip_whitespace=True
            )
            declared = [
                (each.name, tinycss2.serialize(each.value).strip())
                for each in content
                if each.type == "declaration"
            ]
            found.append((tinycss2.serialize(node.prelude).strip(), declared))
    return found


def contrast(one: str, other: str) -> float:
    first, second = (
        tuple(int(color[start : start + 2], 16) / 255 for start in (1, 3, 5))
        for color in (one, other)
    )
    return float(rgb(first, second))


@pytest.mark.parametrize(
    ("color", "ratio"),
    [("#777777", 4.478), ("#767676", 4.542), ("#595959", 7.005), ("#ff0000", 3.998)],
)
def test_the_judge_itself_agrees_with_published_ratios(color: str, ratio: float) -> None:
    # Reference K4: worked examples on white.
    assert contrast(color, "#ffffff") == pytest.approx(ratio, abs=0.0005)


@pytest.mark.parametrize("scheme", THEMES)
def test_every_pair_of_text_and_ground_has_enough_contrast(
    scheme: str, schemes: dict[str, Scheme]
) -> None:
    colors = schemes[scheme]
    pairs = [name.removesuffix("-text") for name in colors if name.endswith("-text")]
    assert len(pairs) == 15
    for pair in pairs:
        ratio = contrast(colors[f"{pair}-text"], colors[f"{pair}-back"])
        assert ratio >= LEAST_FOR_TEXT, (pair, ratio)


@pytest.mark.parametrize("scheme", ["day", "dark", "paper"])
@pytest.mark.parametrize("ground", ["page", "card"])
def test_what_a_driver_reads_at_night_and_in_the_sun_has_more_than_enough(
    scheme: str, ground: str, schemes: dict[str, Scheme]
) -> None:
    colors = schemes[scheme]
    # WCAG 2.2, 1.4.6 (AAA), reference K3. Red light alone cannot come to it.
    assert contrast(colors[f"--gg-{ground}-text"], colors[f"--gg-{ground}-back"]) >= 7


@pytest.mark.parametrize("scheme", THEMES)
@pytest.mark.parametrize("ground", ["page", "card"])
def test_edges_of_things_to_press_can_be_seen(
    scheme: str, ground: str, schemes: dict[str, Scheme]
) -> None:
    colors = schemes[scheme]
    assert contrast(colors["--gg-edge"], colors[f"--gg-{ground}-back"]) >= LEAST_FOR_EDGES


@pytest.mark.parametrize("scheme", ["day", "dark"])
@pytest.mark.parametrize("signal", SIGNAL_PAIRS)
def test_signal_words_have_the_colors_of_the_standard(
    signal: str, scheme: str, schemes: dict[str, Scheme]
) -> None:
    back, text, ratio = SIGNAL_PAIRS[signal]
    colors = schemes[scheme]
    assert colors[f"--gg-{signal}-back"] == back
    assert colors[f"--gg-{signal}-text"] == text
    assert contrast(back, text) == pytest.approx(ratio, abs=0.005)


def test_a_rule_that_sets_one_of_a_pair_sets_both(css: str) -> None:
    checked = 0
    for selector, declarations in rules(css):
        declared = dict(declarations)
        text, back = declared.get("color"), declared.get("background-color")
        if text in (None, "inherit") and back is None:
            continue
        assert text is not None, selector
        assert back is not None, selector
        assert text.startswith("var("), selector
        assert text.replace("-text)", "") == back.replace("-back)", ""), selector
        checked += 1
    assert checked > 20
    assert "background:" not in css


def test_every_color_that_is_named_exists_and_every_one_that_exists_is_used(
    css: str, schemes: dict[str, Scheme]
) -> None:
    used = set(re.findall(r"var\((--gg-[a-z-]+)\)", css))
    assert used == set(schemes["day"])


def test_the_stylesheet_asks_for_nothing_outside_the_site(css: str) -> None:
    addresses = re.findall(r"url\(([^)]*)\)", css)
    assert addresses
    assert all(each.startswith('"../fonts/') for each in addresses)
    assert "@import" not in css


def test_no_words_come_from_the_stylesheet(css: str) -> None:
    names = {name for _, declared in rules(css) for name, _ in declared}
    assert not names & {"content", "text-transform", "opacity", "visibility"}
