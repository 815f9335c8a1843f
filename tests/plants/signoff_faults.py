"""Sign-off sheets for drivers who know another truck, with other differences than there are."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from plants.paper_press import Given, PaperPlant
from plants.training_faults import Edit, Sheet, TrainingShop, sow, sow_look

PAIRS = (("T-17", "E-02"), ("T-17", "T-18"))
"""The truck that the driver knows, and the one that he is given."""

Row = dict[str, str]
Choice = Callable[[Row], bool]
ByChoice = Callable[[Given, Choice], None]

_MISSING = "paper-difference-missing"
_ORDER = "paper-difference-out-of-order"
_SIDE = "paper-side-not-told"
_VALUE = "paper-value-differs"
_UNCLAIMED = "paper-unclaimed-text"
_DIGIT = re.compile("[0-9](?=[^-]*$)")
"""In what is said of a truck: none of its number, which stands before a hyphen."""

_MEASURES = (("psi", "bar"), ("lb", "kg"), (" ft ", " m "), ("mph", "km/h"), ("qt", "gal"))


def sheets(shop: TrainingShop) -> Iterator[Sheet]:
    for known, given in PAIRS:
        yield shop.signoff(given, known=known)


def _reasons(given: Given) -> list[dict[str, Any]]:
    return [reason for rank in given["body"]["ranks"] for reason in rank["reasons"]]


def _lists(given: Given) -> list[list[Row]]:
    return [reason["lines"] for reason in _reasons(given)]


def _rows(given: Given) -> list[Row]:
    return [row for rows in _lists(given) for row in rows]


def _is_any(_: Row) -> bool:
    return True


def _has_both(row: Row) -> bool:
    return bool(row["known"])


def _has_amounts(row: Row) -> bool:
    said = (row["known"].partition(": ")[2], row["here"].partition(": ")[2])
    return all(re.match("[0-9].*[a-z]", each) for each in said)


def _is_fitting(row: Row) -> bool:
    return row["known"].endswith("itted") and row["here"].endswith("itted")


def _is_known_only(row: Row) -> bool:
    return ", not on " in row["here"]


def _is_given_only(row: Row) -> bool:
    return row["here"].startswith("Only on ") and not _is_known_only(row)


def _is_done_otherwise(row: Row) -> bool:
    return row["here"].startswith("Done ")


_KINDS: Mapping[str, Choice] = {
    "value": _has_amounts,
    "thing": _is_fitting,
    "what only the known truck has": _is_known_only,
    "what only this truck has": _is_given_only,
    "other work": _is_done_otherwise,
}


def _middle(given: Given, choice: Choice) -> Row:
    found = [row for row in _rows(given) if choice(row)]
    return found[len(found) // 2]


def _with_each_kind(
    shop: TrainingShop, what: str, edit: Callable[[Given, Row], None], *rules: str
) -> Iterator[PaperPlant]:
    """Yield sheets of which one difference of each kind is edited."""
    for sheet in sheets(shop):
        for kind, choice in _KINDS.items():

            def change(given: Given, choice: Choice = choice) -> None:
                edit(given, _middle(given, choice))

            yield sow(shop, sheet, f"{what}: {kind}", change, *rules)


def _first_dropped(given: Given) -> None:
    del _lists(given)[0][0]


def _last_dropped(given: Given) -> None:
    del _lists(given)[-1][-1]


def _reason_dropped(given: Given) -> None:
    del given["body"]["ranks"][1]["reasons"][0]


def _all_of_them_dropped(given: Given) -> None:
    given["body"]["ranks"] = []


def _none_told_dropped(given: Given) -> None:
    given["body"]["ranks"] = []
    given["body"]["none_other"] = "Nothing on record differs but number, VIN, plate and yard."


def differences_left_out(shop: TrainingShop) -> Iterator[PaperPlant]:
    def dropped(given: Given, row: Row) -> None:
        for rows in _lists(given):
            rows[:] = [each for each in rows if each is not row]

    yield from _with_each_kind(shop, "left out", dropped, _MISSING)
    for sheet in sheets(shop):
        yield sow(shop, sheet, "first left out", _first_dropped, _MISSING)
        yield sow(shop, sheet, "last left out", _last_dropped, _MISSING)
        yield sow(shop, sheet, "those of one reason left out", _reason_dropped, _MISSING)
        yield sow(shop, sheet, "all left out", _all_of_them_dropped, _MISSING)
        yield sow(shop, sheet, "said to be none", _none_told_dropped, _MISSING)


def sides_exchanged(shop: TrainingShop) -> Iterator[PaperPlant]:
    def values(given: Given, choice: Choice) -> None:
        row = _middle(given, choice)
        (one, known), (two, here) = (row[side].split(": ", 1) for side in ("known", "here"))
        row["known"], row["here"] = f"{one}: {here}", f"{two}: {known}"

    def lines(given: Given, choice: Choice) -> None:
        row = _middle(given, choice)
        row["known"], row["here"] = row["here"], row["known"]

    def numbers(given: Given, choice: Choice) -> None:
        values(given, choice)
        lines(given, choice)

    for sheet in sheets(shop):
        for kind, choice in (("value", _has_amounts), ("thing", _is_fitting)):
            for what, edit, rules in (
                ("values exchanged", values, {_VALUE if kind == "value" else _SIDE}),
                ("numbers exchanged", numbers, {_SIDE}),
                ("lines exchanged", lines, {_SIDE, "paper-out-of-order"}),
            ):

                def change(given: Given, choice: Choice = choice, edit: ByChoice = edit) -> None:
                    edit(given, choice)

                yield sow(shop, sheet, f"{what} of a {kind}", change, *rules)


def order_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def neighbors(given: Given) -> None:
        rows = next(rows for rows in _lists(given) if len(rows) > 1)
        rows[0], rows[1] = rows[1], rows[0]

    def last_first(given: Given) -> None:
        _lists(given)[0].insert(0, _lists(given)[-1].pop())

    def first_last(given: Given) -> None:
        _lists(given)[-1].append(_lists(given)[0].pop(0))

    def ranks(given: Given) -> None:
        found = given["body"]["ranks"]
        found[0], found[1] = found[1], found[0]

    def reasons(given: Given) -> None:
        found = next(e["reasons"] for e in given["body"]["ranks"] if len(e["reasons"]) > 1)
        found[0], found[1] = found[1], found[0]

    for sheet in sheets(shop):
        yield sow(shop, sheet, "neighbors exchanged", neighbors, _ORDER)
        yield sow(shop, sheet, "last first", last_first, _ORDER)
        yield sow(shop, sheet, "first last", first_last, _ORDER)
        yield sow(shop, sheet, "ranks exchanged", ranks, _ORDER)
        yield sow(shop, sheet, "reasons exchanged", reasons, _ORDER)


def _digit(side: str) -> Edit:
    def edit(given: Given) -> None:
        row = _middle(given, _has_amounts)
        number, _, said = row[side].partition(": ")
        other = _DIGIT.sub(lambda found: str((int(found[0]) + 1) % 10), said, count=1)
        row[side] = f"{number}: {other}"

    return edit


def _measure(side: str) -> Edit:
    def is_measured(row: Row) -> bool:
        said = row[side].replace("\u00a0", " ")
        return _has_amounts(row) and any(one in said for one, _ in _MEASURES)

    def edit(given: Given) -> None:
        row = _middle(given, is_measured)
        said = row[side].replace("\u00a0", " ")
        one, other = next(pair for pair in _MEASURES if pair[0] in said)
        row[side] = said.replace(one, other, 1)

    return edit


def _gone(side: str) -> Edit:
    def edit(given: Given) -> None:
        row = _middle(given, _has_amounts)
        row[side] = f"{row[side].partition(': ')[0]}: Not on record"

    return edit


def values_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    for sheet in sheets(shop):
        for side in ("known", "here"):
            yield sow(shop, sheet, f"digit of {side}", _digit(side), _VALUE)
            yield sow(shop, sheet, f"measure of {side}", _measure(side), _VALUE)
            yield sow(shop, sheet, f"{side} not on record", _gone(side), _VALUE, _SIDE)


def differences_of_others(shop: TrainingShop) -> Iterator[PaperPlant]:
    """Differences that there are, but on a third truck; and one that is told twice."""
    for sheet in sheets(shop):
        third = shop.signoff(sheet.order.guide.number, known="K-22")
        strange = list[Row]()

        def keep(given: Given, strange: list[Row] = strange) -> Given:
            strange[:] = [row for row in _rows(given) if _has_amounts(row) or _is_known_only(row)]
            return given

        shop.draw(third, keep)
        own = list[Row]()

        def keep_own(given: Given, own: list[Row] = own) -> Given:
            own[:] = _rows(given)
            return given

        shop.draw(sheet, keep_own)
        chosen = [row for row in strange if row not in own][:2]
        assert chosen
        for row in chosen:

            def added(given: Given, row: Row = row) -> None:
                _lists(given)[0].insert(1, dict(row))

            yield sow(shop, sheet, f"{row['what']} of {row['known'] or row['here']}", added,
                      _UNCLAIMED)  # fmt: skip

        def twice(given: Given) -> None:
            _lists(given)[-1].append(dict(_lists(given)[0][0]))

        yield sow(shop, sheet, "told twice", twice, _UNCLAIMED)


def _renumbered(choice: Choice, side: str, old: str, new: str) -> Edit:
    def edit(given: Given) -> None:
        row = _middle(given, choice)
        assert old in row[side]
        row[side] = row[side].replace(old, new)

    return edit


def _part(name: str, old: str, new: str) -> Edit:
    def edit(given: Given) -> None:
        given["body"][name] = given["body"][name].replace(old, new)

    return edit


def known_trucks_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    for sheet in sheets(shop):
        assert sheet.known is not None
        known, given_number = sheet.known.number, sheet.order.guide.number

        for kind, choice, side, old, new in (
            ("value", _has_amounts, "known", known, "R-12"),
            ("value", _has_amounts, "here", given_number, "R-12"),
            ("value", _has_amounts, "known", f"{known}: ", ""),
            ("value", _has_amounts, "known", known, given_number),
            ("thing", _is_fitting, "known", known, "R-12"),
            ("thing", _is_fitting, "known", f"{known}: ", ""),
            ("what it only has", _is_known_only, "here", known, "R-12"),
            ("what it only has", _is_known_only, "here", given_number, "R-12"),
            ("what only this has", _is_given_only, "here", given_number, known),
            ("what it only has", _is_known_only, "here", f", not on {given_number}", ""),
        ):
            edit = _renumbered(choice, side, old, new)
            what = f"`{old}` reads `{new}` with a {kind}, {side}"
            yield sow(shop, sheet, what, edit, _SIDE)

        differs = ("paper-text-differs", "paper-text-missing")
        for name, rules in (
            ("title", ("paper-head-differs",)),
            ("other_title", differs),
            ("other_revision", differs),
        ):
            yield sow(shop, sheet, f"{name} of another", _part(name, known, "R-12"), *rules)
        revision = sheet.known.edition[:8]
        yield sow(shop, sheet, "other revision", _part("other_revision", revision, "0" * 8),
                  *differs)  # fmt: skip


def words_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    def reason(given: Given) -> None:
        _reasons(given)[0]["title"] = "All of this is alike."

    def rank(given: Given) -> None:
        given["body"]["ranks"][0]["title"] = "Conveniences"

    def column(given: Given) -> None:
        given["body"]["other_columns"][0] = "The driver has heard of it"

    def otherwise(given: Given) -> None:
        _middle(given, _is_done_otherwise)["here"] = "Done as on the other truck."

    def label(given: Given) -> None:
        _middle(given, _has_amounts)["what"] = "Air brake system: Something else"

    differs = ("paper-text-differs", "paper-text-missing")
    for sheet in sheets(shop):
        yield sow(shop, sheet, "another reason", reason, *differs)
        yield sow(shop, sheet, "another rank", rank, *differs)
        yield sow(shop, sheet, "another column", column, *differs)
        yield sow(shop, sheet, "not done otherwise", otherwise, *differs)
        yield sow(shop, sheet, "another label", label, "paper-text-differs", _MISSING)


def sights_changed(shop: TrainingShop) -> Iterator[PaperPlant]:
    """Differences that stand there and cannot be read, or not as one."""
    template = "signoff.typ"
    here, known = "    it.here\n", "quiet(it.known)"
    what = "strong(it.what)"
    for sheet in sheets(shop):
        for says, old, new, rule in (
            ("small", here, "    text(size: 5pt, it.here)\n", "paper-text-small"),
            ("known truck small", known, "text(size: 6pt, it.known)", "paper-text-small"),
            ("named in small letters", what, "small(it.what)", "paper-text-small"),
            ("pale", here, '    text(fill: rgb("#dddddd"), it.here)\n', "paper-text-pale"),
            ("known truck white", known, "text(fill: white, it.known)", "paper-text-pale"),
            ("hidden", here, "    hide(it.here)\n", "paper-text-missing"),
            ("known truck hidden", known, "hide(it.known)", _SIDE),
            (
                "covered",
                here,
                "    it.here + place(top + left, dy: 1em, rect(width: 30mm, fill: black))\n",
                "paper-text-hidden",
            ),
            (
                "reason not said again on the next page",
                "  level: 2,\n",
                "  level: 2,\n  repeat: false,\n",
                "paper-continued-differs",
            ),
        ):
            yield sow_look(shop, sheet, f"differences {says}", (template, old, new), rule)


def sheets_of_other_pairs(shop: TrainingShop) -> Iterator[PaperPlant]:
    for known, given, other_known, other_given in (
        ("T-17", "E-02", "T-18", "E-02"),
        ("T-17", "T-18", "T-17", "E-02"),
        ("T-17", "E-02", "", "E-02"),
    ):
        mine = shop.signoff(given, known=known)
        strange = shop.signoff(other_given, known=other_known)
        rules = frozenset({"paper-title-differs"})
        for asked, drawn in ((mine, strange), (strange, mine)):
            what = f"{drawn.name} for {asked.name}"
            yield PaperPlant(what, asked, shop.draw(drawn), rules)


SIGNOFF_KINDS: Mapping[str, Callable[[TrainingShop], Iterator[PaperPlant]]] = {
    sow_kind.__name__: sow_kind
    for sow_kind in (
        differences_left_out,
        sides_exchanged,
        order_changed,
        values_changed,
        differences_of_others,
        known_trucks_changed,
        words_changed,
        sights_changed,
        sheets_of_other_pairs,
    )
}
