"""Photos on printed cards: which card shows another one now, and how it is told."""

from collections.abc import Iterable
from dataclasses import replace

import pytest
from photo_cards import GUIDE, OTHERS, SWITCH, TANK, bare, guide_with, photo
from sample_fleet import Warn, procedure
from sample_printings import with_facts

from guidegen.decks.model import Card, ShownPhoto
from guidegen.finding import Findings
from guidegen.guide.model import Guide, Procedure
from guidegen.paper.card import groups_of
from guidegen.paper.matter import Matter
from guidegen.photos.model import Photo
from guidegen.printings.changes import Kind, card_changes
from guidegen.printings.deck import Deck, deck_bytes, deck_of, read_deck
from guidegen.printings.said import said_on
from guidegen.procedures.model import Signal
from guidegen.revisions.snapshot import digest_of

STEPS: list[str | Warn] = ["Open the hood.", "Find the tank at {brakes.air.cut_out}."]
CAP = photo(TANK, "fill-tank", "step-2", "Only the blue cap.")
WHOLE = photo(SWITCH, "fill-tank")
OTHER = photo(OTHERS, "fill-tank", "step-2", "Only the blue cap.")


def filling(photos: Iterable[Photo], steps: Iterable[str | Warn] = STEPS) -> Guide:
    work = procedure("fill-tank", "Fill the tank", steps)
    return guide_with(replace(work, photos=tuple(photos)))


def card_of(guide: Guide, edge: int = 60, left_out: Iterable[Photo] = ()) -> Card:
    card, gone = bare(guide), set(left_out)
    shown = (each for each in card.offered if each not in gone)
    return replace(card, photos=tuple(ShownPhoto(each, edge) for each in shown))


def deck(card: Card, guide: Guide) -> Deck:
    """Return the deck as it is read from its file later."""
    raw, findings = deck_bytes(deck_of(guide, [card])), Findings()
    read = read_deck("records/printings/decks/x.json", raw, digest_of(raw), findings)
    assert read is not None, [each.what for each in findings]
    return read


def said(card: Card, guide: Guide) -> str:
    return said_on(card, groups_of(card, Matter(guide)))


def told(before: Guide, after: Guide, left_out: Iterable[Photo] = ()) -> list[tuple[Kind, str]]:
    """Return what is wrong on the card of *before*; nothing if it reads as that of *after*."""
    old, new = card_of(before, left_out=left_out), card_of(after, left_out=left_out)
    if said(old, before) == said(new, after):
        return []
    changes = card_changes(deck(old, before), deck(new, after), "tank")
    return [(each.kind, each.words) for each in changes]


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ((CAP,), (OTHER,), "Photo changed: “Fill the tank”, step 2"),
        ((CAP,), (CAP, WHOLE), "New photo: “Fill the tank”"),
        ((CAP, WHOLE), (CAP,), "Photo left out: “Fill the tank”"),
        (
            (CAP,),
            (replace(CAP, caption="Not the black cap."),),
            "Caption of a photo changed: “Fill the tank”, step 2",
        ),
    ],
)
def test_another_photo_is_told_with_its_place(
    before: tuple[Photo, ...], after: tuple[Photo, ...], words: str
) -> None:
    assert told(filling(before), filling(after)) == [(Kind.PHOTO, words)]


def test_what_is_not_printed_makes_no_card_old() -> None:
    assert told(filling((CAP,)), filling((replace(CAP, alt="Said otherwise, in words."),))) == []
    # Left out on both, and so on neither card.
    assert told(filling((CAP,)), filling((OTHER,)), left_out=(CAP, OTHER)) == []
    guide = filling((CAP,))
    assert said(card_of(guide, 34), guide) == said(card_of(guide, 60), guide)


def test_a_photo_comes_after_a_limit_a_caution_and_a_step() -> None:
    warn = Warn(Signal.WARNING, "Fluid burns.", "It can hurt you.", "Keep flames away.")
    reworded: list[str | Warn] = ["Open the hood wide.", STEPS[1]]
    for steps, kind in (
        (reworded, Kind.WORD),
        ([*STEPS, "Shut it."], Kind.WORK),
        ([warn, *STEPS], Kind.CAUTION),
    ):
        kinds = [each for each, _ in told(filling((CAP,)), filling((OTHER,), steps))]
        assert kinds == [kind, Kind.PHOTO]
    limit = with_facts(brakes__air__cut_out="130 psi")
    after = replace(filling((OTHER,)), facts=limit.facts)
    kinds = [each for each, _ in told(filling((CAP,)), after)]
    assert (kinds[0], kinds[-1]) == (Kind.LIMIT, Kind.PHOTO)


def test_a_procedure_that_comes_with_its_photo_is_told_once() -> None:
    shut: Procedure = procedure("shut-hood", "Shut the hood", ["Shut it."])
    both = guide_with(
        *filling((CAP,)).chapters[0].procedures, replace(shut, photos=(photo(SWITCH, "shut-hood"),))
    )

    assert told(filling((CAP,)), both) == [(Kind.WORK, "New: procedure “Shut the hood”")]


def test_a_deck_without_photos_keeps_its_bytes() -> None:
    assert b"photos" not in deck_bytes(deck_of(GUIDE, [bare()])).partition(b'"said"')[0]
