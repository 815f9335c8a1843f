"""The code on a printed side that leads to the truck's page.

Takes in an address; gives out a QR code as SVG and its side in millimeters.
Refuses other than level Q with its quiet zone: a card is scratched, and laminate shines.
"""

import io
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

MODULE = Decimal("0.5")
"""Millimeters: what the camera of a cheap tablet reads at arm's length. Common practice."""

QUIET = 4
"""Modules of white on all sides; ISO/IEC 18004."""


@dataclass(frozen=True, slots=True)
class Code:
    """A QR code."""

    svg: str
    side: Decimal
    """Millimeters, with its quiet zone."""

    says: str

    def as_file(self) -> dict[str, Any]:
        """Return it in types that JSON has."""
        return {"svg": self.svg, "side": float(self.side), "says": self.says}


@lru_cache(maxsize=64)
def code_of(address: str) -> Code:
    """Return the code that says *address*."""
    import segno  # noqa: PLC0415 -- takes a while, and most runs print nothing

    made = segno.make_qr(address, error="q", boost_error=False)
    drawn = io.BytesIO()
    made.save(drawn, kind="svg", border=QUIET, xmldecl=False, nl=False)
    modules, _ = made.symbol_size(border=QUIET)
    return Code(drawn.getvalue().decode("ascii"), int(modules) * MODULE, address)
