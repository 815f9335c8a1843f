"""Quizzes and sign-off sheets on paper with other words, keys or lines than their truck's."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from pikepdf import Pdf
from plants.paper_file_faults import edited
from plants.paper_press import (
    ADDRESS,
    DATE,
    Change,
    ChangingTypesetter,
    Given,
    PaperPlant,
    Shop,
    with_change,
)

from guidegen.decks.deal import issue_of
from guidegen.decks.sizes import SIDES
from guidegen.difference_report import differences_as_json
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper import quiz as quiz_sheet
from guidegen.paper import signoff as signoff_sheet
from guidegen.paper.boxes import count_pages
from guidegen.paper.matter import Matter
from guidegen.paper.sheet_press import SheetPress
from guidegen.paper.stock import STOCKS
from guidegen.paper.typeset import Typesetter
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_quiz_sheet, prove_signoff
from guidegen.paper_proof.sheet_claims import SheetOrder
from guidegen.training.model import Quiz
from guidegen.training.signoff import list_signoff
from guidegen.training.write_quiz import FleetKnowledge, write_quiz

UNITS = ("T-17", "E-02")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A quiz or a sign-off sheet, to be drawn and proved."""

    order: SheetOrder
    quiz: Quiz | None
    """None for a sign-off sheet."""

    known: Guide | None = None
    """Of the truck that the driver is signed off on, if the sheet tells what differs."""

    @property
    def name(self) -> str:
        kind = "sign-off" if self.quiz is None else "quiz"
        known = f" from {self.known.number}" if self.known else ""
        return f"{kind} of {self.order.guide.number}{known}"

    def prove(self, pdf: bytes) -> PaperVerdict:
        if self.quiz is None:
            return prove_signoff(pdf, self.order, self.known)
        return prove_quiz_sheet(pdf, self.quiz, self.order)

    def rules_of(self, pdf: bytes) -> frozenset[str]:
        return frozenset(each.rule.name for each in self.prove(pdf).failures)


@dataclass(frozen=True, slots=True)
class TrainingShop:
    """All that the trainer's sheets are drawn with."""

    shop: Shop
    _quizzes: dict[str, Quiz] = field(default_factory=dict, compare=False)

    def quiz(self, unit: str, size: str = "letter") -> Sheet:
        if unit not in self._quizzes:
            known = FleetKnowledge.of(list(self.shop.guides.values()))
            self._quizzes[unit] = write_quiz(self.shop.guides[unit], known)
        return Sheet(self._order(unit, size), self._quizzes[unit])

    def signoff(self, unit: str, size: str = "letter", known: str = "") -> Sheet:
        guide = self.shop.guides[known] if known else None
        return Sheet(self._order(unit, size), None, guide)

    def _order(self, unit: str, size: str) -> SheetOrder:
        guide = self.shop.guides[unit]
        span = next(iter(self.shop.kinds.values())).span
        return SheetOrder(guide, SIDES[size], issue_of(guide, DATE, ADDRESS), span)

    def draw(self, sheet: Sheet, change: Change | None = None, folder: Path | None = None) -> bytes:
        """Return the PDF, with its matter changed and other templates if given."""
        order, shop, quiz = sheet.order, self.shop, sheet.quiz
        guide, findings = order.guide, Findings()
        matter, templates, look = Matter(guide), folder or shop.templates, shop.theme.as_file()
        if quiz is None:
            template = templates / signoff_sheet.TEMPLATE
            listed, known = list_signoff(guide, sheet.known), sheet.known
            told: list[dict[str, Any]] = []
            if known is not None and listed.differences is not None:
                told = differences_as_json(listed.differences, known, guide)["differences"]
            body = signoff_sheet.signoff_body(listed, matter, told)
        else:
            template = templates / quiz_sheet.TEMPLATE
            body = quiz_sheet.quiz_body(quiz, matter)
        setter = (
            ChangingTypesetter(template, look, change) if change else Typesetter(template, look)
        )
        press = SheetPress(shop.theme, shop.fleet, setter)
        pdf = press.draw(body, guide, order.issue, STOCKS[order.side.id], findings)
        assert pdf is not None, [each.what for each in findings]
        return pdf


Edit = Callable[[Given], None]


def sow(shop: TrainingShop, sheet: Sheet, what: str, edit: Edit, *rules: str) -> PaperPlant:
    """Return a sheet of which the matter is edited."""

    def change(given: Given) -> Given:
        before = repr(given)
        edit(given)
        assert repr(given) != before, what
        return given

    return PaperPlant(f"{what}, {sheet.name}", sheet, shop.draw(sheet, change), frozenset(rules))


