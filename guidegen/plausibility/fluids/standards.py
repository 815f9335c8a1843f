"""What standards say of oils and brake fluids.

Takes in nothing; gives out grades, categories and DOT numbers, each with where it is known from.
Refuses to know of products: a category or grade is printed on any maker's can.
"""

import enum
import re
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.rule_page import Standing


class Burns(enum.Enum):
    """Which engines an oil category is for."""

    DIESEL = "diesel"
    GASOLINE = "gasoline"


@dataclass(frozen=True, slots=True)
class OilCategory:
    """A service category of the American Petroleum Institute."""

    name: str
    burns: Burns
    stands_in_for: tuple[str, ...] = ()
    """Older categories that an oil of this one may take the place of."""

    for_filters: bool = False
    """Whether the category was made for engines with a particulate filter."""

    only_grade: str = ""
    """The end of the only viscosity grades that it has, such as ``30``; empty if it has many."""

    standing: Standing = Standing.MEMORY


_BEFORE_FILTERS = ("CI-4 PLUS", "CI-4", "CH-4")
_KNOWN_FROM_PAPERS = (
    # API, licensed from 1 December 2016: CK-4 takes the place of CJ-4 and older ones down to CH-4;
    # FA-4 is thinner, xW-30 only, and takes the place of none.
    OilCategory(
        "CK-4",
        Burns.DIESEL,
        ("CJ-4", *_BEFORE_FILTERS),
        for_filters=True,
        standing=Standing.SECONDARY,
    ),
    OilCategory(
        "FA-4", Burns.DIESEL, for_filters=True, only_grade="30", standing=Standing.SECONDARY
    ),
)
_FROM_MEMORY = (
    OilCategory("CJ-4", Burns.DIESEL, _BEFORE_FILTERS, for_filters=True),
    OilCategory("CI-4 PLUS", Burns.DIESEL, ("CI-4", "CH-4")),
    OilCategory("CI-4", Burns.DIESEL, ("CH-4",)),
    OilCategory("CH-4", Burns.DIESEL),
    *(OilCategory(name, Burns.DIESEL) for name in ("CG-4", "CF-4", "CF-2", "CF")),
    *(
        OilCategory(name, Burns.GASOLINE)
        for name in ("SP", "SN PLUS", "SN", "SM", "SL", "SJ", "SH", "SG")
    ),
)
OIL_CATEGORIES = MappingProxyType(
    {category.name: category for category in (*_KNOWN_FROM_PAPERS, *_FROM_MEMORY)}
)
"""By name. The list is open at its new end: API licenses new categories as engines change."""

_DENIED = re.compile(r"\b(?:not|never|no|without)\b[^,;()]*", re.IGNORECASE)


def affirmed(text: str) -> str:
    """Return *text* without what it says is not to be used.

    >>> affirmed("API CK-4, not FA-4")
    'API CK-4, '
    """
    return _DENIED.sub("", text)


_CATEGORY = re.compile(r"\b(?:[CF][A-Z]-\d|(?P<short>S[A-Z])(?![A-Za-z0-9-]))(?: PLUS)?\b")
_API = re.compile(r"\bAPI\b")


def oil_categories(text: str) -> tuple[str, ...]:
    """Return the API categories that *text* names, in their order.

    Two letters alone, such as SN, count only after the letters API.

    >>> oil_categories("SAE 10W-30, API CK-4 or CJ-4")
    ('CK-4', 'CJ-4')
    """
    wanted = affirmed(text)
    api = _API.search(wanted)
    named = (
        found.group()
        for found in _CATEGORY.finditer(wanted)
        if not found["short"] or (api and api.end() <= found.start())
    )
    return tuple(dict.fromkeys(named))


WINTER_GRADES = (0, 5, 10, 15, 20, 25)
"""Numbers before the W of SAE J300, editions of 1999 to 2021."""

SUMMER_GRADES = (8, 12, 16, 20, 30, 40, 50, 60)
"""Numbers after it, and of single grades. SAE J300."""

_VISCOSITY = re.compile(r"\b(\d{1,3}) ?W ?[-/ ]? ?(\d{1,3})?\b")


def viscosity_grades(text: str) -> tuple[tuple[str, int, int | None], ...]:
    """Return the multigrade viscosities that *text* names: as typed, before the W, after it.

    >>> viscosity_grades("SAE 15W-40, API CK-4")
    (('15W-40', 15, 40),)
    """
    return tuple(
        (found.group().strip(), int(found[1]), int(found[2]) if found[2] else None)
        for found in _VISCOSITY.finditer(affirmed(text))
    )


DOT_NUMBERS = ("3", "4", "5", "5.1")
"""FMVSS 116 S5.1."""

SILICONE = "5"
"""DOT 5 is silicone, the others are glycol ethers; the two do not mix."""

_DOT = re.compile(r"\bDOT[ -]?(\d(?:\.\d)?)\b")


def dot_numbers(text: str) -> tuple[str, ...]:
    """Return the DOT numbers that *text* names, each once.

    >>> dot_numbers("brake fluid, DOT 3 or DOT 4")
    ('3', '4')
    """
    return tuple(dict.fromkeys(_DOT.findall(affirmed(text))))
