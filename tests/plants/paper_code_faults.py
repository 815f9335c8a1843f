"""Cards whose code leads elsewhere, or cannot be read by every camera."""

import io
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import segno
from plants.paper_press import Given, Order, PaperPlant, Shop

CARDS = (("T-17", "brakes", ""), ("E-02", "round", "pocket"), ("V-08", "visor", "a5"))


def orders(shop: Shop) -> Iterator[Order]:
    for unit, kind, size in CARDS:
        order = shop.order(unit, kind, size)
        assert order is not None, (unit, kind)
        yield order


def code(address: str, *, level: str = "q", border: int = 4, module: float = 0.5) -> Given:
    made = segno.make_qr(address, error=level, boost_error=False)
    drawn = io.BytesIO()
    made.save(drawn, kind="svg", border=border, xmldecl=False, nl=False)
    modules, _ = made.symbol_size(border=border)
    return {"svg": drawn.getvalue().decode("ascii"), "side": modules * module, "says": address}


def sow(shop: Shop, what: str, rule: str, **how: str | float) -> Iterator[PaperPlant]:
    """Yield cards with another code."""
    for order in orders(shop):
        address = str(how.get("address", order.issue.link))
        changed = code(
            address,
            level=str(how.get("level", "q")),
            border=int(how.get("border", 4)),
            module=float(how.get("module", 0.5)),
        )

        def change(given: Given, changed: Given = changed) -> Given:
            # The place that the template keeps for a code stays as large as it was.
            stamp = given["stamp"]
            stamp["code"] = {**changed, "says": stamp["code"]["says"]}
            return given

        says = f"{what}, {order.guide.number} {order.card.kind.id}"
        yield PaperPlant(says, order, shop.draw(order, change), frozenset({rule}))


_END = "  alt: head.code.says,\n))"


def _with_over_it(drawn: str) -> str:
    """Return the end of the template's code with something drawn over it."""
    return (
        f"{_END}\n#let sound-code-of = code-of\n"
        "#let code-of(head) = {\n"
        "  let code-side = mm(head.code.side)\n"
        "  block(above: 0pt, below: 0pt, width: code-side, height: code-side,"
        f" {{ sound-code-of(head); {drawn} }})\n"
        "}"
    )


def other_addresses(shop: Shop) -> Iterator[PaperPlant]:
    for address in (
        "https://guides.sedgewater.example/T-18/?r=fd148d51",
        "https://guides.sedgewater.example/T-17/?r=00000000",
        "https://example.org/",
    ):
        yield from sow(shop, f"code of {address}", "paper-code-differs", address=address)


def no_quiet_zone(shop: Shop) -> Iterator[PaperPlant]:
    """Print beside the code: a code without a border stands at a line of text or the edge."""
    for border in (0, 1):
        rule = "paper-code-without-quiet-zone"
        yield from sow(shop, f"{border} modules of white", rule, border=border)


def print_in_the_quiet_zone(shop: Shop) -> Iterator[PaperPlant]:
    """A thin line on each side of the code, two modules away."""
    places = {
        "above": "place(top + left, dy: 0.9mm, line(length: code-side))",
        "below": "place(bottom + left, dy: -0.9mm, line(length: code-side))",
        "left": "place(top + left, dx: 0.9mm, line(angle: 90deg, length: code-side))",
        "right": "place(top + right, dx: -0.9mm, line(angle: 90deg, length: code-side))",
    }
    for where, line in places.items():
        new = _with_over_it(line)
        for order in orders(shop):
            with TemporaryDirectory() as folder:
                templates = shop.with_templates(Path(folder), "sides.typ", _END, new)
                pdf = shop.draw(order, None, templates)
            rules = frozenset({"paper-code-without-quiet-zone"})
            yield PaperPlant(f"line {where}, {order.guide.number}", order, pdf, rules)


def small_codes(shop: Shop) -> Iterator[PaperPlant]:
    """Smaller modules, with as much more white as keeps the place of the code."""
    for module, border in ((0.45, 6), (0.4, 9), (0.3, 18)):
        rule = "paper-code-too-small" if module > 0.3 else "paper-code-missing"
        yield from sow(shop, f"modules of {module} mm", rule, module=module, border=border)


def weak_codes(shop: Shop) -> Iterator[PaperPlant]:
    for level in ("l", "m", "h"):
        rule = "paper-code-level-differs"
        yield from sow(shop, f"code of level {level}", rule, level=level)


def no_code(shop: Shop) -> Iterator[PaperPlant]:
    empty = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'
    for order in orders(shop):

        def change(given: Given) -> Given:
            given["stamp"]["code"]["svg"] = empty
            return given

        rules = frozenset({"paper-code-missing"})
        yield PaperPlant("no code", order, shop.draw(order, change), rules)


def covered_codes(shop: Shop) -> Iterator[PaperPlant]:
    """A white sticker over half of the code, and one that is as dark as the code."""
    for color in ("white", "black", "luma(240)"):
        sticker = f"place(center + horizon, rect(width: 75%, height: 50%, fill: {color}))"
        new = _with_over_it(sticker)
        for order in orders(shop):
            with TemporaryDirectory() as folder:
                templates = shop.with_templates(Path(folder), "sides.typ", _END, new)
                pdf = shop.draw(order, None, templates)
            rules = frozenset({"paper-code-missing"})
            yield PaperPlant(f"{color} over the code", order, pdf, rules)


KINDS = (
    other_addresses,
    no_quiet_zone,
    print_in_the_quiet_zone,
    small_codes,
    weak_codes,
    no_code,
    covered_codes,
)
