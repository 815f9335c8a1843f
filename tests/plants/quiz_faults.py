"""Quizzes with a question, an answer, a value or a key that is not the truck's."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, exchanged, moved, some

from guidegen.procedures.words import LABELS
from guidegen.training.words import STEMS

DIFFERS = frozenset({"question-differs"})
KEY = frozenset({"key-differs"})
UNCLAIMED = frozenset({"unclaimed-text", "unclaimed-mark"})
_LETTERS = "ABCD"


def questions_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A question gone, twice, made up, or at another's place."""
    for path, questions in _quizzes(site, unit):
        for question in some(questions, 4):
            name = question.key
            page = question.with_outer("").encode()
            yield Plant(f"no {name}", path, page, frozenset({"question-missing"}), unit)
            too_many = frozenset({"question-too-many"})
            page = question.with_outer(question.outer * 2).encode()
            yield Plant(f"{name} twice", path, page, too_many, unit)
            other = question.outer.replace(f'"{name}"', '"value.engine.idle_speed"', 1)
            page = question.with_outer(question.outer + other).encode()
            yield Plant(f"{name} again by another name", path, page, too_many, unit)
            bare = question.with_outer(question.inner).encode()
            rules = frozenset({"question-missing"}) | UNCLAIMED
            yield Plant(f"{name} without its element", path, bare, rules, unit)
        order = frozenset({"question-out-of-order"})
        page = moved(questions[0], questions[-1].end).encode()
        yield Plant("the first question last", path, page, order, unit)
        page = exchanged(questions[0], questions[-1]).encode()
        yield Plant("two questions with each other's content", path, page, DIFFERS, unit)


def answers_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Answers gone, twice, exchanged, or both right; another stem."""
    for path, questions in _quizzes(site, unit):
        page = questions[0].page
        for question in some(questions, 5):
            answers = _inside(question, elements(page, "data-answer"))
            right = _right(page, question)
            own = next(each for each in answers if each.key == right)
            others = [each for each in answers if each.key != right]
            for answer in (own, others[0]):
                what = f"answer {answer.key} of {question.key}"
                yield Plant(f"no {what}", path, answer.with_outer("").encode(), DIFFERS, unit)
                twice = answer.with_outer(answer.outer * 2).encode()
                yield Plant(f"{what} twice", path, twice, DIFFERS, unit)
            first, second = sorted((own, others[0]), key=lambda each: each.start)
            changed = exchanged(first, second).encode()
            yield Plant(f"{question.key}: two answers exchanged", path, changed, DIFFERS, unit)
            # The letter stays; what the right answer says stands at a wrong letter too.
            letter = elements(others[0].outer, "data-letter")[0].outer
            said = own.inner.replace(elements(own.outer, "data-letter")[0].outer, letter)
            changed = others[0].with_inner(said).encode()
            yield Plant(f"{question.key}: two right answers", path, changed, DIFFERS, unit)
            stem = _inside(question, elements(page, "data-stem"))[0]
            kind = "fitted" if stem.key != "fitted" else "not-fitted"
            other = stem.outer.replace(f'"{stem.key}"', f'"{kind}"').replace(
                stem.inner, STEMS[kind]
            )
            changed = stem.with_outer(other).encode()
            yield Plant(f"{question.key} asks otherwise", path, changed, DIFFERS, unit)


def quoted_values_changed(site: Site, unit: str) -> Iterator[Plant]:  # noqa: PLR0915 -- one fault after another
    """A wrong value with another digit or hidden; another truck's value for the right one."""
    unread = frozenset({"value-not-read-back"})
    for path, questions in _quizzes(site, unit):
        page = questions[0].page
        for question in questions:
            wrong = _inside(question, elements(page, "data-fleet-value"))
            own = _inside(question, elements(page, "data-fact"))
            if not wrong:
                continue
            value = wrong[0]
            digit = re.search(r"[0-9]", value.inner)
            if digit:
                other = str((int(digit.group()) + 1) % 10 or 1)
                inner = value.inner[: digit.start()] + other + value.inner[digit.end() :]
                changed = value.with_inner(inner).encode()
                yield Plant(f"{question.key}: a wrong value invented", path, changed, unread, unit)
            changed = own[0].with_inner(value.inner).encode()
            what = f"{question.key}: another truck's value as the right one"
            yield Plant(what, path, changed, unread, unit)
            changed = value.with_inner(own[0].inner).encode()
            what = f"{question.key}: the right value as a wrong one"
            yield Plant(what, path, changed, unread | DIFFERS, unit)
            outer = own[0].outer.replace("data-fact", "data-fleet-value")
            changed = own[0].with_outer(outer).encode()
            what = f"{question.key}: the right value marked as another truck's"
            yield Plant(what, path, changed, DIFFERS, unit)
            outer = value.outer.replace("data-fleet-value", "data-fact")
            changed = value.with_outer(outer).encode()
            what = f"{question.key}: another truck's value marked as this truck's"
            yield Plant(what, path, changed, DIFFERS, unit)
            hidden = value.with_attribute('style="display:none"').encode()
            rules = frozenset({"value-hidden"})
            yield Plant(f"{question.key}: a wrong value hidden", path, hidden, rules, unit)
            return


