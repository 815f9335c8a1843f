"""Values of one file that must agree with one another.

Takes in stated values; gives out findings where two of them cannot both be true.
Refuses to say which of the two is wrong.
"""

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from guidegen.finding import Findings, Note
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.specs import rules, vin
from guidegen.specs.fields import Stated
from guidegen.specs.model import Spec

_RESERVED = frozenset(
    {"ASSETS", "OFFICE", "SEARCH", "CON", "PRN", "AUX", "NUL"}
    | {f"{device}{digit}" for device in ("COM", "LPT") for digit in range(1, 10)}
)
"""Folders of the site, and the names of devices that Windows takes for no folder."""


def check_unit_number(spec: Spec, findings: Findings) -> None:
    """Report a unit number that cannot be the name of a folder of the site."""
    if spec.id in _RESERVED:
        findings.add(
            rules.RESERVED_UNIT_NUMBER,
            spec.span,
            what=f"`{spec.id}` cannot be the number of a unit",
            fix=f"add a digit or a letter, as in `{spec.id}-1`",
            unit=spec.id,
        )


def check_identity(spec: Spec, findings: Findings) -> None:
    """Report a VIN that fails its check digit, is made up, or is of another year."""
    stated = spec.stated.get("identity.vin")
    if stated is None:
        return
    number = str(stated.value)
    if vin.is_placeholder(number):
        findings.add(
            rules.VIN_PLACEHOLDER,
            stated.span,
            what=f"`vin: {number}` is one character over and over",
            fix="copy the VIN from the unit plate in the door frame",
            unit=spec.id,
        )
        return
    expected = vin.check_digit(number)
    if number[vin.CHECK_POSITION] != expected:
        findings.add(
            rules.VIN_CHECK_DIGIT,
            stated.span,
            what=f"`vin: {number}` has `{number[vin.CHECK_POSITION]}` in position 9, and its "
            f"other characters ask for `{expected}`",
            fix="read the VIN off the unit plate again, character by character",
            unit=spec.id,
        )
        return
    _check_year(spec, number, stated, findings)


def _check_year(spec: Spec, number: str, stated: Stated, findings: Findings) -> None:
    year = spec.stated.get("identity.year")
    years = vin.model_years(number)
    if year is not None and year.value not in years:
        listed = " or ".join(str(each) for each in years) or "no model year"
        findings.add(
            rules.VIN_YEAR,
            year.span,
            what=f"`year: {year.value}`, and position 10 of the VIN means {listed}",
            fix="read year and VIN off the unit plate again",
            notes=[Note("the VIN stands at", stated.span)],
            unit=spec.id,
        )


_ORDER = (
    "brakes.air.spring_apply",
    "brakes.air.low_air_warning",
    "brakes.air.cut_in",
    "brakes.air.cut_out",
)
"""From the lowest pressure to the highest. Source: FMVSS 121 (warning, cut-in) and the CDL
manual, section 5 (spring brakes, governor)."""


def check_pressures(stated: Mapping[str, Stated], findings: Findings, unit: str = "") -> None:
    """Report air pressures that do not rise in the order in which things happen."""
    known = [(name, stated[name]) for name in _ORDER if name in stated]
    for (lower_name, lower), (higher_name, higher) in pairwise(known):
        if _top(lower) >= _bottom(higher):
            findings.add(
                rules.PRESSURES_OUT_OF_ORDER,
                higher.span,
                what=f"`{higher_name}` is not above `{lower_name}`",
                fix="read both in the handbook again: spring brakes apply, then low-air warning, "
                "then cut-in, then cut-out, from low to high",
                notes=[Note(f"`{lower_name}` stands at", lower.span)],
                unit=unit,
            )


def _top(stated: Stated) -> Fraction:
    match stated.value:
        case QuantityRange(high=high):
            return high.exact
        case Quantity() as quantity:
            return quantity.exact
        case _:
            raise TypeError(stated.value)


def _bottom(stated: Stated) -> Fraction:
    match stated.value:
        case QuantityRange(low=low):
            return low.exact
        case Quantity() as quantity:
            return quantity.exact
        case _:
            raise TypeError(stated.value)
