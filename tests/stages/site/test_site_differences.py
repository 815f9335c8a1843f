"""Difference sheets and the pages on which a driver picks the truck that he knows."""

from dataclasses import replace

import pytest
from drawn_sheet import TEMPLATES, DrawnSheet, hand_made_frame
from page_soup import attribute, attributes, only, soup_of, words
from sample_fleet import E_04, FLEET, H_2, T_17, T_18, TRUCKS, Warn, fact, guide, procedure

from guidegen.differences.offer import KnownTruck, Offer, offer_known
from guidegen.guide.model import Chapter, Guide
from guidegen.procedures.model import Signal
from guidegen.procedures.words import LABELS
from guidegen.site.draw_differences import DifferencePages


def pages_of(offer: Offer) -> DifferencePages:
    return DifferencePages(offer, (), FLEET, TEMPLATES, hand_made_frame())


def files_of(given: Guide, offer: Offer) -> dict[str, str]:
    files = pages_of(offer).files_of(given)
    return {path: raw.decode() for path, raw in files}


def test_every_truck_has_a_page_to_pick_the_known_one_and_a_sheet_for_each() -> None:
    files = files_of(T_18, offer_known(TRUCKS, None))
    assert list(files) == [
        "T-18/differences.html",
        "T-18/from-E-04.html",
        "T-18/from-H-2.html",
        "T-18/from-T-17.html",
    ]
    picker = soup_of(files["T-18/differences.html"])
    assert attributes(picker, "href", "[data-truck] a") == [
        "from-E-04.html",
        "from-H-2.html",
        "from-T-17.html",
    ]


def test_a_truck_is_not_offered_on_its_own_page_and_names_those_with_its_guide() -> None:
    page = soup_of(files_of(T_17, offer_known(TRUCKS, None))["T-17/differences.html"])
    assert attributes(page, "data-truck", "[data-truck]") == ["E-04", "H-2", "T-18"]
    label = only(page, '[data-label="same_guide_here"]')
    assert words(label) == LABELS["same_guide_here"]
    assert label.parent is not None
    assert attributes(label.parent, "data-truck", "[data-truck]") == ["T-18"]


def test_without_a_truck_on_offer_the_page_says_so() -> None:
    page = soup_of(files_of(T_17, Offer())["T-17/differences.html"])
    assert words(only(page, '[data-label="no_known"]')) == LABELS["no_known"]
    assert not page.select("[data-truck]")


def test_where_trucks_stand_for_their_edition_the_page_says_so() -> None:
    offer = Offer((KnownTruck(E_04),), stands_for_edition=True)
    page = soup_of(files_of(T_17, offer)["T-17/differences.html"])
    assert len(page.select('[data-label="stands_for_edition"]')) == 1


def test_a_sheet_names_both_trucks_in_title_and_heading() -> None:
    page = soup_of(files_of(T_18, Offer((KnownTruck(E_04),)))["T-18/from-E-04.html"])
    assert words(only(page, "title")).startswith("T-18 · If you know E-04 · Bluff County Haulage")
    assert words(only(page, "h1")) == "If you know E-04 and are given T-18"


def test_a_sheet_says_what_it_is_not() -> None:
    page = soup_of(DrawnSheet(T_17, E_04).sheet.decode())
    for key in ("park_first", "handbook_first", "no_substitute", "on_record_only"):
        assert words(only(page, f'[data-label="{key}"]')) == LABELS[key]


def test_a_pair_of_editions_is_drawn_once_and_stamped_with_both_identities() -> None:
    offer = Offer((KnownTruck(T_17), KnownTruck(T_18)))
    files = files_of(E_04, offer)
    first, second = files["E-04/from-T-17.html"], files["E-04/from-T-18.html"]
    assert first.replace("T-17", "T-18") == second
    third = replace(
        E_04,
        number="E-05",
        facts={**E_04.facts, "identity.number": fact("identity.number", "E-05")},
    )
    other = files_of(third, offer)["E-05/from-T-17.html"]
    assert other == first.replace("E-04", "E-05")


def test_drawing_by_edition_gives_the_same_as_drawing_each_alone() -> None:
    offer = offer_known(TRUCKS, None)
    together = pages_of(offer)
    for truck in sorted(TRUCKS, key=lambda each: each.edition):
        assert dict(together.files_of(truck)) == dict(pages_of(offer).files_of(truck))


