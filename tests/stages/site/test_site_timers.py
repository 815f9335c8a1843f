"""A timer reads in full as it stands on the page, and tells the script exact seconds."""

from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag
from jinja2 import FileSystemLoader
from page_soup import attribute, only, soup_of, words
from sample_fleet import FALL, FLEET, RISE, SPAN, T_17, fact, facts, text

from guidegen.guide.model import Guide, Step, Timer, TimerLimit
from guidegen.procedures.script_words import BACK_WORDS, TIMER_WORDS
from guidegen.procedures.timer_kinds import Bound, TimerKind
from guidegen.site.draw import draw_edition
from guidegen.site.templates import PageTemplates

LAW = {
    "law.air_loss_time": "1.5 min",
    "law.air_static_loss_single": "2 psi",
    "law.air_static_loss_combination": "3 psi",
}


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def with_timer(timer: Timer | None) -> Guide:
    """T-17, whose first procedure about air brakes has one step, with *timer*."""
    before, brakes = T_17.chapters[0], T_17.chapters[-1]
    step = Step("air-build-up.steps.one", 1, text("air-build-up.steps.one", "Watch."), timer)
    timed = replace(brakes.procedures[0], blocks=(step,))
    chapters = (before, replace(brakes, procedures=(timed,)))
    return replace(T_17, facts={**T_17.facts, **facts(LAW)}, chapters=chapters)


def page(timer: Timer | None, templates: PageTemplates) -> BeautifulSoup:
    edition = draw_edition(with_timer(timer), None, FLEET, templates)
    return next(soup_of(e.body) for e in edition.pages if e.path == "air-brakes.html")


def lines(timer: Timer, templates: PageTemplates) -> list[tuple[str, str, str | None]]:
    found = page(timer, templates).select("[data-timer-line]")
    return [(attribute(each, "data-timer-line"), words(each), seconds(each)) for each in found]


def seconds(line: Tag) -> str | None:
    return attribute(line, "data-seconds") if line.has_attr("data-seconds") else None


def script_words(soup: BeautifulSoup) -> list[str]:
    # Selectors look into no template.
    found = soup.find_all("p", attrs={"data-script-word": True})
    return [attribute(each, "data-script-word") for each in found]


def test_a_stopwatch_names_its_limit_as_the_guide_prints_it(templates: PageTemplates) -> None:
    assert lines(RISE, templates) == [
        ("no_more_than", "Time limit: no more than 45 s", "45"),
    ]


def test_a_countdown_names_its_time_and_each_limit_with_what_it_is_for(
    templates: PageTemplates,
) -> None:
    assert lines(FALL, templates) == [
        ("time", "Timer: 1.5 min", "90"),
        (
            "less_than.truck_alone",
            "Truck alone: fall of pressure less than 2 psi (13.5 kPa)",
            None,
        ),
        (
            "less_than.with_trailer",
            "With a trailer: fall of pressure less than 3 psi (20 kPa)",
            None,
        ),
    ]
    assert attribute(only(page(FALL, templates), "[data-timer]"), "data-timer-reading") == (
        "pressure_fall"
    )


def test_a_timer_of_what_has_no_limit_says_so(templates: PageTemplates) -> None:
    bare = Timer(TimerKind.STOPWATCH, None, None, (), SPAN)

    assert lines(bare, templates) == [
        ("no_limit", "No limit is on record here. The timer only measures.", None)
    ]


def test_a_usual_time_that_is_a_range_has_no_seconds_to_judge_by(templates: PageTemplates) -> None:
    name = "aftertreatment.parked_regeneration.duration"
    usual = Timer(TimerKind.STOPWATCH, None, None, (TimerLimit(Bound.USUAL, name, None),), SPAN)
    guide = with_timer(usual)
    guide = replace(guide, facts={**guide.facts, name: fact(name, "20 to 30 min")})
    edition = draw_edition(guide, None, FLEET, templates)
    soup = next(soup_of(e.body) for e in edition.pages if e.path == "air-brakes.html")

    assert words(only(soup, "[data-timer-line]")) == "Usual time: 20\u201330 min"
    assert not soup.select("[data-seconds]")


def test_scripts_are_given_the_words_of_timers_where_there_are_timers(
    templates: PageTemplates,
) -> None:
    assert script_words(page(RISE, templates)) == list(TIMER_WORDS)
    assert script_words(page(None, templates)) == []
    assert not set(TIMER_WORDS) & set(BACK_WORDS)
