"""The lamp finder: every lamp of the truck under its color, and the way to its text."""

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
import tinycss2
from bs4 import BeautifulSoup
from hand_made_site import T_17
from jinja2 import FileSystemLoader
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import FLEET, H_2, procedure
from wcag_contrast_ratio import rgb  # type: ignore[import-untyped]

from guidegen.figures.lamp_color import mark_of_color
from guidegen.guide.model import Chapter, Guide
from guidegen.procedures.words import LAMP_COLORS, LAMPS_IN_GENERAL
from guidegen.site.draw import draw_edition
from guidegen.site.lay_out_lamps import LampWithoutSymbol
from guidegen.site.templates import PageTemplates

LEAST_FOR_TEXT = 4.5
"""WCAG 2.2, 1.4.3 (reference K3)."""


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


@pytest.fixture(scope="module")
def css(project_root: Path) -> str:
    path = project_root / "site_templates/theme/assets/stylesheets/lamp-finder.css"
    return path.read_text(encoding="utf-8")


def pages(guide: Guide, templates: PageTemplates) -> Mapping[str, BeautifulSoup]:
    edition = draw_edition(guide, None, FLEET, templates)
    return {page.path: soup_of(page.body) for page in edition.pages}


def test_colors_stand_gravest_first_and_only_those_that_the_truck_has(
    templates: PageTemplates,
) -> None:
    page = pages(T_17, templates)["lamp-finder.html"]

    assert attributes(page, "data-color") == ["red", "amber"]
    assert [attribute(each, "href") for each in page.select("[data-pick]")] == ["#red", "#amber"]
    assert [words(each) for each in page.select("[data-pick]")] == ["red lamp", "amber lamp"]
    assert attributes(page, "id", "section") == ["red", "amber"]


def test_a_lamp_shows_name_and_act_under_its_color_and_all_of_its_tile_leads_to_its_text(
    templates: PageTemplates,
) -> None:
    every = pages(T_17, templates)
    page = every["lamp-finder.html"]

    found = [
        (color["id"], tile["data-tile"], words(only(tile, "a > .gg-tile__words")))
        for color in page.select("[data-color]")
        for tile in color.select("[data-tile]")
    ]
    assert found == [
        ("red", "lamp-stop-engine", "Stop engine Stop now"),
        ("red", "lamp-oil-pressure", "Engine oil pressure Stop now"),
        ("amber", "lamp-abs", "Anti-lock brakes Report it"),
    ]
    for tile in page.select("[data-tile]"):
        path, _, name = attribute(only(tile, "a"), "href").partition("#")
        assert name == tile["data-tile"]
        assert only(every[path], f'[id="{name}"]')
        assert words(tile) == words(only(tile, "a"))


def test_the_symbol_of_a_tile_is_that_of_the_chapter(templates: PageTemplates) -> None:
    every = pages(T_17, templates)
    symbols = every["lamp-finder.html"].select("[data-tile] svg")
    drawn = every["warning-lamps.html"].select("figure svg")

    assert [str(each) for each in symbols] == [str(each) for each in drawn]
    assert len(symbols) == 3


def test_ways_to_it_stand_on_the_start_page_in_the_chapter_and_in_the_navigation(
    templates: PageTemplates,
) -> None:
    edition = draw_edition(T_17, None, FLEET, templates)
    every = {page.path: soup_of(page.body) for page in edition.pages}

    start = [attribute(each, "href") for each in every["index.html"].select("a")]
    assert start[:3] == ["lamp-finder.html", "lamp-finder.html#red", "lamp-finder.html#amber"]
    chapter = only(every["warning-lamps.html"], '[data-label="lamp_finder"]')
    assert attribute(chapter, "href") == "lamp-finder.html"
    assert not every["before-the-day.html"].select('[data-label="lamp_finder"]')
    assert all('href="lamp-finder.html"' in page.nav for page in edition.pages)


def test_a_truck_without_lamps_on_record_has_no_finder_and_no_way_to_one(
    templates: PageTemplates,
) -> None:
    edition = draw_edition(H_2, None, FLEET, templates)

    assert "lamp-finder.html" not in [page.path for page in edition.pages]
    assert not [page for page in edition.pages if "lamp-finder" in page.nav + page.body]