def sow_look(
    shop: TrainingShop, sheet: Sheet, what: str, place: tuple[str, str, str], rule: str
) -> PaperPlant:
    """Return a sheet that another template draws; *place* is file, old and new text."""
    with TemporaryDirectory() as name:
        folder = with_change(shop.shop.templates, Path(name), *place)
        pdf = shop.draw(sheet, None, folder)
    return PaperPlant(f"{what}, {sheet.name}", sheet, pdf, frozenset({rule}))


def _questions(given: Given) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = given["body"]["questions"]
    return found


def _key(given: Given) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = given["body"]["key"]
    return found


def _other_digit(text: str) -> str:
    return re.sub("[0-9]", lambda said: str((int(said[0]) + 1) % 10), text, count=1)


def keys_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def letter(given: Given) -> None:
        _key(given)[2]["letter"] = "A" if _key(given)[2]["letter"] != "A" else "B"

    def answer(given: Given) -> None:
        question, line = _questions(given)[3], _key(given)[3]
        line["text"] = next(
            each["text"] for each in question["answers"] if each["letter"] != line["letter"]
        )

    def exchanged(given: Given) -> None:
        first, second = _key(given)[4:6]
        first["number"], second["number"] = second["number"], first["number"]

    def where(given: Given) -> None:
        line = _key(given)[0]
        line["where"] = next(e["where"] for e in _key(given) if e["where"] != line["where"])

    def dropped(given: Given) -> None:
        del _key(given)[-1]

    for unit in UNITS:
        sheet = shop.quiz(unit)
        differs = ("paper-text-differs", "paper-step-missing", "paper-value-differs")
        yield sow(shop, sheet, "another letter in the key", letter, *differs)
        yield sow(shop, sheet, "another answer in the key", answer, *differs)
        yield sow(shop, sheet, "two lines of the key exchanged", exchanged, *differs)
        yield sow(shop, sheet, "another place in the key", where, "paper-text-differs",
                  "paper-text-missing", "paper-out-of-order")  # fmt: skip
        yield sow(shop, sheet, "line of the key dropped", dropped, "paper-step-missing")
        # Where the questions end with a page the key is apart without being told.
        below = sow_look(
            shop,
            sheet,
            "key below the questions",
            ("quiz.typ", "#pagebreak()\n", ""),
            "paper-key-not-apart",
        )
        if count_pages(below.pdf) < count_pages(shop.draw(sheet, None)):
            yield below


def questions_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def dropped(given: Given) -> None:
        del _questions(given)[5]

    def exchanged(given: Given) -> None:
        first, second = _questions(given)[0]["answers"][:2]
        first["text"], second["text"] = second["text"], first["text"]

    def value(given: Given) -> None:
        answers = (each for question in _questions(given) for each in question["answers"])
        part = next(p for each in answers for p in each["text"] if re.search("[0-9]", p[0]))
        part[0] = _other_digit(part[0])

    def stem(given: Given) -> None:
        _questions(given)[1]["stem"] = "Which of these is wrong?"

    def about(given: Given) -> None:
        question = next(each for each in _questions(given) if each["about"])
        question["about"] = [[["Something of T-18"]]]

    for unit in UNITS:
        sheet = shop.quiz(unit)
        yield sow(shop, sheet, "question dropped", dropped, "paper-step-missing")
        yield sow(shop, sheet, "answers exchanged", exchanged, "paper-text-differs",
                  "paper-out-of-order", "paper-value-differs", "paper-text-missing")  # fmt: skip
        yield sow(shop, sheet, "digit of an answer", value, "paper-value-differs",
                  "paper-text-differs")  # fmt: skip
        yield sow(shop, sheet, "another stem", stem, "paper-text-differs", "paper-step-missing")
        yield sow(shop, sheet, "something else asked about", about, "paper-text-differs",
                  "paper-text-missing")  # fmt: skip


def unsound_quizzes(shop: TrainingShop) -> Iterator[PaperPlant]:
    """Quizzes that are printed as they were written, and were written wrong."""
    for unit in UNITS:
        sheet = shop.quiz(unit)
        assert sheet.quiz is not None
        first, *rest = sheet.quiz.questions
        wrong = replace(first, right=(first.right + 1) % len(first.answers))
        sheet = replace(sheet, quiz=replace(sheet.quiz, questions=(wrong, *rest)))
        rules = frozenset({"paper-question-unsound"})
        yield PaperPlant(f"wrong answer is right, {sheet.name}", sheet, shop.draw(sheet), rules)


def quizzes_of_other_trucks(shop: TrainingShop) -> Iterator[PaperPlant]:
    for unit, other in (("T-17", "T-18"), ("E-02", "K-22")):
        for mine, strange in (
            (shop.quiz(unit), shop.quiz(other)),
            (shop.signoff(unit), shop.signoff(other)),
        ):
            rules = frozenset({"paper-unit-differs"})
            yield PaperPlant(f"{strange.name} for {unit}", mine, shop.draw(strange), rules)


