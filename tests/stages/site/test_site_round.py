"""The page of an inspection round says the round as it was planned, and leads to the checks."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from jinja2 import FileSystemLoader
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import E_04, FLEET, T_17
from sample_round import DIESEL_ROUND

from guidegen.procedures.words import LABELS
from guidegen.round.acts import ACTS
from guidegen.round.model import Round
from guidegen.round.reasons import PREMISES, reason_words
from guidegen.site.draw import draw_edition
from guidegen.site.templates import PageTemplates


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def pages(tour: Round | None, templates: PageTemplates) -> Mapping[str, BeautifulSoup]:
    edition = draw_edition(T_17, tour, FLEET, templates)
    return {page.path: soup_of(page.body) for page in edition.pages}


@pytest.fixture(scope="module")
def page(templates: PageTemplates) -> BeautifulSoup:
    return pages(DIESEL_ROUND, templates)["round.html"]


def test_stops_stand_in_order_each_with_place_state_acts_and_reasons(page: BeautifulSoup) -> None:
    found = page.select("[data-stop]")
    assert attributes(page, "data-stop") == ["1", "2", "3", "4", "5"]
    for element, stop, leg in zip(found, DIESEL_ROUND.stops, DIESEL_ROUND.legs, strict=True):
        assert words(only(element, "[data-number]")) == str(stop.number)
        assert attributes(element, "data-station") == [stop.station]
        assert attributes(element, "data-state") == [f"{a}.{s}" for a, s in stop.state]
        assert [words(each) for each in element.select("[data-act]")] == [
            ACTS[change.act] for change in leg.changes
        ]
        assert [words(each) for each in element.select("[data-why]")] == [
            reason_words(reason) for reason in stop.reasons
        ]


def test_each_stop_leads_to_its_check_on_the_page_of_its_chapter(
    page: BeautifulSoup, templates: PageTemplates
) -> None:
    every = pages(DIESEL_ROUND, templates)
    links = [only(stop, "a") for stop in page.select("[data-stop]")]

    assert [attribute(link, "href") for link in links] == [
        "before-the-day.html#walk-around",
        "air-brakes.html#drain-air-tanks",
        "air-brakes.html#air-build-up",
        "before-the-day.html#oil-check",
        "before-the-day.html#oil-check",
    ]
    for link in links:
        path, _, name = attribute(link, "href").partition("#")
        assert only(every[path], f'[id="{name}"]')


def test_a_stop_that_is_one_step_is_called_by_its_words(page: BeautifulSoup) -> None:
    titles = [words(only(stop, "a")) for stop in page.select("[data-stop]")]

    assert titles[0] == "Walk around the truck"
    assert titles[3] == "Check the engine oil"
    assert titles[4] == "If the level is at ADD, put in 4 qt (3.8 L) of SAE 15W-40, API CK-4."


def test_each_stop_says_which_cautions_wait_there_and_no_others(page: BeautifulSoup) -> None:
    # Of the oil check, the caution waits at its first step and the notice at its second.
    waiting = [attributes(stop, "data-waiting") for stop in page.select("[data-stop]")]
    symbols = [len(stop.select("svg")) for stop in page.select("[data-stop]")]

    assert waiting == [["WARNING"], [], ["DANGER"], ["CAUTION"], ["NOTICE"]]
    assert symbols == [1, 0, 1, 1, 0]


def test_before_the_first_stop_the_page_says_that_the_list_is_not_all(page: BeautifulSoup) -> None:
    first = page.select("[data-stop]")[0]
    for key in ("park_first", "handbook_first", "open_each"):
        label = only(page, f'[data-label="{key}"]')
        assert words(label) == LABELS[key]
        assert label in first.find_all_previous()


def test_the_page_says_what_the_round_takes_for_granted(page: BeautifulSoup) -> None:
    told = [words(each) for each in page.select("[data-premise]")]

    assert told == [PREMISES[key] for key in ("cold", "guessed", "length")]


def test_the_plan_shows_the_number_of_every_stop_and_says_so_in_words(page: BeautifulSoup) -> None:
    plan = only(page, "[data-figure=round-plan] svg")
    beside = [words(line) for line in plan.select("[data-plan$='.1']")]

    assert sorted(beside) == ["1", "2", "3", "4, 5"]
    named = attribute(plan, "aria-labelledby").split()
    assert [words(only(plan, f'[id="{name}"]')) for name in named] == [
        words(each) for each in plan.select("[data-plan-words]")
    ]
    assert "at the engine: 4, 5." in words(only(plan, "desc"))


def test_the_start_page_leads_to_the_round_before_the_chapters(templates: PageTemplates) -> None:
    start = pages(DIESEL_ROUND, templates)["index.html"]
    link = only(start, '[href="round.html"]')

    assert words(link) == LABELS["round"]
    assert start.select('[data-label="chapters"]')[0] in link.find_all_next()


def test_a_truck_without_a_round_has_no_page_of_one_and_no_link(templates: PageTemplates) -> None:
    edition = draw_edition(E_04, None, FLEET, templates)

    assert "round.html" not in [page.path for page in edition.pages]
    assert not any("round.html" in page.body + page.nav for page in edition.pages)


def test_a_round_that_takes_nothing_for_granted_says_nothing_under_that_heading(
    templates: PageTemplates,
) -> None:
    page = pages(replace(DIESEL_ROUND, premises=()), templates)["round.html"]

    assert not page.select('[data-premise], [data-label="premises"]')
