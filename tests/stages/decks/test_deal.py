"""The cards of one truck."""

from printed import kind
from sample_fleet import TRUCKS

from guidegen.decks.deal import deal_cards, issue_of

BY_NUMBER = {truck.number: truck for truck in TRUCKS}


def test_a_card_holds_what_the_truck_has_and_no_more() -> None:
    asked = kind(procedures=("air-build-up", "high-voltage-shut-off"), facts=("engine.oil_grade",))

    (diesel,) = deal_cards(BY_NUMBER["T-17"], None, [asked])
    (electric,) = deal_cards(BY_NUMBER["E-04"], None, [asked])

    assert [each.id for each in diesel.procedures] == ["air-build-up"]
    assert [each.id for each in electric.procedures] == ["high-voltage-shut-off"]
    assert electric.facts == ()


def test_a_card_with_nothing_on_it_is_not_made() -> None:
    assert deal_cards(BY_NUMBER["E-04"], None, [kind(procedures=("air-build-up",))]) == ()


def test_a_chapter_stands_in_the_order_of_the_guide_after_what_is_named() -> None:
    truck = BY_NUMBER["T-17"]
    chapter = next(each for each in truck.chapters if each.id == "air-brakes")
    last = chapter.procedures[-1].id

    (card,) = deal_cards(truck, None, [kind(procedures=(last,), chapters=("air-brakes",))])

    expected = [last, *(each.id for each in chapter.procedures if each.id != last)]
    assert [each.id for each in card.procedures] == expected


def test_the_link_leads_to_the_trucks_page_with_the_revision() -> None:
    truck = BY_NUMBER["T-17"]

    issue = issue_of(truck, "2026-11-20", "https://guides.example.org/")

    assert issue.revision == truck.edition[:8]
    assert issue.link == f"https://guides.example.org/T-17/?r={truck.edition[:8]}"


def test_a_released_guide_is_printed_with_its_number_and_the_code_keeps_the_edition() -> None:
    issue = issue_of(BY_NUMBER["T-17"], "2026-11-30", "https://guides.example.org/", "2")

    assert (issue.revision, issue.date) == ("2", "2026-11-30")
    assert issue.link == f"https://guides.example.org/T-17/?r={BY_NUMBER['T-17'].edition[:8]}"
    assert issue.document_date == "2026-11-30"


def test_a_draft_is_printed_in_words_and_its_file_is_dated_all_the_same() -> None:
    issue = issue_of(
        BY_NUMBER["T-17"], "not released", "https://g.example/", "draft 1a2b3c4d", "2026-10-01"
    )

    assert issue.date == "not released"
    assert issue.document_date == "2026-10-01"
