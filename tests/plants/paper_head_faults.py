"""Cards with another head: truck, title, side, revision, date, notes, what is continued."""

from collections.abc import Callable, Iterator

from plants.paper_press import Given, Order, PaperPlant, Shop, replaced_by

CARDS = (
    ("T-17", "brakes", ""),
    ("E-02", "round", "pocket"),
    ("D-31", "emergency", "letter"),
    ("V-08", "visor", ""),
)

Edit = Callable[[Given], None]


def orders(shop: Shop) -> Iterator[Order]:
    for unit, kind, size in CARDS:
        order = shop.order(unit, kind, size)
        assert order is not None, (unit, kind)
        yield order


def sow(shop: Shop, edit: Edit, rule: str, what: str) -> Iterator[PaperPlant]:
    """Yield cards with an edited head."""
    for order in orders(shop):

        def change(given: Given) -> Given:
            edit(given)
            return given

        says = f"{what}, {order.guide.number} {order.card.kind.id}"
        yield PaperPlant(says, order, shop.draw(order, change), frozenset({rule}))


def _set(**words: str) -> Edit:
    """Return what changes words of the truck's own."""
    return lambda given: given["stamp"].update(words)


def _between_numbers(words: str) -> Edit:
    return lambda given: given["labels"].update(of=words)


def units_changed(shop: Shop) -> Iterator[PaperPlant]:
    for unit in ("T-18", "E-20", ""):
        yield from sow(shop, _set(unit=unit), "paper-unit-differs", f"unit `{unit}`")


def units_added(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given) -> None:
        given["stamp"]["unit"] += " K-22"

    yield from sow(shop, edit, "paper-head-differs", "another truck's number beside its own")


def titles_changed(shop: Shop) -> Iterator[PaperPlant]:
    yield from sow(shop, _set(title="Brakes"), "paper-head-differs", "another title")
    yield from sow(shop, _set(document="T-18: Brakes"), "paper-title-differs", "title of the file")


def side_words_changed(shop: Shop) -> Iterator[PaperPlant]:
    for words, what in (
        ("0 of ", "number of the side"),
        (" of 1", "count of the sides"),
        (" ", "no word between"),
    ):
        yield from sow(shop, _between_numbers(words), "paper-page-number-differs", what)


def revisions_changed(shop: Shop) -> Iterator[PaperPlant]:
    edit = _set(revision="Revision 00000000")
    yield from sow(shop, edit, "paper-revision-differs", "another revision")
    yield from sow(shop, _set(revision=""), "paper-revision-differs", "no revision")
    yield from sow(shop, _set(date="2025-11-20"), "paper-revision-differs", "another date")


def notes_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def first(given: Given) -> None:
        del given["labels"]["notes"][0]

    def last(given: Given) -> None:
        del given["labels"]["notes"][1]

    def added(given: Given) -> None:
        given["labels"]["notes"].append("Drive on.")

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