def test_who_does_not_find_his_lamp_is_led_to_what_holds_for_its_color(
    templates: PageTemplates,
) -> None:
    general = procedure("amber-lamp", "Act on an amber warning lamp", ["Read it."])
    other = Chapter("when-something-is-wrong", (general,))
    page = pages(replace(T_17, chapters=(*T_17.chapters, other)), templates)["lamp-finder.html"]

    assert not page.select('#red [data-label="lamp_not_here"]')
    link = only(page, '#amber .gg-lamps__else [data-procedure-link="amber-lamp"]')
    assert attribute(link, "href") == "when-something-is-wrong.html#amber-lamp"


def test_what_holds_for_a_color_is_in_the_library(project_root: Path) -> None:
    folder = project_root / "site_templates" / "procedures"
    for color, name in LAMPS_IN_GENERAL.items():
        assert color in LAMP_COLORS
        assert (folder / f"{name}.yml").is_file()


def test_a_lamp_without_a_symbol_is_refused(templates: PageTemplates) -> None:
    lamps = next(each for each in T_17.chapters if each.id == "warning-lamps")
    bare = replace(lamps, procedures=tuple(replace(e, figure=None) for e in lamps.procedures))

    with pytest.raises(LampWithoutSymbol, match="lamp-stop-engine"):
        draw_edition(replace(T_17, chapters=(bare,)), None, FLEET, templates)


def test_the_search_index_knows_nothing_of_the_finder(templates: PageTemplates) -> None:
    index = draw_edition(T_17, None, FLEET, templates).search_index

    assert "lamp-finder" not in index
    assert index.count("warning-lamps.html#lamp-oil-pressure") == 1


def test_each_color_has_a_mark_and_a_kind_of_edge_of_its_own(css: str) -> None:
    marks = {mark_of_color(color).shapes for color in LAMP_COLORS}
    assert len(marks) == len(LAMP_COLORS)
    edges = re.findall(
        r"gg-pick--(\w+),\n.*\n.*gg-tile \{\n  border-width: (\S+);\n  border-style: (\w+);", css
    )
    assert [color for color, *_ in edges] == list(LAMP_COLORS)
    assert len({(width, style) for _, width, style in edges}) == len(edges)


def test_every_color_is_read_on_its_ground(css: str) -> None:
    colors = dict(re.findall(r"(--gg-[a-z]+-(?:back|text)): (#[0-9a-f]{6})", css))
    assert len(colors) == 2 * len(LAMP_COLORS)
    for color in LAMP_COLORS:
        text, back = (
            tuple(int(colors[f"--gg-{color}-{part}"][n : n + 2], 16) / 255 for n in (1, 3, 5))
            for part in ("text", "back")
        )
        assert rgb(text, back) >= LEAST_FOR_TEXT, color


def test_a_rule_that_sets_ink_or_ground_sets_both_as_a_pair(css: str) -> None:
    checked = 0
    for rule in _rules(css):
        declared = dict(rule)
        ink, ground = declared.get("color"), declared.get("background-color")
        if ink or ground:
            assert ink, declared
            assert ground, declared
            pair = (ink.replace("-text)", ""), ground.replace("-back)", ""))
            assert pair[0] == pair[1] or (ink, ground) == ("#000000", "#ffffff")
            checked += 1
        assert not set(declared) & {"content", "text-transform", "opacity", "visibility"}
        assert declared.get("display") != "none"
    assert checked > len(LAMP_COLORS)
    assert "url(" not in css


def _rules(css: str) -> list[list[tuple[str, str]]]:
    found = []
    pending = tinycss2.parse_stylesheet(css, skip_comments=True, skip_whitespace=True)
    while pending:
        node = pending.pop(0)
        if node.type == "at-rule" and node.content:
            pending += tinycss2.parse_rule_list(
                node.content, skip_comments=True, skip_whitespace=True
            )
        elif node.type == "qualified-rule":
            content = tinycss2.parse_blocks_contents(
                node.content, skip_comments=True, skip_whitespace=True
            )
            found.append(
                [
                    (each.name, tinycss2.serialize(each.value).strip())
                    for each in content
                    if each.type == "declaration"
                ]
            )
    return found
