"""The markup of a truck's pages, read with Beautiful Soup, which guidegen does not use."""

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from bs4.element import NavigableString
from jinja2 import FileSystemLoader
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import E_04, FLEET, GUIDES, H_2, T_17, T_18, Warn, procedure, text
from sample_round import ROUNDS

from guidegen.guide.model import Caution, Chapter, FactRef, Guide, Procedure, Step, Text
from guidegen.procedures.model import Signal, Words
from guidegen.procedures.words import CHAPTERS, LABELS
from guidegen.site.draw import draw_edition
from guidegen.site.lay_out_procedure import StrayCaution
from guidegen.site.model import Edition
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import ReservedCharacter, edition_token, revisions_token, value_token
from guidegen.units.model import Presence
from guidegen.wording import value_words

CLAIMS = (
    *("data-text", "data-fact", "data-label", "data-signal-word", "data-signal-definition"),
    *("data-state", "data-station", "data-chapter", "data-procedure-link", "data-fact-label"),
    *("data-source", "data-section", "data-absent", "data-number"),
    *("data-act", "data-why", "data-premise", "data-plan", "data-plan-words"),
    *("data-timer-word", "data-script-word"),
)
"""What the contract between pages and proof lets a visible text stand in."""


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


@pytest.fixture(scope="module")
def editions(templates: PageTemplates) -> Mapping[str, Edition]:
    return {
        each.number: draw_edition(each, ROUNDS.get(each.edition), FLEET, templates)
        for each in GUIDES
    }


def soups(edition: Edition) -> dict[str, BeautifulSoup]:
    # The section of revisions is stamped in; `test_site_revisions.py` looks at it.
    bodies = {page.path: page.body.replace(revisions_token(), "") for page in edition.pages}
    return {path: soup_of(body) for path, body in bodies.items()}


def text_words(guide: Guide, id_: str) -> str:
    """Words of a text of the guide, put together from the guide alone."""
    texts = {
        each.id: each
        for chapter in guide.chapters
        for one in chapter.procedures
        for each in all_texts(one)
    }
    return " ".join("".join(part_words(guide, part) for part in texts[id_].parts).split())


def part_words(guide: Guide, part: Words | FactRef) -> str:
    match part:
        case Words(text=typed):
            return typed
        case FactRef(name=("identity.plate" | "identity.number") as name):
            return value_token(name)
        case FactRef(name=name):
            return value_words(guide.facts[name])


