from collections.abc import Sequence

import pytest
from photo_cards import SWITCH, TANK, photo

from guidegen.decks.model import ShownPhoto
from guidegen.paper.photo_room import EDGES, LEAST, Sides, photos_with_room

PHOTOS = (photo(TANK, "one"), photo(SWITCH, "two"), photo(TANK, "three"))
SIDE = 100
"""Millimeters of a side that one photo fills after another."""


def taking(bare: int, white: int) -> Sides:
    """Return sides of a card of which the last has *white* millimeters left."""

    def sides(shown: Sequence[ShownPhoto]) -> int:
        left = sum(each.edge for each in shown) - white
        return bare if left <= 0 else bare + 1 + (left - 1) // SIDE

    return sides


def edges(bare: int, white: int) -> list[tuple[str, int]]:
    shown = photos_with_room(PHOTOS, taking(bare, white))
    return [(each.photo.procedure, each.edge) for each in shown]


def test_all_photos_are_as_large_as_all_have_room() -> None:
    assert edges(2, 3 * EDGES[0]) == [("one", EDGES[0]), ("two", EDGES[0]), ("three", EDGES[0])]
    assert edges(2, 3 * EDGES[0] - 1) == [(name, EDGES[1]) for name in ("one", "two", "three")]


def test_the_first_ones_are_shown_where_not_all_have_room() -> None:
    assert edges(2, 2 * LEAST) == [("one", LEAST), ("two", LEAST)]
    assert edges(2, LEAST - 1) == []


def test_the_blank_back_of_the_last_leaf_is_room_and_a_further_leaf_is_none() -> None:
    assert len(edges(3, 0)) == 2
    assert edges(4, 0) == []


def test_a_card_of_one_side_keeps_its_blank_back() -> None:
    assert edges(1, 0) == []
    assert len(edges(1, LEAST)) == 1


def test_a_card_whose_text_fits_on_no_side_shows_no_photo() -> None:
    assert photos_with_room(PHOTOS, lambda _: None) == ()


@pytest.mark.parametrize("stuck", ["one", "two"])
def test_a_photo_that_makes_its_step_taller_than_a_side_leaves_room_for_others(stuck: str) -> None:
    def sides(shown: Sequence[ShownPhoto]) -> int | None:
        return None if any(each.photo.procedure == stuck for each in shown) else 2

    shown = photos_with_room(PHOTOS, sides)

    assert [each.photo.procedure for each in shown] == [
        each.procedure for each in PHOTOS if each.procedure != stuck
    ]


def test_white_that_a_larger_photo_leaves_behind_takes_another() -> None:
    # The first one, once it is large, moves on to a blank side, and the second stays behind.
    def sides(shown: Sequence[ShownPhoto]) -> int:
        sized = {each.photo.procedure: each.edge for each in shown}
        if sized.get("two", LEAST) > LEAST:
            return 3
        if sized.get("one", LEAST) > LEAST:
            return 2
        return 2 + len(sized) // 2

    shown = photos_with_room(PHOTOS[:2], sides)

    assert [(each.photo.procedure, each.edge) for each in shown] == [
        ("one", EDGES[0]),
        ("two", LEAST),
    ]