def keys_changed(site: Site, unit: str) -> Iterator[Plant]:
    """A key that calls a wrong answer right, two answers right, or none; that leads astray."""
    for path, questions in _quizzes(site, unit):
        page = questions[0].page
        rows = elements(page, "data-key")
        for row in some(rows, 4):
            letter = _inside(row, elements(page, "data-letter"))[0]
            other = _LETTERS[(_LETTERS.index(letter.key) + 1) % 3]
            outer = letter.outer.replace(f'"{letter.key}"', f'"{other}"')
            outer = outer.replace(f">{letter.key}<", f">{other}<")
            what = f"{row.key}: key {other} for {letter.key}"
            yield Plant(what, path, letter.with_outer(outer).encode(), KEY, unit)
            both = letter.with_outer(letter.outer + outer).encode()
            yield Plant(f"{row.key}: two letters", path, both, KEY, unit)
            seen = letter.with_inner(other).encode()
            label = frozenset({"label-not-read-back"})
            yield Plant(f"{row.key}: key reads {other}", path, seen, label, unit)
            yield Plant(f"{row.key}: no row", path, row.with_outer("").encode(), KEY, unit)
            link = re.sub(r' href="[^"]*"', ' href="index.html"', row.outer, count=1)
            rules = frozenset({"link-to-other-place"})
            yield Plant(f"{row.key}: led astray", path, row.with_outer(link).encode(), rules, unit)
            link = re.sub(r' href="[^"]*"', "", row.outer, count=1)
            yield Plant(f"{row.key}: led nowhere", path, row.with_outer(link).encode(), KEY, unit)
        order = frozenset({"question-out-of-order"})
        changed = moved(rows[0], questions[0].start).encode()
        # Out of its table, a row is none: a browser drops it and keeps its words.
        yield Plant("a row of the key before the questions", path, changed, order | KEY, unit)
        changed = moved(questions[-1], page.index("</table>") + len("</table>")).encode()
        yield Plant("a question after the key", path, changed, order, unit)


def quiz_labels_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Cautions around the quiz gone or after it; words of nobody; the way to it gone."""
    missing = frozenset({"text-missing"})
    for path, questions in _quizzes(site, unit):
        page, last = questions[0].page, questions[-1]
        for key in ("park_first", "handbook_first", "no_proof", "one_right"):
            label = elements(page, "data-label", key)[0]
            yield Plant(f"no {key}", path, label.with_outer("").encode(), missing, unit)
            late = moved(label, last.end).encode()
            yield Plant(f"{key} after the questions", path, late, missing, unit)
        words = questions[0].with_inner(f"{questions[0].inner}<b>It is B.</b>").encode()
        yield Plant("words of nobody", path, words, UNCLAIMED, unit)
        told = f'<p data-label="start">{LABELS["start"]}</p>'
        astray = questions[0].with_inner(questions[0].inner + told).encode()
        yield Plant("a label in a question", path, astray, DIFFERS, unit)
        box = questions[0].with_outer(f'<div data-row="a">{questions[0].outer}</div>').encode()
        yield Plant("a row around a question", path, box, UNCLAIMED, unit)
    for path in (f"{unit}/index.html", f"{unit}/data.html"):
        page = site.files[path].decode()
        # The last stands in the navigation at the foot of the page.
        for way in elements(page, "data-label", "quiz")[-1:]:
            rules = frozenset({"contents-differ"})
            yield Plant("no way to the quiz", path, way.with_outer("").encode(), rules, unit)


def _quizzes(site: Site, unit: str) -> Iterator[tuple[str, list[Element]]]:
    path = f"{unit}/quiz.html"
    if path in site.files:
        yield path, elements(site.files[path].decode(), "data-question")


def _inside(holder: Element, found: list[Element]) -> list[Element]:
    return [each for each in found if holder.start < each.start and each.end <= holder.end]


def _right(page: str, question: Element) -> str:
    row = elements(page, "data-key", question.key)[0]
    return _inside(row, elements(page, "data-letter"))[0].key
