"""Cards with the fleet's mark, drawn with a fault of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from plants.paper_press import Order, Shop

from guidegen.build.print_shop import logo_of
from guidegen.paper.logo import Logo
from guidegen.paper_proof.logo import LogoRead
from guidegen.paper_proof.prove import prove_card

MARK = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 48 24">
<path fill="#1f5c4a" d="M2 15 C7 15 10 10 12 2 C14 10 17 15 22 15 Z"/>
<rect fill="#27506b" x="2" y="17" width="44" height="2"/>
<rect fill="#27506b" x="8" y="21" width="32" height="2"/>
</svg>"""
ALT = "Mark of the sample fleet"
FIGURE, HIDDEN, SPOKEN = "paper-figure-differs", "paper-text-hidden", "paper-spoken-differs"


def with_logo(shop: Shop, raw: bytes = MARK, alt: str = ALT) -> Shop:
    """Return *shop* with a mark in its theme."""
    return replace(shop, theme=replace(shop.theme, logo=Logo(raw, "svg", alt, 2.0)), _whole={})


@dataclass(frozen=True, slots=True)
class LogoPlant:
    """One card with one fault of its mark."""

    what: str
    pdf: bytes
    order: Order
    logo: LogoRead
    rules: frozenset[str]

    def caught_by(self) -> frozenset[str]:
        it = self.order
        verdict = prove_card(self.pdf, it.card, it.guide, it.issue, logo=self.logo)
        return frozenset(each.rule.name for each in verdict.failures)


_PLACED = "place(top + right, dx: -mm(head.code.side), rest(logo-in(18mm, 6mm)))"
TEMPLATES = {
    "mark on the text": (
        _PLACED, _PLACED.replace("top + right", "top + right, dy: 30mm"), "paper-text-pale"),
    "mark over the number": (
        _PLACED, _PLACED.replace("dx: -mm(head.code.side)", "dx: -60mm"), FIGURE),
    "mark a millimeter off": (
        _PLACED, _PLACED.replace("-mm(head.code.side)", "-mm(head.code.side) - 1mm"), FIGURE),
    "mark too large": (_PLACED, _PLACED.replace("18mm, 6mm", "18mm, 7mm"), FIGURE),
    "mark twice": (
        _PLACED, f"{_PLACED}; place(top + left, dy: 11mm, rest(logo-in(9mm, 3mm)))", FIGURE),
    "another picture": (
        _PLACED,
        f"{_PLACED}; place(top + left, dy: 11mm, rest(circle(radius: 2mm, fill: red)))",
        FIGURE),
    "text on the mark": (
        _PLACED,
        f"{_PLACED}; place(top + right, dx: -mm(head.code.side) - 3mm, dy: 3mm, rest(head.unit))",
        HIDDEN),
}  # fmt: skip


def templates(shop: Shop, folder: Path) -> Iterator[LogoPlant]:
    """Yield cards of which the template places the mark elsewhere, or more than it."""
    marked = with_logo(shop)
    order = marked.order("T-17", "brakes")
    logo = logo_of(marked.theme, marked.templates)
    assert order is not None
    assert logo is not None
    for number, (what, (old, new, rule)) in enumerate(TEMPLATES.items()):
        changed = marked.with_templates(folder / str(number), "sides.typ", old, new)
        yield LogoPlant(what, marked.draw(order, folder=changed), order, logo, frozenset({rule}))


def other_marks(shop: Shop) -> Iterator[LogoPlant]:
    """Yield cards with another mark than the theme states."""
    marked = with_logo(shop)
    logo = logo_of(marked.theme, marked.templates)
    assert logo is not None
    for what, raw, alt, rule in (
        ("another color", MARK.replace(b"#1f5c4a", b"#5c1f4a"), ALT, FIGURE),
        ("another form", MARK.replace(b"12 2", b"16 2"), ALT, FIGURE),
        ("a shape less", MARK.replace(b'<rect fill="#27506b" x="8"', b'<g x="8"'), ALT, FIGURE),
    ):
        other = with_logo(shop, raw, alt)
        order = other.order("T-17", "visor")
        assert order is not None
        yield LogoPlant(what, other.draw(order), order, logo, frozenset({rule}))
