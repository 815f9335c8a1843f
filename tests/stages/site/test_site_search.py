"""What the search of one unit finds."""

import json
from pathlib import Path
from typing import Any

import pytest
from jinja2 import FileSystemLoader
from sample_fleet import E_04, FLEET, GUIDES, T_17
from sample_round import ROUNDS

from guidegen.guide.model import Guide
from guidegen.site.draw import draw_edition
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import value_token


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def index_of(guide: Guide, templates: PageTemplates) -> Any:  # noqa: ANN401 -- JSON
    return json.loads(draw_edition(guide, ROUNDS.get(guide.edition), FLEET, templates).search_index)


def test_the_first_entry_is_the_start_page_and_names_the_truck_only(
    templates: PageTemplates,
) -> None:
    first = index_of(T_17, templates)["docs"][0]
    title = f"{value_token('identity.number')} Corvane HX-9"
    assert first == {"location": "index.html", "title": title, "text": ""}


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_there_is_an_entry_for_each_chapter_and_each_of_its_procedures_in_order(
    guide: Guide, templates: PageTemplates
) -> None:
    locations = [entry["location"] for entry in index_of(guide, templates)["docs"]]
    expected = ["index.html"]
    for chapter in guide.chapters:
        expected.append(f"{chapter.id}.html")
        expected += [f"{chapter.id}.html#{each.id}" for each in chapter.procedures]
    assert locations == expected


def test_an_entry_holds_state_station_cautions_and_steps_in_order(
    templates: PageTemplates,
) -> None:
    entry = index_of(E_04, templates)["docs"][2]
    assert entry["title"] == "Shut off the high voltage"
    assert entry["text"] == (
        "drive system off, key out, charging cable unplugged. on the left side. "
        "DANGER The orange cables carry 650\u00a0V. Touching a bare part will kill you. "
        "Never touch orange cables, and keep others away. "
        "Work the pull handle behind the left step. "
        "Wait 5\u00a0min before anyone comes near. "
        "Keep away, call 911 and then road service."
    )


def test_texts_stand_as_they_are_read(templates: PageTemplates) -> None:
    texts = " ".join(entry["text"] for entry in index_of(T_17, templates)["docs"])
    assert "cuts out & the dryer purges <once>." in texts
    assert "the driver's seat" in texts


def test_an_index_holds_nothing_of_another_edition(templates: PageTemplates) -> None:
    texts = json.dumps(index_of(T_17, templates))
    for foreign in ("orange", "650", "pedal", "DOT 5", "Quillon", "E-04"):
        assert foreign not in texts
