"""Cards with another head: truck, title, side, revision, date, notes, what is continued."""

from collections.abc import Callable, Iterator
from typing import Any

from plants.paper_press import Given, Order, PaperPlant, Shop, replaced_by

CARDS = (
    ("T-17", "brakes", ""),
    ("E-02", "round", "pocket"),
    ("D-31", "emergency", "letter"),
    ("V-08", "visor", ""),
)

Edit = Callable[[dict[str, Any]], None]


def orders(shop: Shop) -> Iterator[Order]:
    for unit, kind, size in CARDS:
        order = shop.order(unit, kind, size)
        assert order is not None, (unit, kind)
        yield order


def sow(shop: Shop, edit: Edit, rule: str, what: str) -> Iterator[PaperPlant]:
    """Yield cards with an edited head."""
    for order in orders(shop):

        def change(given: Given) -> Given:
            edit(given["head"])
            return given

        says = f"{what}, {order.guide.number} {order.card.kind.id}"
        yield PaperPlant(says, order, shop.draw(order, change), frozenset({rule}))


def _set(**words: Any) -> Edit:  # noqa: ANN401 -- what a template is given
    return lambda head: head.update(words)


def units_changed(shop: Shop) -> Iterator[PaperPlant]:
    for unit in ("T-18", "E-20", ""):
        yield from sow(shop, _set(unit=unit), "paper-unit-differs", f"unit `{unit}`")


def units_added(shop: Shop) -> Iterator[PaperPlant]:
    def edit(head: dict[str, Any]) -> None:
        head["unit"] += " K-22"

    yield from sow(shop, edit, "paper-head-differs", "another truck's number beside its own")


def titles_changed(shop: Shop) -> Iterator[PaperPlant]:
    yield from sow(shop, _set(title="Brakes"), "paper-head-differs", "another title")
    yield from sow(shop, _set(document="T-18: Brakes"), "paper-title-differs", "title of the file")


def side_words_changed(shop: Shop) -> Iterator[PaperPlant]:
    yield from sow(shop, _set(of="0 of "), "paper-page-number-differs", "number of the side")
    yield from sow(shop, _set(of=" of 1"), "paper-page-number-differs", "count of the sides")
    yield from sow(shop, _set(of=" "), "paper-page-number-differs", "no word between")


def revisions_changed(shop: Shop) -> Iterator[PaperPlant]:
    edit = _set(revision="Revision 00000000")
    yield from sow(shop, edit, "paper-revision-differs", "another revision")
    yield from sow(shop, _set(revision=""), "paper-revision-differs", "no revision")
    yield from sow(shop, _set(date="2025-11-20"), "paper-revision-differs", "another date")


def notes_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def first(head: dict[str, Any]) -> None:
        del head["notes"][0]

    def last(head: dict[str, Any]) -> None:
        del head["notes"][1]

    def added(head: dict[str, Any]) -> None:
        head["notes"].append("Drive on.")

    yield from sow(shop, first, "paper-head-differs", "no `park_first`")
    yield from sow(shop, last, "paper-head-differs", "no `handbook_first`")
    yield from sow(shop, added, "paper-head-differs", "another note")


def continued_changed(shop: Shop) -> Iterator[PaperPlant]:
    order = shop.order("T-17", "brakes")
    assert order is not None
    for what, change in (
        ("another procedure goes on", {"running": "Check the fluids"}),
        ("nothing is said to go on", {"running": ""}),
        ("it is said to go on where it begins", {"opens": False, "running": "Build up"}),
    ):
        given = shop.given(order)
        for group in given["groups"]:
            group.update(change)
        pdf = shop.draw(order, replaced_by(given))
        yield PaperPlant(what, order, pdf, frozenset({"paper-continued-differs"}))


KINDS = (
    units_changed,
    units_added,
    titles_changed,
    side_words_changed,
    revisions_changed,
    notes_dropped,
    continued_changed,
)
