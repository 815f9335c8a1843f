"""Values of one file that must agree with one another.

Takes in stated values; gives out findings where two of them cannot both be true.
Refuses to say which of the two is wrong.
"""

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from guidegen.finding import Findings, Note
from guidegen.quantity.model import Dimension, Quantity, QuantityRange, System
from guidegen.specs import rules, vin
from guidegen.specs.fields import Stated, Value
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


_QUOTED_WITHIN = Fraction(1, 20)
"""Share of the amount. Rules print round pairs, such as 100 ft and 30 m; a slip of a digit is more.
Common practice, no source."""
_QUOTED_DEGREES = Fraction(1)
"""In kelvin, for temperatures, whose zero is no natural one."""


def check_quotes(stated: Mapping[str, Stated], findings: Findings) -> None:
    """Report pairs that do not say one thing in two measures, or that nobody can look up."""
    for name, value in stated.items():
        if value.quoted is None:
            continue
        if not value.source:
            _report_no_source(name, value, findings)
        if not _say_the_same(value.value, value.quoted):
            findings.add(
                rules.QUOTED_PAIR_DIFFERS,
                value.span,
                what=f"`{name}` and the measure quoted beside it do not say the same",
                fix="copy both from the document again, one in US and one in metric measures, or"
                " delete `quoted` so that the value is converted",
            )


def check_sources(stated: Mapping[str, Stated], findings: Findings) -> None:
    """Report values that name no document; the holder's own ``name`` needs none."""
    for name, value in stated.items():
        if not value.source and not name.endswith(".name"):
            _report_no_source(name, value, findings)


def _report_no_source(name: str, stated: Stated, findings: Findings) -> None:
    findings.add(
        rules.VALUE_WITHOUT_SOURCE,
        stated.span,
        what=f"`{name}` names no document",
        fix="write `{value: …, source: …}` with rule, section and edition",
    )


def _say_the_same(value: Value, quoted: Value) -> bool:
    match value, quoted:
        case Quantity(), Quantity():
            allowed = abs(value.exact) * _QUOTED_WITHIN
            if value.dimension is Dimension.TEMPERATURE:
                allowed = _QUOTED_DEGREES
            systems = {value.measure.system, quoted.measure.system}
            is_near = abs(value.exact - quoted.exact) <= allowed
            return systems == {System.US, System.METRIC} and is_near
        case QuantityRange(), QuantityRange():
            ends = ((value.low, quoted.low), (value.high, quoted.high))
            return all(_say_the_same(one, other) for one, other in ends)
        case _:
            return False


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
