"""The check digit and model year of a VIN.

Takes in 17 characters; gives out the check digit they ask for and the years they can mean.
Refuses nothing and verifies nothing: one in thirteen single mistakes passes the digit, so a
passing VIN is "passes the check digit", never "verified".

Source: 49 CFR 565.15(c) Tables III and IV (check digit) and Table VII (model year).
"""

from types import MappingProxyType

LENGTH = 17
CHECK_POSITION = 8
"""Counted from 0: the ninth character."""

YEAR_POSITION = 9

_LETTERS = {
    **dict(zip("ABCDEFGH", range(1, 9), strict=True)),
    **dict(zip("JKLMN", range(1, 6), strict=True)),
    "P": 7,
    "R": 9,
    **dict(zip("STUVWXYZ", range(2, 10), strict=True)),
}
_VALUES = MappingProxyType({**_LETTERS, **{str(digit): digit for digit in range(10)}})
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789"
_FIRST_YEAR = 1980


def check_digit(vin: str) -> str:
    """Return the character that belongs in position 9 of *vin*.

    >>> check_digit("1M8GDM9AXKP042788")
    'X'
    """
    remainder = sum(_VALUES[c] * w for c, w in zip(vin, _WEIGHTS, strict=True)) % 11
    return "X" if remainder == 10 else str(remainder)  # noqa: PLR2004 -- ten has no digit


def model_years(vin: str) -> tuple[int, ...]:
    """Return the model years that position 10 can mean, earliest first; none for 0, U and Z.

    >>> model_years("1M8GDM9AXKP042788")
    (1989, 2019)
    """
    index = _YEAR_CODES.find(vin[YEAR_POSITION])
    cycle = len(_YEAR_CODES)
    return () if index < 0 else (_FIRST_YEAR + index, _FIRST_YEAR + cycle + index)


def is_placeholder(vin: str) -> bool:
    """Return whether *vin* is one character over and over."""
    return len(set(vin)) == 1