def all_texts(one: Procedure) -> list[Text]:
    found = [one.title, *one.expect, *one.if_not]
    for block in one.blocks:
        match block:
            case Caution():
                found += [block.hazard, block.consequence, block.avoid]
            case Step():
                found.append(block.text)
    return found


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_a_unit_has_a_start_page_its_round_its_chapters_and_a_data_page(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    paths = [page.path for page in editions[guide.number].pages]
    chapters = [f"{chapter.id}.html" for chapter in guide.chapters]
    tour = ["round.html"] if guide.edition in ROUNDS else []
    assert paths == ["index.html", *tour, *chapters, "search.html", "data.html"]


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_every_visible_text_stands_in_exactly_one_claim(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    checked = 0
    for path, soup in soups(editions[guide.number]).items():
        for node in soup.find_all(string=True):
            assert isinstance(node, NavigableString)
            if not node.strip():
                continue
            claims = [
                name
                for parent in node.parents
                for name in CLAIMS
                if parent.name != "[document]" and name in parent.attrs
            ]
            assert claims in ([[name] for name in CLAIMS] + [["data-fact", "data-text"]]), (
                f"{path}: {node!r} in {claims}"
            )
            checked += 1
    assert checked > 20


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_each_page_has_one_container_with_number_page_and_edition(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    tour = ["round"] if guide.edition in ROUNDS else []
    names = ["start", *tour, *(chapter.id for chapter in guide.chapters), "search", "data"]
    for soup, name in zip(soups(editions[guide.number]).values(), names, strict=True):
        container = only(soup, "[data-guide]")
        assert attribute(container, "data-guide") == value_token("identity.number")
        assert attribute(container, "data-page") == name
        assert attribute(container, "data-edition") == edition_token()


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_procedures_read_as_the_guide_says_in_its_order(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    pages = soups(editions[guide.number])
    for chapter in guide.chapters:
        page = pages[f"{chapter.id}.html"]
        ids = [each.id for each in chapter.procedures]
        assert attributes(page, "data-procedure", "section") == ids
        sections = page.select("section[data-procedure]")
        for section, each in zip(sections, chapter.procedures, strict=True):
            shown = {
                attribute(tag, "data-text"): words(tag) for tag in section.select("[data-text]")
            }
            expected = {one.id: text_words(guide, one.id) for one in all_texts(each)}
            assert shown == expected
            assert attribute(section, "id") == each.id
            assert attributes(section, "data-text", "h2") == [each.title.id]


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_a_caution_stands_in_its_steps_own_entry_before_the_steps_words(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    cautions = 0
    for soup in soups(editions[guide.number]).values():
        for entry in soup.select("ol > li[data-step]"):
            step = attribute(entry, "data-step")
            before_words = only(entry, f'[data-text="{step}"]').find_all_previous()
            before_number = only(entry, "[data-number]").find_all_previous()
            for caution in entry.select("[data-caution]"):
                cautions += 1
                assert caution in before_words
                assert caution in before_number
                assert attribute(caution, "role") == "note"
                assert [id_.rpartition(".")[2] for id_ in attributes(caution, "data-text")] == [
                    "hazard",
                    "consequence",
                    "avoid",
                ]
    in_guide = [
        block
        for chapter in guide.chapters
        for each in chapter.procedures
        for block in each.blocks
        if isinstance(block, Caution)
    ]
    assert cautions == len(in_guide)


def test_the_signal_word_is_a_word_and_the_symbol_is_absent_from_a_notice(
    editions: Mapping[str, Edition],
) -> None:
    seen = set()
    for edition in editions.values():
        for soup in soups(edition).values():
            for caution in soup.select("[data-caution]"):
                signal = attribute(caution, "data-signal")
                seen.add(signal)
                word = only(caution, "[data-signal-word]")
                assert words(word) == attribute(word, "data-signal-word") == signal
                symbols = caution.select("svg")
                # ANSI Z535.6: a NOTICE carries no safety alert symbol (reference S4).
                assert len(symbols) == (0 if signal == "NOTICE" else 1)
                assert all(attribute(symbol, "aria-hidden") == "true" for symbol in symbols)
    assert seen == {signal.value for signal in Signal}


def test_steps_are_numbered_from_one_without_a_gap(editions: Mapping[str, Edition]) -> None:
    for edition in editions.values():
        for soup in soups(edition).values():
            for steps in soup.select("ol"):
                numbers = [words(tag) for tag in steps.select("[data-number]")]
                assert numbers == [str(n) for n in range(1, len(numbers) + 1)]
                assert attributes(steps, "data-number") == numbers


def test_the_start_page_says_which_truck_and_what_to_heed(
    editions: Mapping[str, Edition],
) -> None:
    page = soups(editions["T-17"])["index.html"]
    assert words(only(page, "h1")) == value_token("identity.number")
    shown = set(attributes(page, "data-fact"))
    assert {
        *("identity.number", "identity.vin", "identity.plate", "identity.yard"),
        *("identity.year", "identity.make", "identity.model_name", "identity.body"),
        *("identity.overall_height", "identity.gvwr", "brakes.air.cut_out"),
        *("brakes.air.low_air_warning", "tires.steer.cold_pressure", "engine.oil_grade"),
    } <= shown
    labels = set(attributes(page, "data-label"))
    assert {"park_first", "handbook_first"} <= labels
    definitions = attributes(page, "data-signal-definition", "dd")
    assert definitions == ["DANGER", "WARNING", "CAUTION", "NOTICE"]


def test_no_truck_shows_a_key_number_of_something_it_does_not_have(
    editions: Mapping[str, Edition],
) -> None:
    electric = soups(editions["E-04"])["index.html"]
    shown = set(attributes(electric, "data-fact"))
    assert "high_voltage.nominal_voltage" in shown
    assert not {name for name in shown if name.startswith(("engine.", "brakes.", "tires."))}


def test_labels_that_two_facts_share_stand_with_their_section(
    editions: Mapping[str, Edition],
) -> None:
    page = soups(editions["T-17"])["index.html"]
    for position, section in (("steer", "Steer axle tires"), ("drive", "Drive axle tires")):
        value = only(page, f'[data-fact="tires.{position}.cold_pressure"]')
        box = value.find_parent("div")
        assert box is not None
        assert words(only(box, f'[data-section="tires.{position}"]')) == section


def test_every_page_says_to_park_first_before_anything_else(
    editions: Mapping[str, Edition],
) -> None:
    for edition in editions.values():
        for soup in soups(edition).values():
            first = next(node for node in soup.find_all(string=True) if node.strip())
            assert first.parent is not None
            assert attribute(first.parent, "data-label") == "park_first"


@pytest.mark.parametrize("guide", GUIDES, ids=lambda guide: guide.number)
def test_the_data_page_has_every_fact_with_value_and_source(
    guide: Guide, editions: Mapping[str, Edition]
) -> None:
    page = soups(editions[guide.number])["data.html"]
    order = section_order(guide)
    names = sorted(guide.facts, key=lambda name: order.index(guide.facts[name].field.section))
    assert attributes(page, "data-row", "tr") == names
    for name, row in zip(names, page.select("tr[data-row]"), strict=True):
        assert words(only(row, f'[data-fact-label="{name}"]')) == guide.facts[name].field.label
        assert words(only(row, f'[data-fact="{name}"]'))
        assert words(only(row, f'[data-source="{name}"]'))


def section_order(guide: Guide) -> list[str]:
    return list(dict.fromkeys(fact.field.section for fact in guide.facts.values()))


def test_the_data_page_lists_what_is_not_fitted_but_not_what_follows_from_it(
    editions: Mapping[str, Edition],
) -> None:
    page = soups(editions["E-04"])["data.html"]
    absent = attributes(page, "data-absent")
    assert absent == ["engine"]
    assert E_04.sections["aftertreatment"].presence is Presence.NOT_FITTED
    assert E_04.sections["aftertreatment.parked_regeneration"].presence is Presence.NOT_FITTED


def test_a_section_that_is_not_on_record_is_not_said_to_be_absent(
    editions: Mapping[str, Edition],
) -> None:
    page = soups(editions["H-2"])["data.html"]
    assert H_2.sections["high_voltage"].presence is Presence.NOT_ON_RECORD
    assert not page.select("[data-absent]")


def test_the_navigation_of_a_unit_holds_its_round_and_chapters_only(
    editions: Mapping[str, Edition],
) -> None:
    for guide in GUIDES:
        has_round = guide.edition in ROUNDS
        for page in editions[guide.number].pages:
            nav = soup_of(page.nav)
            links = nav.select("a")
            assert attributes(nav, "href", "a") == [
                "index.html",
                *(["round.html"] if has_round else []),
                *(f"{chapter.id}.html" for chapter in guide.chapters),
                "search.html",
                "data.html",
                "differences.html",
                "../index.html",
            ]
            assert [words(link) for link in links] == [
                LABELS["start"],
                *([LABELS["round"]] if has_round else []),
                *(CHAPTERS[chapter.id] for chapter in guide.chapters),
                LABELS["search"],
                LABELS["data"],
                LABELS["differences"],
                LABELS["all_trucks"],
            ]
            assert attribute(only(nav, "[aria-current]"), "href") == page.path


def test_the_title_begins_with_the_number(editions: Mapping[str, Edition]) -> None:
    titles = [page.title for page in editions["T-17"].pages]
    number = value_token("identity.number")
    assert titles == [
        f"{number} · Bluff County Haulage",
        f"{number} · Inspection round · Bluff County Haulage",
        f"{number} · Before the day · Bluff County Haulage",
        f"{number} · Air brakes · Bluff County Haulage",
        f"{number} · Search · Bluff County Haulage",
        f"{number} · Data · Bluff County Haulage",
    ]


def test_two_units_of_one_edition_give_the_same_drawing(
    editions: Mapping[str, Edition],
) -> None:
    assert T_17.edition == T_18.edition
    assert editions["T-17"] == editions["T-18"]
    for guide in (T_17, T_18):
        for fact in ("identity.vin", "identity.plate"):
            own = str(guide.facts[fact].value)
            assert not any(own in page.body for page in editions[guide.number].pages)


def test_text_is_escaped(editions: Mapping[str, Edition]) -> None:
    body = next(page.body for page in editions["T-17"].pages if page.path == "air-brakes.html")
    assert "cuts out &amp; the dryer purges &lt;once&gt;." in body


def test_nothing_is_folded_away_or_styled_in_place(editions: Mapping[str, Edition]) -> None:
    for edition in editions.values():
        for soup in soups(edition).values():
            assert not soup.select("details, [hidden], [style], style, script, input")
            # Words that scripts show are the one thing that a page holds unseen.
            assert not soup.select("template:not([data-script-words])")
            inside = [tag for each in soup.find_all("template") for tag in each.find_all()]
            assert all("data-script-word" in tag.attrs for tag in inside)
            assert not [tag for tag in soup.select("[aria-hidden]") if tag.name != "svg"]


def test_a_caution_behind_the_last_step_is_refused(templates: PageTemplates) -> None:
    stray = procedure("stray", "Stray", ["Stop.", Warn(Signal.DANGER, "a", "b", "c")])
    guide = replace(H_2, chapters=(Chapter("on-the-road", (stray,)),))
    with pytest.raises(StrayCaution, match=r"stray\.cautions\.caution-1"):
        draw_edition(guide, None, FLEET, templates)


@pytest.mark.parametrize("character", ["\ue000", "\ue001"])
def test_a_text_with_a_tokens_character_is_refused(
    character: str, templates: PageTemplates
) -> None:
    forged = replace(
        procedure("forged", "Forged", ["Stop."]),
        title=text("forged.title", f"Go to {character}identity.vin"),
    )
    guide = replace(H_2, chapters=(Chapter("on-the-road", (forged,)),))
    with pytest.raises(ReservedCharacter):
        draw_edition(guide, None, FLEET, templates)


def test_templates_ask_for_nothing_that_their_views_lack(project_root: Path) -> None:
    folder = project_root / "site_templates" / "pages"
    sources = [path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.j2"))]
    assert len(sources) == 18
    assert not [source for source in sources if re.search(r"\|\s*safe\b", source)]
