from dataclasses import replace
from types import MappingProxyType

from sample_fleet import E_04, T_17, T_18
from sample_printings import BRAKES, FLUIDS, WALK, deck, kept, said, with_facts

from guidegen.decks.model import CardKind
from guidegen.guide.model import Guide
from guidegen.printings.changes import Kind
from guidegen.printings.deck import Deck
from guidegen.printings.model import Act, InCab, PrintedCard, Printing
from guidegen.printings.outdated import CardsNow, Judged, judge
from guidegen.printings.report import format_judged, judged_as_json

FLEET = (BRAKES, FLUIDS, WALK)
OLD = kept(T_17, FLEET)
NEW = with_facts(brakes__air__cut_out="130 psi")


def hung(guide: Guide, *ids: str, yard: str = "North Yard") -> dict[str, InCab]:
    """Return cards of *guide* as they were printed in October."""
    cards = tuple(PrintedCard(id_, "4x6", said(guide, FLEET)[id_]) for id_ in ids)
    printing = Printing(
        *(Act.PRINTED, "2026-10-01", guide.number, cards, yard, "1", guide.edition, "d"),
        copies=2,
        by="R. Aldous",
    )
    return {card.id: InCab(card, printing) for card in cards}


def now(guide: Guide, yard: str = "North Yard", kinds: tuple[CardKind, ...] = FLEET) -> CardsNow:
    return CardsNow(yard, guide.edition, "2", deck(guide, kinds), said(guide, kinds))


def judged(
    cabs: dict[str, dict[str, InCab]], trucks: dict[str, CardsNow], words: Deck | None = OLD
) -> Judged:
    units = {*trucks, "H-2"}
    frozen = {unit: MappingProxyType(cards) for unit, cards in cabs.items()}
    return judge(frozen, units, trucks, lambda _: words)


def listed(found: Judged) -> list[tuple[str, str, str, Kind]]:
    return [(each.yard, each.unit, each.card, each.kind) for each in found.outdated]


def test_cards_come_by_yard_and_the_worst_first() -> None:
    worded = replace(BRAKES, title="Brakes")
    cabs = {
        "T-18": hung(T_18, "brakes", yard="River Street"),
        "T-9": hung(replace(T_17, number="T-9"), "brakes"),
        "T-17": hung(T_17, "brakes", "fluids"),
    }
    trucks = {
        "T-18": now(replace(NEW, number="T-18"), "River Street"),
        "T-9": now(replace(T_17, number="T-9"), kinds=(worded, FLUIDS, WALK)),
        "T-17": now(NEW),
    }

    assert listed(judged(cabs, trucks)) == [
        ("North Yard", "T-17", "brakes", Kind.LIMIT),
        ("North Yard", "T-17", "fluids", Kind.LIMIT),
        ("North Yard", "T-9", "brakes", Kind.WORD),
        ("River Street", "T-18", "brakes", Kind.LIMIT),
    ]


def test_what_says_the_same_is_older_or_current_and_not_out_of_date() -> None:
    found = judged({"T-17": hung(T_17, "brakes", "walk")}, {"T-17": now(NEW)})

    assert [each.card for each in found.outdated] == ["brakes"]
    assert [each.card for each in found.older] == ["walk"]
    assert found.current == ()
    assert [each.card for each in found.to_print(every=True)] == ["brakes", "walk"]
    same = replace(now(T_17), revision="1")
    assert judged({"T-17": hung(T_17, "walk")}, {"T-17": same}).current == (("T-17", "walk"),)


def test_a_draft_that_was_released_as_it_was_is_older() -> None:
    found = judged({"T-17": hung(T_17, "walk")}, {"T-17": now(T_17)})

    assert [each.card for each in found.older] == ["walk"]


def test_a_card_that_the_truck_has_nothing_for_any_more_is_taken_out() -> None:
    found = judged({"T-17": hung(T_17, "brakes")}, {"T-17": now(T_17, kinds=(FLUIDS,))})

    (gone,) = [each for each in found.outdated if each.kind is Kind.GONE]
    assert (gone.card, gone.title, gone.is_taken_out) == ("brakes", "Brake check", True)
    assert found.to_print(every=True) == ()


def test_a_card_that_the_truck_had_nothing_for_before_is_new() -> None:
    bare = kept(T_17, (BRAKES,))

    found = judged({"T-17": hung(T_17, "brakes")}, {"T-17": now(T_17)}, bare)

    assert [(each.card, each.kind) for each in found.outdated] == [
        ("fluids", Kind.NEW),
        ("walk", Kind.NEW),
    ]
    # What was there to be printed, and was not asked for, is not new.
    assert judged({"T-17": hung(T_17, "brakes")}, {"T-17": now(T_17)}).outdated == ()


def test_cards_of_a_retired_truck_are_taken_out_where_it_was_last() -> None:
    found = judged({"E-04": hung(replace(T_17, number="E-04"), "brakes", "walk")}, {})

    assert listed(found) == [
        ("North Yard", "E-04", "brakes", Kind.RETIRED),
        ("North Yard", "E-04", "walk", Kind.RETIRED),
    ]
    assert "take these out of the cab: brakes, walk\n" in format_judged(found)


def test_a_truck_that_is_held_back_is_named_and_not_judged() -> None:
    cabs = {"H-2": hung(replace(T_17, number="H-2"), "brakes")}

    found = judged(cabs, {"E-04": now(E_04)})

    assert found.outdated == ()
    assert found.unjudged == ("H-2",)
    assert found.unrecorded == ("E-04",)
    text = format_judged(found)
    assert "not judged, since their guides are held back: H-2" in text
    assert "no card on record: E-04" in text


def test_where_the_words_are_lost_a_card_is_taken_for_the_worst() -> None:
    found = judged({"T-17": hung(T_17, "brakes", "walk")}, {"T-17": now(NEW)}, None)

    assert listed(found) == [("North Yard", "T-17", "brakes", Kind.UNKNOWN)]
    assert found.outdated[0].changes == ("What changed can no longer be told",)


def test_the_list_says_which_card_to_look_for_and_what_is_wrong_on_it() -> None:
    found = judged({"T-17": hung(T_17, "brakes")}, {"T-17": now(NEW)})

    assert format_judged(found) == (
        "North Yard\n==========\n\n"
        "T-17 brakes “Brake check”: a limit changed\n"
        "  Governed (cut-out) pressure 135 psi → 130 psi\n"
        "  in the cab: revision 1, printed 2026-10-01 by R. Aldous, 2 copies\n\n"
        "1 card to print, 0 to take out, 0 up to date\n"
    )
    (told,) = judged_as_json(found)["cards"]
    assert told["do"] == "print"
    assert told["kind"] == "limit"
    assert told["in_cab"]["copies"] == 2
