"""The page of a quiz: as it is drawn, and as a driver answers it in Chromium."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from jinja2 import FileSystemLoader
from page_soup import soup_of
from playwright.sync_api import Browser, Page, expect
from sample_fleet import FLEET
from sample_publication import publish_sample
from sample_quiz import QUIZ, TRUCK
from wait_in_page import patient

from guidegen.procedures.words import LABELS
from guidegen.site.draw import draw_edition
from guidegen.site.model import Edition
from guidegen.site.templates import PageTemplates
from guidegen.training.model import QuestionKind

WAIT = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""
expect.set_options(timeout=WAIT)


@pytest.fixture(scope="module")
def edition(project_root: Path) -> Edition:
    loader = FileSystemLoader(project_root / "site_templates" / "pages")
    return draw_edition(TRUCK, None, FLEET, PageTemplates.load(loader), QUIZ)


@pytest.fixture(scope="module")
def folder(project_root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    site = tmp_path_factory.mktemp("quiz") / "site"
    publish_sample(project_root, site, {QUIZ.edition: QUIZ})
    return site


@pytest.fixture
def page(browser: Browser, folder: Path) -> Iterator[Page]:
    """The page, opened from a folder with no network."""
    context = browser.new_context(viewport={"width": 800, "height": 1280}, offline=True)
    opened = context.new_page()
    opened.set_default_timeout(WAIT)
    opened.goto((folder / TRUCK.number / "quiz.html").as_uri())
    yield opened
    context.close()


def test_the_quiz_of_the_sample_has_questions() -> None:
    kinds = [question.kind for question in QUIZ.questions]
    assert kinds.count(QuestionKind.VALUE) > 2
    assert len(set(kinds)) > 1


def test_the_key_comes_after_all_questions_and_in_their_order(edition: Edition) -> None:
    body = next(page.body for page in edition.pages if page.path == "quiz.html")
    soup = soup_of(body)
    asked = [each["data-question"] for each in soup.select("[data-question]")]
    keyed = [each["data-key"] for each in soup.select("[data-key]")]

    assert [question.id for question in QUIZ.questions] == asked
    assert asked == keyed
    assert body.rindex("data-question") < body.index("data-key")


def test_without_a_quiz_there_is_no_page_and_no_way_to_it(project_root: Path) -> None:
    loader = FileSystemLoader(project_root / "site_templates" / "pages")
    drawn = draw_edition(TRUCK, None, FLEET, PageTemplates.load(loader))

    assert "quiz.html" not in [page.path for page in drawn.pages]
    assert not [page for page in drawn.pages if "quiz.html" in page.nav + page.body]


def test_a_right_and_a_wrong_choice_are_told_with_the_way_to_the_procedure(page: Page) -> None:
    for number, question in enumerate(QUIZ.questions):
        asked = page.locator("[data-question]").nth(number)
        wrong = (question.right + 1) % len(question.answers)
        asked.locator("button").nth(wrong).click()
        expect(asked.locator(".gg-verdict")).to_contain_text(
            f"Not {LABELS['right_answer'].lower()}"
        )
        asked.locator("button").nth(question.right).press("Enter")
        verdict = asked.locator(".gg-verdict b")
        expect(verdict).to_have_text(LABELS["right_answer"])
        link = asked.locator(".gg-verdict a").get_attribute("href")
        where = question.where
        expected = f"{where.page}.html#{where.procedure}" if where.procedure else "data.html"
        assert expected == link


def test_the_right_answer_looks_like_the_wrong_ones(page: Page) -> None:
    looks = page.evaluate(
        """() => Array.from(document.querySelectorAll("[data-question]"), (question) =>
          Array.from(question.querySelectorAll("[data-answer]"), (answer) => {
            const said = answer.querySelector("[data-letter] + *");
            const style = getComputedStyle(said);
            return [style.fontWeight, style.fontSize, style.color, style.fontStyle].join();
          }))"""
    )
    assert len(looks) == len(QUIZ.questions)
    assert [look for look in looks if len(set(look)) != 1] == []


def test_choosing_keeps_nothing_and_asks_no_other_address(page: Page) -> None:
    kept = "[document.cookie, JSON.stringify(localStorage), JSON.stringify(sessionStorage)].join()"
    before = page.evaluate(kept)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.locator("[data-question] button").first.click()
    expect(page.locator(".gg-verdict").first).not_to_be_empty()

    assert page.evaluate(kept) == before
    # A browser asks for the picture of a tab when it likes.
    assert [address for address in asked if not address.endswith("favicon.svg")] == []


def test_without_a_script_questions_and_key_can_be_read(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = patient(context.new_page())
    page.goto((folder / TRUCK.number / "quiz.html").as_uri())

    expect(page.locator("[data-question]")).to_have_count(len(QUIZ.questions))
    expect(page.locator("[data-key]")).to_have_count(len(QUIZ.questions))
    expect(page.locator("[data-key] a").first).to_be_visible()
    context.close()
