"""The sizes that cards have.

Takes in nothing; gives out sides in exact millimeters by the name that a spec uses.
Refuses rounding: the pocket card's standard gives millimeters only and says not to convert them.
"""

from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

INCH = Decimal("25.4")
"""Millimeters."""

SEAL = Decimal(3)
"""Millimeters from the trim that the seal of a laminate needs. Common practice, no source."""

PRINTABLE_MARGIN = Decimal(6)
"""Millimeters along each edge of a sheet that office printers may leave blank: common practice,
no source."""


@dataclass(frozen=True, slots=True)
class Side:
    """A trimmed side."""

    id: str
    """Key of `guidegen.specs.paper.CARD_SIZES`."""

    width: Decimal
    """Millimeters, as a driver holds it."""

    height: Decimal
    free: Decimal = SEAL
    """Millimeters from the trim inward that nothing is drawn on. Sides whose trim is, or may be,
    the edge of a printer's sheet keep as much free as the printer leaves blank."""

    @property
    def lies(self) -> bool:
        """Whether it is wider than high."""
        return self.width > self.height


def _inches(width: str, height: str) -> tuple[Decimal, Decimal]:
    return Decimal(width) * INCH, Decimal(height) * INCH


def _millimeters(width: str, height: str) -> tuple[Decimal, Decimal]:
    return Decimal(width), Decimal(height)


_MEASURES = {
    "4x6": _inches("4", "6"),
    # ISO 216.
    "a6": _millimeters("105", "148"),
    "half-letter": _inches("5.5", "8.5"),
    "a5": _millimeters("148", "210"),
    # ISO/IEC 7810, ID-1.
    "pocket": _millimeters("85.60", "53.98"),
    "letter": _inches("8.5", "11"),
    "a4": _millimeters("210", "297"),
}

_TO_THE_EDGE = frozenset({"half-letter", "a5", "letter", "a4"})
"""One or two of them are a sheet of an office printer."""

SIDES = MappingProxyType(
    {
        name: Side(name, *both, PRINTABLE_MARGIN if name in _TO_THE_EDGE else SEAL)
        for name, both in _MEASURES.items()
    }
)
"""By the name that a spec uses."""