def heads_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def stamp(name: str, words: str) -> Edit:
        return lambda given: given["stamp"].update({name: words})

    def blank(given: Given) -> None:
        given["body"]["blanks"][0] = "Driver A. Person"

    def note(given: Given) -> None:
        del given["body"]["notes"][-1]

    def no_code(given: Given) -> None:
        empty = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'
        given["stamp"]["code"]["svg"] = empty

    for unit in UNITS:
        for sheet in (shop.quiz(unit), shop.signoff(unit)):
            for name, words, rule in (
                ("unit", "T-18", "paper-unit-differs"),
                ("revision", "Revision 00000000", "paper-revision-differs"),
                ("date", "2025-11-20", "paper-revision-differs"),
                ("of", " of 1", "paper-page-number-differs"),
                ("document", "T-18: Quiz", "paper-title-differs"),
            ):
                yield sow(shop, sheet, f"{name} changed", stamp(name, words), rule)
            yield sow(shop, sheet, "a name typed in", blank, "paper-unclaimed-text",
                      "paper-text-differs", "paper-text-missing")  # fmt: skip
            yield sow(shop, sheet, "note dropped", note, "paper-text-missing")
            yield sow(shop, sheet, "no code", no_code, "paper-code-missing")


def _lines(given: Given) -> list[dict[str, Any]]:
    return [line for chapter in given["body"]["chapters"] for line in chapter["lines"]]


def _lines_dropped(given: Given) -> None:
    del given["body"]["chapters"][1]["lines"][1]


def _lines_exchanged(given: Given) -> None:
    lines = given["body"]["chapters"][0]["lines"]
    lines[2], lines[3] = lines[3], lines[2]


def _strange_line(given: Given) -> None:
    given["body"]["chapters"][0]["lines"][4]["title"] = "Work the crane"


def _cautions_dropped(given: Given) -> None:
    line = next(each for each in _lines(given) if each["cautions"])
    del line["cautions"][0]


def _cautions_miscounted(given: Given) -> None:
    line = next(each for each in _lines(given) if each["cautions"][:1] == ["2 \u00d7 WARNING"])
    line["cautions"][0] = "WARNING"


def _shows_changed(given: Given) -> None:
    next(each for each in _lines(given) if each["shows"])["shows"] = "All is well."


def _chapter_renamed(given: Given) -> None:
    given["body"]["chapters"][1]["title"] = "Elsewhere"


def _signature_dropped(given: Given) -> None:
    del given["body"]["signatures"][1]


def _column_renamed(given: Given) -> None:
    given["body"]["columns"][3] = "Passed"


_DIFFERS = ("paper-text-differs", "paper-text-missing", "paper-step-missing")
_LINE_FAULTS: Mapping[str, tuple[Edit, tuple[str, ...]]] = {
    "line dropped": (_lines_dropped, ("paper-step-missing",)),
    "lines exchanged": (_lines_exchanged, ("paper-out-of-order",)),
    "line of another truck": (_strange_line, _DIFFERS),
    "cautions dropped": (_cautions_dropped, ("paper-caution-missing", *_DIFFERS)),
    "cautions counted wrong": (_cautions_miscounted, ("paper-caution-missing", *_DIFFERS)),
    "another thing to show": (_shows_changed, _DIFFERS),
    "another chapter": (_chapter_renamed, _DIFFERS),
    "signature dropped": (_signature_dropped, ("paper-text-missing",)),
    "another column": (_column_renamed, ("paper-head-differs", *_DIFFERS)),
}


def signoff_lines_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    for unit in UNITS:
        sheet = shop.signoff(unit)
        for what, (edit, rules) in _LINE_FAULTS.items():
            yield sow(shop, sheet, what, edit, *rules)


def sheet_files_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def gone(pdf: Pdf) -> None:
        del pdf.pages[1]

    def exchanged(pdf: Pdf) -> None:
        page = pdf.pages[1]
        del pdf.pages[1]
        pdf.pages.insert(2, page)

    rules = frozenset({"paper-page-number-differs"})
    for sheet in (shop.quiz("T-17"), shop.signoff("E-02")):
        whole = shop.draw(sheet)
        yield PaperPlant(f"page gone, {sheet.name}", sheet, edited(whole, gone), rules)
        yield PaperPlant(f"pages exchanged, {sheet.name}", sheet, edited(whole, exchanged), rules)


TRAINING_KINDS: Mapping[str, Callable[[TrainingShop], Iterator[PaperPlant]]] = {
    sow_kind.__name__: sow_kind
    for sow_kind in (
        keys_changed,
        questions_changed,
        unsound_quizzes,
        quizzes_of_other_trucks,
        heads_changed,
        signoff_lines_changed,
        sheet_files_changed,
    )
}
