"""Which trucks a driver may pick as known."""

from dataclasses import replace

from sample_fleet import E_04, GUIDES, H_2, T_17, T_18, fact

from guidegen.differences.offer import MOST_EDITIONS, MOST_NAMED, choice_for, offer_known
from guidegen.guide.model import Guide


def fleet_of(editions: int, units_each: int = 1) -> list[Guide]:
    return [
        numbered(T_17, f"T-{place * units_each + unit + 1}", f"{place:012x}")
        for place in range(editions)
        for unit in range(units_each)
    ]


def numbered(guide: Guide, number: str, edition: str) -> Guide:
    facts = {**guide.facts, "identity.number": fact("identity.number", number)}
    return replace(guide, number=number, facts=facts, edition=edition)


def offered(guides: list[Guide], trained_on: list[str] | None = None) -> list[str]:
    return [each.guide.number for each in offer_known(guides, trained_on).trucks]


def test_the_trucks_that_the_office_lists_are_offered_in_counting_order() -> None:
    assert offered(fleet_of(20), ["T-11", "T-2"]) == ["T-2", "T-11"]


def test_a_listed_truck_without_a_guide_is_passed_over() -> None:
    assert offered([T_17, E_04], ["T-17", "T-99"]) == ["T-17"]


def test_an_empty_list_offers_none() -> None:
    assert offered([T_17, E_04], []) == []


def test_listed_trucks_of_one_edition_are_offered_each() -> None:
    assert offered(list(GUIDES), ["T-17", "T-18"]) == ["T-17", "T-18"]


def test_without_a_list_one_truck_stands_for_each_edition() -> None:
    known = offer_known([T_18, T_17, H_2, E_04], None)
    assert [(each.guide.number, each.alike) for each in known.trucks] == [
        ("E-04", ()),
        ("H-2", ()),
        ("T-17", ("T-18",)),
    ]


def test_without_a_list_as_many_editions_as_can_be_are_offered() -> None:
    assert len(offered(fleet_of(MOST_EDITIONS))) == MOST_EDITIONS


def test_without_a_list_more_editions_than_that_offer_none() -> None:
    assert offered(fleet_of(MOST_EDITIONS + 1)) == []


def test_trucks_of_one_edition_are_not_named_in_a_great_fleet() -> None:
    few = offer_known(fleet_of(2, MOST_NAMED // 2), None)
    many = offer_known(fleet_of(2, MOST_NAMED // 2 + 1), None)
    assert [len(each.alike) for each in few.trucks] == [MOST_NAMED // 2 - 1] * 2
    assert [each.alike for each in many.trucks] == [(), ()]
    assert (few.stands_for_edition, many.stands_for_edition) == (False, True)


def choice(number: str, trained_on: list[str] | None = None) -> list[object]:
    found = choice_for(number, offer_known([T_17, T_18, H_2, E_04], trained_on))
    return [[(each.guide.number, each.alike) for each in found.others], found.same_guide]


def test_a_truck_is_not_compared_with_itself() -> None:
    assert choice("T-17", ["T-17", "E-04"]) == [[("E-04", ())], ()]


def test_a_truck_is_compared_with_a_listed_one_of_its_own_edition() -> None:
    assert choice("T-18", ["T-17"]) == [[("T-17", ())], ()]


def test_a_truck_that_stands_for_its_edition_names_the_others_of_it() -> None:
    assert choice("T-17") == [[("E-04", ()), ("H-2", ())], ("T-18",)]


def test_a_truck_is_not_named_as_one_with_its_own_guide() -> None:
    assert choice("T-18") == [[("E-04", ()), ("H-2", ()), ("T-17", ())], ()]
    assert choice("H-2") == [[("E-04", ()), ("T-17", ("T-18",))], ()]
