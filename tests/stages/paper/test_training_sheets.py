"""Quizzes and sign-off sheets as PDF, read back by pypdfium2."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pypdfium2  # type: ignore[import-untyped]  # it has no hints
import pytest
from printed import ISSUE, PAPER, sides, theme
from sample_fleet import FLEET, TRUCKS, fact
from sample_quiz import QUIZ, TRUCK

from guidegen.decks.sizes import SIDES
from guidegen.difference_report import differences_as_json
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper import quiz as quiz_sheet
from guidegen.paper import signoff as signoff_sheet
from guidegen.paper.matter import Matter
from guidegen.paper.sheet_press import SheetPress
from guidegen.paper.stock import STOCKS
from guidegen.procedures.words import CHAPTERS, LABELS
from guidegen.training.signoff import list_signoff
from guidegen.training.words import SIGNOFF_WORDS

OTHER = TRUCKS[2]


@cache
def press(template: str) -> SheetPress:
    return SheetPress.at(PAPER / template, theme(), FLEET.name)


def print_quiz(guide: Guide = TRUCK, stock: str = "letter") -> tuple[bytes | None, Findings]:
    findings = Findings()
    body = quiz_sheet.quiz_body(QUIZ, Matter(guide))
    made = press(quiz_sheet.TEMPLATE).draw(body, guide, ISSUE, STOCKS[stock], findings)
    return made, findings


def print_signoff(known: Guide | None = None, stock: str = "letter") -> bytes:
    findings = Findings()
    signoff = list_signoff(TRUCK, known)
    told: list[Mapping[str, object]] = []
    if known is not None and signoff.differences is not None:
        told = differences_as_json(signoff.differences, known, TRUCK)["differences"]
    body = signoff_sheet.signoff_body(signoff, Matter(TRUCK), told)
    made = press(signoff_sheet.TEMPLATE).draw(body, TRUCK, ISSUE, STOCKS[stock], findings)
    assert made is not None, [finding.what for finding in findings]
    return made


def plain(words: str) -> str:
    return " ".join(words.replace("\xa0", " ").split())


def test_every_question_stands_whole_on_one_page_and_the_key_after_all() -> None:
    made, _ = print_quiz()
    assert made is not None
    texts = sides(made)
    content = quiz_sheet.quiz_as_json(QUIZ, Matter(TRUCK))["questions"]
    pages = []
    for question in content:
        said = [question["asks"], *question["about"], *question["answers"].values()]
        holding = [
            number
            for number, text in enumerate(texts)
            if all(plain(words) in text for words in said)
        ]
        assert holding, question["id"]
        pages.append(holding[0])
    assert pages == sorted(pages)
    (key,) = [number for number, text in enumerate(texts) if f" {LABELS['read_it']} " in text]
    assert key == len(texts) - 1
    assert pages[-1] < key


def test_the_key_names_letter_and_place_of_every_question() -> None:
    made, _ = print_quiz()
    assert made is not None
    key = sides(made)[-1]
    position = 0
    for number, question in enumerate(
        quiz_sheet.quiz_as_json(QUIZ, Matter(TRUCK))["questions"], start=1
    ):
        right = question["answers"][question["right"]]
        row = plain(f"{number} {question['right']} {right} {question['where']['words']}")
        found = key.find(row, position)
        assert found >= 0, row
        position = found


@pytest.mark.parametrize("stock", ["letter", "a4"])
def test_sheets_have_the_size_of_the_stock(stock: str) -> None:

    made, _ = print_quiz(stock=stock)
    for pdf in (made, print_signoff(stock=stock)):
        opened = pypdfium2.PdfDocument(pdf)
        sizes = {page.get_size() for page in opened}
        opened.close()
        ((width, height),) = sizes
        assert float(SIDES[stock].width) == pytest.approx(width * 25.4 / 72, abs=0.01)
        assert float(SIDES[stock].height) == pytest.approx(height * 25.4 / 72, abs=0.01)


def test_the_same_quiz_gives_the_same_bytes() -> None:
    assert print_quiz()[0] == print_quiz()[0]


def test_each_page_says_truck_revision_date_and_page() -> None:
    made, _ = print_quiz()
    assert made is not None
    for pdf in (made, print_signoff(OTHER)):
        texts = sides(pdf)
        for number, text in enumerate(texts, start=1):
            assert TRUCK.number in text
            assert ISSUE.revision in text
            assert ISSUE.date in text
            assert f"{number} {LABELS['of']} {len(texts)}" in text


def test_a_letter_without_shape_is_reported_and_nothing_printed() -> None:
    name = "engine.oil_grade"
    odd = fact(name, "SAE \u4e00")
    made, findings = print_quiz(replace(TRUCK, number="T-\u4e00", facts={**TRUCK.facts, name: odd}))
    assert made is None
    assert [finding.rule.name for finding in findings] == ["letter-without-shape"]


def test_a_word_wider_than_its_column_is_reported_and_nothing_printed() -> None:
    facts = {
        name: fact(name, "x" * 200) if name == "engine.dipstick_location" else each
        for name, each in TRUCK.facts.items()
    }
    findings = Findings()
    guide = replace(TRUCK, facts=facts)
    body = quiz_sheet.quiz_body(QUIZ, Matter(guide))
    question = {"number": "1", "stem": "x" * 200, "about": [], "answers": []}
    wide = {**body, "questions": [question]}
    made = press(quiz_sheet.TEMPLATE).draw(wide, guide, ISSUE, STOCKS["letter"], findings)
    assert made is None
    assert [finding.rule.name for finding in findings] == ["word-wider-than-side"]


def test_a_sign_off_sheet_lists_every_procedure_under_its_chapter_in_order() -> None:
    text = " ".join(sides(print_signoff()))
    position = 0
    for chapter in TRUCK.chapters:
        position = text.find(CHAPTERS[chapter.id], position)
        assert position >= 0, chapter.id
        for procedure in chapter.procedures:
            words = plain(Matter(TRUCK).words(procedure.title))
            found = text.find(words, position)
            assert found >= 0, words
            position = found


def test_a_sign_off_sheet_says_that_it_is_no_license_and_who_comes_first() -> None:
    first = sides(print_signoff())[0]
    assert SIGNOFF_WORDS["no_license"] in first
    assert plain(LABELS["handbook_first"]) in first
    assert SIGNOFF_WORDS["other_here"] not in first


def test_a_driver_who_knows_another_truck_finds_its_differences_before_the_work() -> None:
    text = " ".join(sides(print_signoff(OTHER)))
    signoff = list_signoff(TRUCK, OTHER)
    assert signoff.differences is not None
    told = differences_as_json(signoff.differences, OTHER, TRUCK)["differences"]
    assert told
    position = text.index(f"{SIGNOFF_WORDS['other_here']}: {OTHER.number}")
    for each in told:
        found = text.find(plain(each["what"]), position)
        assert found >= 0, each["what"]
        position = found
    assert position < text.rindex(SIGNOFF_WORDS["signature"])


def test_a_sign_off_sheet_holds_blanks_and_no_names() -> None:
    last = sides(print_signoff())[-1]
    wanted = [
        f"{SIGNOFF_WORDS[who]} {SIGNOFF_WORDS['signature']} {SIGNOFF_WORDS['date']}"
        for who in ("driver", "trainer")
    ]
    assert last.endswith(" ".join(wanted))
