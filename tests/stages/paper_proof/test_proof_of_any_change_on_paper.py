"""Any letter of a card's body or head that is another, gone or too many is noticed."""

import copy
from collections.abc import Iterator
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from plants.paper_press import Shop, replaced_by

Place = tuple[str | int, ...]
NOT_PRINTED = frozenset(
    {"kind", "drawing", "running", "document", "fleet", "signal", "code", "longest", "procedure"}
)
LETTERS = st.sampled_from("0123456789abcxyzABCXYZ.,-()%'")


def printed(value: Any, place: Place = ()) -> Iterator[Place]:  # noqa: ANN401 -- JSON
    """Yield the places of all texts that are printed as they are given."""
    if isinstance(value, str):
        yield place
    elif isinstance(value, list):
        for number, each in enumerate(value):
            # A part of a text is a list of its words and, for a value, a mark.
            if not (number and each == "v"):
                yield from printed(each, (*place, number))
    elif isinstance(value, dict):
        for name, each in value.items():
            if name not in NOT_PRINTED:
                yield from printed(each, (*place, name))


def changed(matter: Any, place: Place, how: str, data: st.DataObject) -> bool:  # noqa: ANN401 -- JSON
    *way, last = place
    for step in way:
        matter = matter[step]
    text = matter[last]
    letters = [at for at, letter in enumerate(text) if not letter.isspace()]
    if not letters:
        return False
    at = data.draw(st.sampled_from(letters))
    other = data.draw(LETTERS)
    new = {"other": other, "gone": "", "more": text[at] + other}[how]
    matter[last] = text[:at] + new + text[at + 1 :]
    return bool(new != text[at])


@given(
    data=st.data(),
    card=st.sampled_from([("E-02", "brakes"), ("R-12", "visor"), ("T-04", "round")]),
    how=st.sampled_from(["other", "gone", "more"]),
)
@settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
def test_any_change_of_a_letter_is_caught(
    shop: Shop, data: st.DataObject, card: tuple[str, str], how: str
) -> None:
    order = shop.order(*card)
    assert order is not None
    matter = copy.deepcopy(shop.given(order))
    places = [("groups", *each) for each in printed(matter["groups"])]
    places += [("stamp", *each) for each in printed(matter["stamp"])]
    places += [("labels", *each) for each in printed(matter["labels"]) if each[0] != "continued"]
    place = data.draw(st.sampled_from(places))
    if changed(matter, place, how, data):
        assert order.prove(shop.draw(order, replaced_by(matter))).failures, place
