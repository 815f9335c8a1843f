import html
import json
from collections.abc import Iterator

import pytest
from bs4 import BeautifulSoup
from sample_fleet import E_04, T_17

from guidegen.guide.model import STAMPED, Caution, FactRef, Guide, Procedure, Step, Text
from guidegen.procedures.model import Words
from guidegen.revisions.model import Revision
from guidegen.revisions.retell import NOT_IN_FORCE, retell, retold_as_page, retold_as_text
from guidegen.revisions.snapshot import snapshot_bytes
from guidegen.wording import source_words, value_words

BOTH = pytest.mark.parametrize("guide", [T_17, E_04], ids=["T-17", "E-04"])


def revision_of(guide: Guide) -> Revision:
    return Revision(guide.number, 3, "2026-11-30", "R. Aldous", guide.edition, "0" * 64, ())


def folded(text: str) -> str:
    return " ".join(text.split())


def words_of(text: Text, guide: Guide) -> str:
    parts = []
    for part in text.parts:
        match part:
            case Words():
                parts.append(part.text)
            case FactRef("identity.number"):
                parts.append(guide.number)
            case FactRef(name) if name in STAMPED:
                label = guide.facts[name].field.label
                parts.append(f"[{label}: not kept in the record]")
            case FactRef():
                parts.append(value_words(guide.facts[part.name]))
    return folded("".join(parts))


def lines_of(procedure: Procedure, guide: Guide) -> Iterator[str]:
    """Yield what must be told of *procedure*, in order."""
    yield words_of(procedure.title, guide)
    for block in procedure.blocks:
        match block:
            case Step():
                yield f"{block.number}. {words_of(block.text, guide)}"
            case Caution():
                parts = (block.hazard, block.consequence, block.avoid)
                said = " ".join(words_of(each, guide) for each in parts)
                yield f"{block.signal.value.upper()}: {said}"
    yield from (f"Right: {words_of(each, guide)}" for each in procedure.expect)
    yield from (f"If not: {words_of(each, guide)}" for each in procedure.if_not)


def as_read(guide: Guide) -> tuple[str, str]:
    """Return what a terminal and a page tell of *guide*."""
    told = retell(revision_of(guide), json.loads(snapshot_bytes(guide)))
    page = BeautifulSoup(retold_as_page(told), "html.parser")
    return retold_as_text(told), page.get_text("\n")


@BOTH
def test_every_step_caution_and_limit_of_the_guide_is_told_in_order(guide: Guide) -> None:
    procedures = [each for chapter in guide.chapters for each in chapter.procedures]
    wanted = [line for each in procedures for line in lines_of(each, guide)]
    assert len(wanted) > 4

    for text in as_read(guide):
        place = 0
        for line in wanted:
            found = text.find(line, place)
            assert found >= 0, line
            place = found + len(line)


@BOTH
def test_every_value_of_the_guide_is_told_with_its_source(guide: Guide) -> None:
    own = [fact for fact in guide.facts.values() if fact.name not in STAMPED]
    assert own

    for text in map(folded, as_read(guide)):
        for fact in own:
            assert folded(value_words(fact)) in text
            assert folded(source_words(fact)) in text


@BOTH
def test_what_was_not_recorded_is_called_so_and_not_taken_from_today(guide: Guide) -> None:
    told = retell(revision_of(guide), json.loads(snapshot_bytes(guide)))
    text = retold_as_text(told)

    for name in ("identity.vin", "identity.plate"):
        if name in guide.facts:
            assert str(guide.facts[name].value) not in text
    assert NOT_IN_FORCE in text
    assert html.escape(NOT_IN_FORCE) in retold_as_page(told)
    assert text.startswith(f"{guide.number}: revision 3 of 2026-11-30, approved by R. Aldous")


def test_what_the_library_has_no_name_for_any_more_is_told_all_the_same() -> None:
    content = json.loads(snapshot_bytes(T_17))
    content["chapters"].append(["a-chapter-that-was", *content["chapters"][0][1:2]])
    content["facts"]["a.fact_that_was"] = ["A fact that was", "7 psi", "7 psi", "own", 7]

    text = retold_as_text(retell(revision_of(T_17), content))

    assert "A-CHAPTER-THAT-WAS" in text
    assert "A fact that was: 7 psi [own]" in text
