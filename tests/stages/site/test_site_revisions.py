"""The section of a truck's revisions, read with Beautiful Soup, which guidegen does not use."""

from dataclasses import replace
from pathlib import Path

import pytest
from bs4.element import NavigableString
from jinja2 import FileSystemLoader
from page_soup import soup_of
from sample_fleet import FLEET, T_17, T_18
from sample_revisions import CHANGES, revision

from guidegen.revisions.model import Draft, UnitHistory
from guidegen.site.draw import draw_edition
from guidegen.site.frame import Frames
from guidegen.site.framing import fill_frames
from guidegen.site.lay_out_revisions import lay_out_revisions
from guidegen.site.stamp import stamp
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import ReservedCharacter

MARKS = ("data-label", "data-revision-name", "data-revision-date", "data-change")
TOLD = UnitHistory(
    (revision("T-17", 1, "aaaa1111aaaa"), revision("T-17", 2, "cccc3333cccc", CHANGES)),
    Draft("dddd4444dddd", ("Oil <b> & filter 38 qt → 40 qt",)),
)


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


def drawn(templates: PageTemplates, told: UnitHistory) -> str:
    return templates.revisions.render(view=lay_out_revisions(told))


def test_every_text_of_the_section_stands_in_exactly_one_mark(templates: PageTemplates) -> None:
    texts = 0
    for node in soup_of(drawn(templates, TOLD)).find_all(string=True):
        assert isinstance(node, NavigableString)
        if node.strip():
            marks = [name for parent in node.parents for name in MARKS if name in parent.attrs]
            assert len(marks) == 1, node
            texts += 1
    assert texts == 2 + 2 + 3 * 2 + 1 + len(CHANGES) + 1


def test_the_newest_comes_first_and_carries_the_digits_of_its_cards(
    templates: PageTemplates,
) -> None:
    entries = soup_of(drawn(templates, TOLD)).select("[data-revision]")

    assert [entry["data-revision"] for entry in entries] == ["draft", "2", "1"]
    assert [entry["data-digits"] for entry in entries] == ["dddd4444", "cccc3333", "aaaa1111"]
    assert "Revision draft dddd4444" in entries[0].get_text()
    assert "not released" in entries[0].get_text()
    assert "First revision" in entries[2].get_text()


def test_changes_are_escaped_and_told_in_the_records_order(templates: PageTemplates) -> None:
    soup = soup_of(drawn(templates, TOLD))

    told = [node.get_text() for node in soup.select("[data-change]")]
    assert "Oil <b> & filter 38\u00a0qt → 40\u00a0qt" in told
    assert [line.replace("\u00a0", " ") for line in told] == [
        "Oil <b> & filter 38 qt → 40 qt",
        *CHANGES,
    ]
    keys = [node["data-change"] for node in soup.select("[data-change]")]
    assert keys == ["draft.1", "2.1", "2.2", "2.3"]


def test_a_change_with_a_tokens_characters_is_refused(templates: PageTemplates) -> None:
    forged = Draft("dddd4444dddd", ("\ue000identity.vin\ue001",))

    with pytest.raises(ReservedCharacter):
        drawn(templates, replace(TOLD, draft=forged))


def test_trucks_of_one_edition_are_stamped_with_revisions_of_their_own(
    templates: PageTemplates,
) -> None:
    slots = "@@guidegen-slot-{}@@"
    names = ("title", "number", "revision", "tools", "nav", "body")
    unit = "".join(slots.format(name) for name in names)
    split = Frames.split({"unit": unit, "search": unit, "fleet": slots.format("trucks")})
    framed = fill_frames(draw_edition(T_17, None, FLEET, templates), split)
    other = UnitHistory((revision("T-18", 1, "eeee5555eeee"),))

    first = stamp(framed, T_17, drawn(templates, TOLD))["T-17/index.html"].decode()
    second = stamp(framed, T_18, drawn(templates, other))["T-18/index.html"].decode()
    without = stamp(framed, T_17)["T-17/index.html"].decode()

    assert "cccc3333" in first
    assert "eeee5555" not in first
    assert "eeee5555" in second
    assert "cccc3333" not in second
    assert "revision" not in without
