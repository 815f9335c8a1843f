"""Cards that say all that they must and cannot be read: the templates are changed."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from plants.paper_press import Given, PaperPlant, Shop, replaced_by

CARDS = (("T-17", "brakes"), ("E-02", "lamps"), ("R-12", "fluids"), ("T-04", "round"))


MOST_CARDS = 2


class Fault(NamedTuple):
    """One place of a template, changed."""

    file: str
    old: str
    new: str
    rules: frozenset[str]
    only: str = ""
    """Kind of card that it shows on; all if empty."""


def _matter(old: str, new: str, *rules: str, only: str = "") -> Fault:
    return Fault("matter.typ", old, new, frozenset(rules), only)


def _side(old: str, new: str, *rules: str) -> Fault:
    return Fault("sides.typ", old, new, frozenset(rules))


_STEP = "strong(it.number), says(it.text),"
_TITLE = '#let title-of(head) = text(size: points("title"), weight: "bold", head.title)'
_BODY = "groups.join()"
_NOTES = "place(bottom + left, dx: bleed + safe, dy: -(bleed + safe), foot-of(at))"

FAULTS: Mapping[str, Fault] = {
    "steps in white": _matter(
        _STEP, "strong(it.number), text(fill: white, says(it.text)),",
        "paper-text-pale", only="brakes",
    ),
    "steps in light gray": _matter(
        _STEP, "strong(it.number), text(fill: luma(160), says(it.text)),",
        "paper-text-pale", only="brakes",
    ),
    "steps of 1 pt": _matter(
        _STEP, "strong(it.number), text(size: 1pt, says(it.text)),",
        "paper-text-small", only="brakes",
    ),
    "steps of 7 pt": _matter(
        _STEP, "strong(it.number), text(size: 7pt, says(it.text)),",
        "paper-text-small", only="brakes",
    ),
    "steps squeezed": _matter(
        _STEP, "strong(it.number), scale(y: 50%, says(it.text)),",
        "paper-text-small", only="brakes",
    ),
    "steps upside down": _matter(
        _STEP, "strong(it.number), rotate(180deg, says(it.text)),",
        "paper-text-hidden", only="brakes",
    ),
    "steps mirrored": _matter(
        _STEP, "strong(it.number), scale(x: -100%, says(it.text)),",
        "paper-text-hidden", only="brakes",
    ),
    "steps that let the paper through": _matter(
        _STEP, "strong(it.number), text(fill: black.transparentize(70%), says(it.text)),",
        "paper-text-hidden", only="brakes",
    ),
    "steps cut off": _matter(
        _STEP, "strong(it.number), block(clip: true, height: 4pt, says(it.text)),",
        "paper-text-hidden", only="brakes",
    ),
    "steps under white": _matter(
        _STEP,
        "strong(it.number), { says(it.text); place(top + left, rect(fill: white, width: 90%)) },",
        "paper-text-hidden", only="brakes",
    ),
    "cautions under their ground": _matter(
        "says(it.hazard)\n      [ ]",
        "says(it.hazard)\n      place(top + left, rect(fill: black, width: 50%))\n      [ ]",
        "paper-text-hidden", only="brakes",
    ),
    "cautions in white": _matter(
        "says(it.consequence)", "text(fill: white, says(it.consequence))",
        "paper-text-pale", only="brakes",
    ),
    "signal words in the color of their ground": _matter(
        'fill: color-of(name + "_text"),', 'fill: color-of(name + "_back"),',
        "paper-text-pale", only="brakes",
    ),
    "values in white": _matter(
        "if part.len() > 1 { value(part.at(0)) }",
        "if part.len() > 1 { text(fill: white, value(part.at(0))) }",
        "paper-text-pale",
    ),
    "values of 2 pt": _matter(
        "if part.len() > 1 { value(part.at(0)) }",
        "if part.len() > 1 { text(size: 2pt, value(part.at(0))) }",
        "paper-text-small",
    ),
    "no alert symbol": _matter(
        'if word != "NOTICE" { h(0.35em) + alert }', "",
        "paper-alert-symbol-differs", only="brakes",
    ),
    "rows in white on white": _matter(
        "it.label, strong(says(it.value)),", "text(fill: white, it.label), strong(says(it.value)),",
        "paper-text-pale", only="fluids",
    ),
    "values before their labels": _matter(
        "it.label, strong(says(it.value)),", "strong(says(it.value)), it.label,",
        "paper-value-differs", "paper-out-of-order", "paper-value-missing", "paper-text-differs",
        only="fluids",
    ),
    "values two rows up": _matter(
        "it.label, strong(says(it.value)),", "it.label, move(dy: -40pt, strong(says(it.value))),",
        "paper-reading-order-differs", only="fluids",
    ),
    "steps moved up over what comes before": _matter(
        _STEP, "strong(it.number), move(dy: -30pt, says(it.text)),",
        "paper-reading-order-differs", only="brakes",
    ),
    "every second step above the one before": _matter(
        "#let step(it) = grid(\n  columns: (1.5em, 1fr),\n  column-gutter: 0.3em,\n"
        "  strong(it.number), says(it.text),\n)",
        "#let step(it) = move(dy: if calc.even(int(it.number)) { -45pt } else { 0pt }, grid(\n"
        "  columns: (1.5em, 1fr),\n  column-gutter: 0.3em,\n"
        "  strong(it.number), says(it.text),\n))",
        "paper-reading-order-differs", only="brakes",
    ),
    "names of lamps below what they mean": _matter(
        "strong(says(it.name)) + linebreak()",
        "move(dy: 30pt, strong(says(it.name))) + linebreak()",
        "paper-reading-order-differs", only="lamps",
    ),
    "symbols beside their lamps' names": _matter(
        "{ drawing(it.drawing, width) },", "{ drawing(it.drawing, width) + [Lamp] },",
        "paper-unclaimed-text", only="lamps",
    ),
    "text to the edge of the card": _side(
        "left: bleed + safe,\n", "left: bleed + 0.5mm,\n", "paper-outside-safe-area",
    ),
    "text over the trim": _side(
        "left: bleed + safe,\n", "left: bleed - 2mm,\n", "paper-outside-safe-area",
    ),
    "head over the edge": _side(
        "place(top + left, dx: bleed + safe, dy: bleed + safe, block(width: inner.width, {",
        "place(top + left, dx: bleed + safe, dy: bleed + 1mm, block(width: inner.width, {",
        "paper-outside-safe-area",
    ),
    "notes outside of the trim": _side(
        _NOTES, "place(bottom + left, dx: bleed + safe, dy: 0pt, foot-of(at))",
        "paper-outside-safe-area",
    ),
    "words outside of the trim": _side(
        _NOTES,
        f"{_NOTES}\n  place(top + left, dx: 1pt, dy: 1pt, text(size: 6pt, [crop here]))",
        "paper-head-differs",
    ),
    "notes in white": _side(
        'small(labels.notes.join(" "))', 'text(fill: white, small(labels.notes.join(" ")))',
        "paper-text-pale",
    ),
    "head of 5 pt": _side(
        '#let small(body) = text(size: points("small"), body)',
        "#let small(body) = text(size: 5pt, body)",
        "paper-text-small",
    ),
    "number of the truck of 12 pt": _side(
        'text(size: points("unit"), weight', "text(size: 12pt, weight",
        "paper-text-small",
    ),
    "number of the side one too high": _side(
        "str(here().page()) + labels.of", "str(here().page() + 1) + labels.of",
        "paper-page-number-differs",
    ),
    "count of the sides one too low": _side(
        "str(counter(page).final().first()))", "str(counter(page).final().first() - 1))",
        "paper-page-number-differs",
    ),
    "head on the first side only": _side(
        _TITLE,
        '#let title-of(head) = context if here().page() == 1 {'
        ' text(size: points("title"), weight: "bold", head.title) }',
        "paper-head-differs",
    ),
    "page without bleed": _side(
        "width: trim.width + 2 * bleed,", "width: trim.width + 2 * bleed - 2mm,",
        "paper-size-differs",
    ),
    "page too high": _side(
        "height: trim.height + 2 * bleed,", "height: trim.height + 3 * bleed,",
        "paper-size-differs",
    ),
    "a link over the page": _side(
        _BODY, f'{_BODY}\n  place(link("https://example.org", [.]))',
        "paper-more-than-pages",
    ),
    "a picture of nobody's": _side(
        _BODY,
        f'{_BODY}\n  let code = json("stamp.json").code\n'
        '  place(image(bytes(code.svg), width: 5pt, format: "svg", alt: code.says))',
        "paper-figure-differs",
    ),
    "hidden words at the end": _side(
        _BODY, f"{_BODY}\n  place(text(size: 1pt, fill: white, [T-18]))",
        "paper-unclaimed-text",
    ),
}  # fmt: skip


def templates_changed(shop: Shop) -> Iterator[PaperPlant]:
    """Every fault, on two of the cards that it shows on."""
    for what, fault in FAULTS.items():
        drawn = 0
        for unit, kind in CARDS:
            if drawn == MOST_CARDS:
                break
            if fault.only and fault.only != kind:
                continue
            if what == "head on the first side only" and kind == "round":
                continue
            if what.startswith("values") and kind in ("lamps", "round"):
                continue
            order = shop.order(unit, kind)
            assert order is not None
            drawn += 1
            with TemporaryDirectory() as folder:
                changed = shop.with_templates(Path(folder), fault.file, fault.old, fault.new)
                yield PaperPlant(
                    f"{what}, {unit} {kind}", order, shop.draw(order, None, changed), fault.rules
                )


def steps_parted_from_cautions(shop: Shop) -> Iterator[PaperPlant]:
    """A new side between a caution and its step."""
    rules = frozenset({"paper-caution-parted"})
    for unit, kind in (("T-17", "brakes"), ("D-31", "emergency"), ("E-02", "brakes")):
        yield from _parted(shop, unit, kind, "caution", rules)


def rows_parted_from_headings(shop: Shop) -> Iterator[PaperPlant]:
    """A new side between the name of a thing and its first value."""
    yield from _parted(shop, "R-12", "fluids", "section", frozenset({"paper-group-parted"}))
    yield from _parted(shop, "T-17", "start-up", "stance", frozenset({"paper-group-parted"}))


def _parted(
    shop: Shop, unit: str, kind: str, before: str, rules: frozenset[str]
) -> Iterator[PaperPlant]:
    order = shop.order(unit, kind)
    assert order is not None
    found = [
        number
        for number, group in enumerate(shop.given(order)["groups"])
        if group["pieces"][-2:-1] and group["pieces"][-2]["kind"] == before
    ]
    for number in found[:: max(1, len(found) // 3)][:3]:
        with TemporaryDirectory() as folder:
            templates = shop.with_templates(
                Path(folder),
                "sides.typ",
                "given.groups.map(group)",
                'given.groups.map(it => { if it.at("turns", default: false) '
                "{ pagebreak() }; group(it) })",
            )
            given = shop.given(order)
            _part(given, number)
            pdf = shop.draw(order, replaced_by(given), templates)
        yield PaperPlant(f"group {number} parted, {unit} {kind}", order, pdf, rules)


def _part(given: Given, number: int) -> None:
    group = given["groups"][number]
    last = {"pieces": [group["pieces"].pop()], "opens": False, "turns": True}
    given["groups"].insert(number + 1, {**last, "running": group["running"]})


KINDS = (templates_changed, steps_parted_from_cautions, rows_parted_from_headings)