def test_each_value_stands_right_after_the_number_of_its_truck() -> None:
    known = guide({"number": "A-1"}, {"brakes.air.cut_out": "130 psi"}, ())
    given = guide({"number": "B-2"}, {"brakes.air.cut_out": "125 psi"}, ())
    page = soup_of(DrawnSheet(known, given).sheet.decode())
    row = only(page, '[data-difference="value.brakes.air.cut_out"]')
    sides = [words(side) for side in row.select("dl > div")]
    assert sides == ["On A-1 130 psi (895 kPa)", "On B-2 125 psi (860 kPa)"]
    known_side, given_side = row.select("dl > div")
    assert attributes(known_side, "data-known-fact", "[data-known-fact]") == [
        "identity.number",
        "brakes.air.cut_out",
    ]
    assert not known_side.select("[data-fact]")
    assert not given_side.select("[data-known-fact]")


def test_what_the_known_truck_alone_has_shows_none_of_its_values() -> None:
    known = guide({"number": "A-1"}, {"pto.control": "lever, left of the seat"}, ())
    given = guide({"number": "B-2"}, {}, (), frozenset({"pto"}))
    lost, gained = DrawnSheet(known, given).sheet, DrawnSheet(given, known).sheet
    assert b"lever, left of the seat" not in lost
    assert b"lever, left of the seat" in gained


LOOK = procedure("look", "Look around", ["Look left."])
WARNED = procedure(
    "look",
    "Look around",
    ["Look left.", Warn(Signal.WARNING, "Traffic comes.", "It hits.", "Wait."), "Look right."],
)


def with_work(number: str, *work: object) -> Guide:
    chapters = (Chapter("before-the-day", work),) if work else ()  # type: ignore[arg-type]
    return guide({"number": number}, {}, chapters)


def test_work_that_is_done_another_way_leads_to_the_whole_procedure() -> None:
    page = soup_of(DrawnSheet(with_work("A-1", LOOK), with_work("B-2", WARNED)).sheet.decode())
    row = only(page, '[data-difference="work.look"]')
    assert attribute(only(row, "a"), "href") == "before-the-day.html#look"
    assert words(only(row, '[data-label="done_otherwise"]')) == LABELS["done_otherwise"]
    caution = only(row, "aside")
    step = only(row, '[data-text="look.steps.step-2"]')
    assert caution in step.find_all_previous("aside")


def test_work_that_this_truck_does_not_ask_for_leads_nowhere() -> None:
    page = soup_of(DrawnSheet(with_work("A-1", LOOK), with_work("B-2")).sheet.decode())
    row = only(page, '[data-difference="work.look"]')
    assert not row.select("a")
    assert words(row) == "Look around Only on A-1"


def test_the_gravest_heading_comes_first_and_contents_lead_to_each() -> None:
    page = soup_of(DrawnSheet(T_17, E_04).sheet.decode())
    headings = attributes(page, "data-rank", "h2[data-rank]")
    assert headings[0] == "brakes"
    assert attributes(page, "href", "a[data-rank]") == [f"#rank-{key}" for key in headings]
    assert attributes(page, "id", "section") == [f"rank-{key}" for key in headings]


def test_what_a_plate_in_a_lost_title_holds_is_escaped() -> None:
    titled = procedure("plate", "Compare {identity.plate}", ["Look at the plate."])
    known = guide(
        {"number": "A-1", "plate": 'A&B "18" <x>'}, {}, (Chapter("end-of-day", (titled,)),)
    )
    sheet = DrawnSheet(known, with_work("B-2")).sheet
    assert b"Compare <span" in sheet
    assert (
        b"A&amp;B &#34;18&#34; &lt;x&gt;" in sheet or b"A&amp;B &quot;18&quot; &lt;x&gt;" in sheet
    )


@pytest.mark.parametrize("given", [T_17, T_18, E_04, H_2])
def test_no_page_needs_a_server_or_a_script(given: Guide) -> None:
    for path, text in files_of(given, offer_known(TRUCKS, None)).items():
        body = only(soup_of(text), "[data-guide]")
        assert not body.select("script, form, input, button"), path
        for address in attributes(body, "href", "a"):
            assert "://" not in address
            assert not address.startswith("/")
