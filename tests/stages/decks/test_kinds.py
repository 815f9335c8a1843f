"""Kinds of cards: what names what there is not is refused at its place."""

from pathlib import Path

import pytest

from guidegen.build.load_library import load_library
from guidegen.build.project import open_project
from guidegen.decks.kinds import card_kinds
from guidegen.decks.model import CardKind
from guidegen.finding import Findings
from guidegen.specs.read import read_cards

ROOT = Path(__file__).parents[3]
PROCEDURES = ("air-build-up", "drain-tanks")
SOUND = """\
cards:
  - id: brakes
    title: Brakes
    size: 4x6
    procedures: [air-build-up]
    facts: [tires.steer]
"""


def kinds(typed: str, own: str = "") -> tuple[tuple[CardKind, ...], list[str]]:
    findings = Findings()
    library = read_cards("cards.yml", typed.encode(), findings)
    fleet = read_cards("fleet.yml", own.encode(), findings) if own else ()
    found = card_kinds(library or (), fleet or (), PROCEDURES, findings)
    return found, [f"{each.where} {each.rule.name}: {each.what}" for each in findings]


def test_a_section_stands_for_all_of_its_values() -> None:
    (kind,), findings = kinds(SOUND)

    assert findings == []
    assert kind.procedures == ("air-build-up",)
    assert "tires.steer.cold_pressure" in kind.facts
    assert all(name.startswith("tires.steer.") for name in kind.facts)


@pytest.mark.parametrize(
    ("before", "after", "finding"),
    [
        (
            "[air-build-up]",
            "[air-buildup]",
            "cards.yml:5:18 card-names-unknown: there is no procedure `air-buildup`",
        ),
        (
            "[tires.steer]",
            "[tires.steer.cold]",
            "cards.yml:6:13 card-names-unknown: there is no value or section `tires.steer.cold`",
        ),
        (
            "size: 4x6",
            "size: 5x7",
            "cards.yml:4:11 unknown-choice: `size` cannot be `5x7`",
        ),
        (
            "    procedures: [air-build-up]\n    facts: [tires.steer]\n",
            "",
            "cards.yml:2:9 card-empty: card `brakes` has nothing on it",
        ),
    ],
)
def test_a_faulty_card_is_left_out_and_reported_at_its_place(
    before: str, after: str, finding: str
) -> None:
    found, findings = kinds(SOUND.replace(before, after))

    assert found == ()
    assert findings == [finding]


def test_two_cards_with_one_id_are_reported() -> None:
    _, findings = kinds(SOUND + SOUND.removeprefix("cards:\n"))

    assert findings == ["cards.yml:7:9 card-twice: two cards have the id `brakes`"]


def test_a_fleets_own_card_replaces_the_one_of_the_library() -> None:
    found, findings = kinds(SOUND, SOUND.replace("4x6", "pocket"))

    assert findings == []
    assert [(kind.id, kind.side.id) for kind in found] == [("brakes", "pocket")]


def test_the_cards_of_the_library_name_only_what_there_is() -> None:
    findings = Findings()
    project = open_project(ROOT)
    library = load_library(project, findings)
    assert library is not None
    path = project.template("cards.yml")
    sections = read_cards("cards.yml", path.read_bytes(), findings)
    found = card_kinds(sections or (), (), library, findings)

    assert [finding.what for finding in findings] == []
    assert {kind.id for kind in found} == {
        *("start-up", "round", "brakes", "fluids", "lamps", "end-of-day", "emergency", "visor"),
    }
