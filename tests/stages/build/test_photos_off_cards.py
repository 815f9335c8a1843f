from dataclasses import replace
from types import SimpleNamespace

from photo_cards import FILL, GUIDE, bare, fitted

from guidegen.build.off_card import off_card
from guidegen.build.photos_off_cards import off_card_findings

LOADED = SimpleNamespace(guides=dict.fromkeys(("T-1", "T-2", "T-3", "T-4", "T-5"), GUIDE))


def test_a_photo_without_room_is_told_once_for_all_trucks_at_its_place_in_the_list() -> None:
    card = replace(bare(), photos=fitted().photos[:1])
    off = [(number, each) for number in LOADED.guides for each in off_card(card)]

    (finding,) = off_card_findings(off, LOADED)  # type: ignore[arg-type]  # guides are all it asks

    assert finding.rule.name == "photo-not-on-card"
    assert not finding.is_error
    assert finding.what == "no room on card `tank`, size `a5`, of T-1, T-2, T-3 and 2 more"
    assert finding.span is FILL.photos[1].span


def test_nothing_is_told_of_a_card_that_shows_all() -> None:
    assert list(off_card(fitted())) == []
