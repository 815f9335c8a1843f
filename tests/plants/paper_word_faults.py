"""Cards with other words, values or parts than their truck's."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from plants.paper_press import Given, Order, PaperPlant, Shop, pieces_in, replaced_by, spread

from guidegen.quantity.model import Quantity

Piece = dict[str, Any]
Edit = Callable[[Given, int, int], bool]
"""Changes one piece in place; false if there is nothing to change in it."""

CARDS = (
    ("T-17", "brakes"),
    ("E-02", "brakes"),
    ("D-31", "emergency"),
    ("E-02", "start-up"),
    ("T-17", "fluids"),
    ("E-02", "fluids"),
    ("T-17", "lamps"),
    ("R-12", "lamps"),
    ("T-04", "round"),
    ("R-12", "visor"),
)
MOST = 2
"""Faults of one kind on one card."""

_DIGIT = re.compile(r"[0-9]")
VALUE = frozenset({"paper-value-differs"})
ORDER = frozenset({"paper-out-of-order", "paper-caution-after-its-step"})


def orders(shop: Shop) -> Iterator[Order]:
    for unit, kind in CARDS:
        order = shop.order(unit, kind)
        assert order is not None, (unit, kind)
        yield order


def sow(
    shop: Shop, kinds: tuple[str, ...], edit: Edit, rules: frozenset[str], what: str
) -> Iterator[PaperPlant]:
    """Yield cards with one piece of *kinds* edited, at some places of each card."""
    for order in orders(shop):
        given = shop.given(order)
        found = [at for at in pieces_in(given, *kinds) if edit(shop.given(order), *at)]
        for number, place in spread(found, MOST):
            changed = shop.given(order)
            edit(changed, number, place)
            unit, card = order.guide.number, order.card.kind.id
            says = f"{what}, {unit} {card}, piece {number}.{place}"
            yield PaperPlant(says, order, shop.draw(order, replaced_by(changed)), rules)


def dropped(given: Given, number: int, place: int) -> bool:
    del given["groups"][number]["pieces"][place]
    return True


def cautions_dropped(shop: Shop) -> Iterator[PaperPlant]:
    rules = frozenset({"paper-caution-missing"})
    yield from sow(shop, ("caution",), dropped, rules, "caution dropped")


def cautions_after_their_step(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        pieces = given["groups"][number]["pieces"]
        pieces.append(pieces.pop(place))
        return True

    yield from sow(shop, ("caution",), edit, ORDER, "caution after its step")


def cautions_at_another_step(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        if number + 1 == len(given["groups"]):
            return False
        caution = given["groups"][number]["pieces"].pop(place)
        given["groups"][number + 1]["pieces"].append(caution)
        return True

    yield from sow(shop, ("caution",), edit, ORDER, "caution after a later step")


def signal_words_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    others = {"DANGER": "CAUTION", "WARNING": "CAUTION", "CAUTION": "DANGER", "NOTICE": "CAUTION"}

    def edit(given: Given, number: int, place: int) -> bool:
        piece = given["groups"][number]["pieces"][place]
        piece["signal"] = others[piece["signal"]]
        return True

    rules = frozenset({"paper-signal-word-differs"})
    yield from sow(shop, ("caution",), edit, rules, "another signal word")


def parts_of_cautions_dropped(shop: Shop) -> Iterator[PaperPlant]:
    for part in ("hazard", "consequence", "avoid"):

        def edit(given: Given, number: int, place: int, part: str = part) -> bool:
            given["groups"][number]["pieces"][place][part] = []
            return True

        rules = frozenset({"paper-text-differs", "paper-caution-missing"})
        yield from sow(shop, ("caution",), edit, rules, f"{part} dropped")


def steps_dropped(shop: Shop) -> Iterator[PaperPlant]:
    rules = frozenset({"paper-step-missing"})
    yield from sow(shop, ("step", "stop", "act"), dropped, rules, "step dropped")


def steps_repeated(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        pieces = given["groups"][number]["pieces"]
        pieces.append(pieces[place])
        return True

    rules = frozenset({"paper-unclaimed-text"})
    yield from sow(shop, ("step", "stop", "row"), edit, rules, "printed twice")


def steps_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, _place: int) -> bool:
        groups = given["groups"]
        if number + 1 == len(groups) or groups[number + 1]["opens"]:
            return False
        groups[number], groups[number + 1] = groups[number + 1], groups[number]
        return groups[number]["pieces"][-1]["kind"] in ("step", "stop", "row")

    rules = frozenset({"paper-out-of-order"})
    yield from sow(shop, ("step", "stop", "row"), edit, rules, "exchanged with the next")


def words_changed(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        piece = given["groups"][number]["pieces"][place]
        parts = next(v for k, v in piece.items() if k in ("text", "hazard", "title", "name"))
        parts[0][0] = parts[0][0].replace("e", "o", 1)
        return True

    rules = frozenset({"paper-text-differs", "paper-text-missing"})
    kinds = ("title", "step", "caution", "stop", "lamp")
    yield from sow(shop, kinds, edit, rules, "one letter changed")


def fixed_words_changed(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        piece = given["groups"][number]["pieces"][place]
        for name in ("head", "words", "label", "station", "sign"):
            if name in piece:
                piece[name] = piece[name][::-1]
                return True
        piece["entries"][-1] = "Where: in another place"
        return True

    rules = frozenset({"paper-text-differs", "paper-text-missing", "paper-step-missing",
                       "paper-value-missing"})  # fmt: skip
    kinds = ("list", "section", "note", "row", "large", "stop", "lamp", "stance", "act")
    yield from sow(shop, kinds, edit, rules, "fixed words changed")


def entries_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        del given["groups"][number]["pieces"][place]["entries"][-1]
        return True

    rules = frozenset({"paper-text-missing"})
    yield from sow(shop, ("list", "stance"), edit, rules, "last entry dropped")


def numbers_of_steps_changed(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        given["groups"][number]["pieces"][place]["number"] += "1"
        return True

    rules = frozenset({"paper-text-differs"})
    yield from sow(shop, ("step", "stop"), edit, rules, "another number")


def _values(piece: Piece) -> Iterator[list[str]]:
    for parts in (piece.get("text"), piece.get("value"), *piece.get("entries", ())):
        yield from (part for part in parts or () if len(part) > 1)


def _edit_value(how: Callable[[str], str]) -> Edit:
    def edit(given: Given, number: int, place: int) -> bool:
        for part in _values(given["groups"][number]["pieces"][place]):
            changed = how(part[0])
            if changed != part[0]:
                part[0] = changed
                return True
        return False

    return edit


_WITH_VALUES = ("step", "row", "large", "list")


def digits_changed(shop: Shop) -> Iterator[PaperPlant]:
    def other(said: re.Match[str]) -> str:
        return str((int(said[0]) + 1) % 10)

    edit = _edit_value(lambda text: _DIGIT.sub(other, text, count=1))
    yield from sow(shop, _WITH_VALUES, edit, VALUE, "first digit changed")
    last = _edit_value(lambda text: _DIGIT.sub(other, text[::-1], count=1)[::-1])
    yield from sow(shop, _WITH_VALUES, last, VALUE, "last digit changed")


def measures_changed(shop: Shop) -> Iterator[PaperPlant]:
    others = {"psi": "bar", "qt": "gal", "ft": "yd", "lb": "kg", "kPa": "psi", "kWh": "kW"}

    def other(text: str) -> str:
        for one, two in others.items():
            changed = re.sub(rf"\b{one}\b", two, text, count=1)
            if changed != text:
                return changed
        return text

    yield from sow(shop, _WITH_VALUES, _edit_value(other), VALUE, "another measure")


def second_amounts_dropped(shop: Shop) -> Iterator[PaperPlant]:
    edit = _edit_value(lambda text: re.sub(r" \([^)]*\)$", "", text))
    yield from sow(shop, _WITH_VALUES, edit, VALUE, "second amount dropped")


def values_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        given["groups"][number]["pieces"][place]["value"] = []
        return True

    # Both axles have a row of this name, and often tires of the same size.
    rules = frozenset({"paper-value-missing", "paper-out-of-order"})
    yield from sow(shop, ("row", "large"), edit, rules, "value dropped")


def rows_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        groups = given["groups"]
        if number + 1 == len(groups):
            return False
        mine, next_one = groups[number]["pieces"][place], groups[number + 1]["pieces"][-1]
        mine["value"], next_one["value"] = next_one["value"], mine["value"]
        return bool(mine["value"] != next_one["value"])

    yield from sow(shop, ("row", "large"), edit, VALUE, "values of two rows exchanged")


def words_of_figures_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        drawing = given["groups"][number]["pieces"][place]["drawing"]
        was = drawing["writing"]
        drawing["writing"] = []
        return bool(was)

    rules = frozenset({"paper-figure-differs", "paper-out-of-order"})
    yield from _sow_lamps(shop, edit, rules, "word in the symbol dropped")


def words_of_figures_changed(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        writing = given["groups"][number]["pieces"][place]["drawing"]["writing"]
        for written in writing:
            written["words"] = "PARK"
        return bool(writing)

    rules = frozenset({"paper-figure-differs", "paper-text-differs"})
    yield from _sow_lamps(shop, edit, rules, "word in the symbol changed")


def symbols_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        groups = given["groups"]
        if number + 1 == len(groups):
            return False
        mine, other = groups[number]["pieces"][place], groups[number + 1]["pieces"][0]
        mine["drawing"]["svg"], other["drawing"]["svg"] = (
            other["drawing"]["svg"],
            mine["drawing"]["svg"],
        )
        return True

    rules = frozenset({"paper-figure-differs"})
    yield from _sow_lamps(shop, edit, rules, "symbols of two lamps exchanged")


def symbols_dropped(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        given["groups"][number]["pieces"][place]["drawing"] = None
        return True

    rules = frozenset({"paper-figure-differs"})
    yield from _sow_lamps(shop, edit, rules, "symbol dropped")


def words_for_pictures_changed(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        given["groups"][number]["pieces"][place]["drawing"]["alt"] = "The lamp of T-18"
        return True

    rules = frozenset({"paper-spoken-differs"})
    yield from _sow_lamps(shop, edit, rules, "words for a picture changed")


def meanings_exchanged(shop: Shop) -> Iterator[PaperPlant]:
    def edit(given: Given, number: int, place: int) -> bool:
        groups = given["groups"]
        if number + 1 == len(groups):
            return False
        mine, other = groups[number]["pieces"][place], groups[number + 1]["pieces"][0]
        mine["means"], other["means"] = other["means"], mine["means"]
        return True

    yield from _sow_lamps(
        shop, edit, frozenset({"paper-out-of-order"}), "meanings of two lamps exchanged"
    )


def _sow_lamps(shop: Shop, edit: Edit, rules: frozenset[str], what: str) -> Iterator[PaperPlant]:
    yield from sow(shop, ("lamp",), edit, rules, what)


def parts_of_other_trucks(shop: Shop) -> Iterator[PaperPlant]:
    """A group of another truck's card, at three places of this one's."""
    for order in orders(shop):
        kind = order.card.kind.id
        other = next(
            each for each in shop.guides if each != order.guide.number and shop.order(each, kind)
        )
        found = shop.order(other, kind)
        assert found is not None
        own = shop.given(order)["groups"]
        strange = [each for each in shop.given(found)["groups"] if each not in own]
        for place in sorted({0, len(own) // 2, len(own)}):
            changed = shop.given(order)
            changed["groups"].insert(place, strange[0])
            says = f"part of {other} on {order.guide.number} {kind}, before group {place}"
            rules = frozenset({"paper-unclaimed-text"})
            yield PaperPlant(says, order, shop.draw(order, replaced_by(changed)), rules)


def wrong_conversions(shop: Shop) -> Iterator[PaperPlant]:
    """Second amounts that are wrong in the guide itself, and printed as they stand there."""
    rules = frozenset({"paper-value-converted-wrongly"})
    for unit, kind, name in (
        ("T-17", "brakes", "brakes.air.cut_out"),
        ("T-17", "fluids", "tires.steer.cold_pressure"),
        ("R-12", "visor", "identity.overall_height"),
    ):
        order = shop.order(unit, kind)
        assert order is not None
        fact = order.guide.facts[name]
        first, second = fact.shown
        assert isinstance(second, Quantity)
        double = replace(fact, shown=(first, replace(second, amount=second.amount * 2)))
        guide = replace(order.guide, facts={**order.guide.facts, name: double})
        wrong = replace(order, guide=guide)
        yield PaperPlant(f"{name} of {unit}, twice as much", wrong, shop.draw(wrong), rules)


KINDS = (
    wrong_conversions,
    cautions_dropped,
    cautions_after_their_step,
    cautions_at_another_step,
    signal_words_exchanged,
    parts_of_cautions_dropped,
    steps_dropped,
    steps_repeated,
    steps_exchanged,
    words_changed,
    fixed_words_changed,
    entries_dropped,
    numbers_of_steps_changed,
    digits_changed,
    measures_changed,
    second_amounts_dropped,
    values_dropped,
    rows_exchanged,
    words_of_figures_dropped,
    words_of_figures_changed,
    symbols_exchanged,
    symbols_dropped,
    words_for_pictures_changed,
    meanings_exchanged,
    parts_of_other_trucks,
)
