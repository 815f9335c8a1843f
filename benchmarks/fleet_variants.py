"""The ways in which trucks of one model differ: sizes, fills, pressures and what is fitted.

Takes in the specs of a unit and of its model, as typed; gives out what the unit of a given variant
states of its own. Variant 0 is the unit as it was; no two variants of one unit are equal.
Refuses a variant beyond the last.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import gcd, prod
from typing import Any

Spec = dict[str, Any]
"""A spec as typed: sections by name, and text."""

_STRIDE = 7919
"""Neighboring variants are this many combinations apart, so that even a few editions differ in
several things at once."""

_NOT_FITTED = "not fitted"


@dataclass(frozen=True, slots=True)
class Way:
    """One thing in which trucks of a model differ."""

    count: int
    """How many ways there are, the one of the model itself included."""

    apply: Callable[[Spec, Spec, int], None]
    """Takes in the unit, what it resolves to, and which of the ways; changes the unit."""


class Variants:
    """All variants of one unit."""

    def __init__(self, unit: Mapping[str, Any], model: Mapping[str, Any]) -> None:
        self._unit = dict(unit)
        self._whole = _merged(dict(model), self._unit)
        self._ways = _ways(self._whole)
        self.count = prod(way.count for way in self._ways)
        """How many there are."""

    def make(self, variant: int) -> Spec:
        """Return the spec of the unit of *variant*; no VIN, plate or yard is changed."""
        if not 0 <= variant < self.count:
            raise ValueError(variant)
        made = _merged({}, self._unit)
        rest = variant * _stride(self.count) % self.count
        for way in self._ways:
            rest, which = divmod(rest, way.count)
            if which:
                way.apply(made, self._whole, which)
        return made


def typed(value: Any) -> str:  # noqa: ANN401 -- a spec holds text, or text with its source
    """Return what was typed of *value*, with or without a source of its own."""
    return str(value["value"] if isinstance(value, dict) else value)


def _stride(count: int) -> int:
    # Without a common divisor every combination is met once.
    stride = _STRIDE
    while gcd(stride, count) > 1:
        stride += 1
    return stride


def _ways(whole: Spec) -> list[Way]:
    ways = [Way(2, _unfit(name)) for name in ("cruise", "differential_lock") if _has(whole, name)]
    ways += [
        Way(2, _unfit(name)) for name in ("idle_adjustment", "block_heater") if _has(whole, name)
    ]
    ways.append(Way(24, _lengthen))
    ways += [Way(8, _soften(axle)) for axle in ("steer", "drive") if axle in whole["tires"]]
    if _has(whole, "engine"):
        ways.append(Way(6, _fill("engine", "oil_capacity")))
    ways.append(Way(6, _fill("cooling", "capacity")))
    return ways


def _has(whole: Spec, name: str) -> bool:
    return isinstance(whole.get(name), dict)


def _unfit(name: str) -> Callable[[Spec, Spec, int], None]:
    def apply(unit: Spec, whole: Spec, _: int) -> None:
        unit[name] = _NOT_FITTED
        # A list of lamps replaces the model's, so it names all that are left.
        lamps = _section(unit, "lamps").setdefault("fitted", list(whole["lamps"]["fitted"]))
        lamps[:] = [lamp for lamp in lamps if lamp != name]
        brake = whole.get("engine_brake")
        if isinstance(brake, dict) and name in brake.get("drops_out", ()):
            left = [cause for cause in brake["drops_out"] if cause != name]
            _section(unit, "engine_brake")["drops_out"] = left

    return apply


def _lengthen(unit: Spec, whole: Spec, which: int) -> None:
    length = typed(whole["identity"]["overall_length"])
    if length.endswith(" m"):
        longer = f"{Decimal(length[:-2]) + which * Decimal('0.03')} m"
    else:
        feet, inches = (int(number) for number in re.findall(r"\d+", f"{length} 0 in")[:2])
        longer = f"{feet + (inches + which) // 12} ft {(inches + which) % 12} in"
    _section(unit, "identity")["overall_length"] = longer


def _soften(axle: str) -> Callable[[Spec, Spec, int], None]:
    def apply(unit: Spec, whole: Spec, which: int) -> None:
        tires = dict(whole["tires"][axle])
        tires["cold_pressure"] = _moved(tires["cold_pressure"], which, {"psi": "-1", "kPa": "-5"})
        _section(unit, "tires")[axle] = tires

    return apply


def _fill(section: str, field: str) -> Callable[[Spec, Spec, int], None]:
    def apply(unit: Spec, whole: Spec, which: int) -> None:
        steps = {"qt": "0.5", "L": "0.5"}
        _section(unit, section)[field] = _moved(whole[section][field], which, steps)

    return apply


def _moved(value: Any, which: int, steps: Mapping[str, str]) -> str:  # noqa: ANN401 -- as typed()
    number, measure = typed(value).split()
    moved = f"{Decimal(number) + which * Decimal(steps[measure])}"
    return f"{moved.removesuffix('.0')} {measure}"


def _section(unit: Spec, name: str) -> Spec:
    section = unit.setdefault(name, {})
    if not isinstance(section, dict):
        raise TypeError(f"{name}: {section}")
    return section


def _merged(below: Spec, above: Spec) -> Spec:
    """Return *above* over *below*, as a unit stands over its model; neither is changed later."""
    merged = {name: _copied(value) for name, value in below.items()}
    for name, value in above.items():
        under = merged.get(name)
        if isinstance(value, dict) and isinstance(under, dict) and "value" not in value:
            merged[name] = _merged(under, value)
        else:
            merged[name] = _copied(value)
    return merged


def _copied(value: Any) -> Any:  # noqa: ANN401 -- as typed()
    if isinstance(value, dict):
        return _merged({}, value)
    return list(value) if isinstance(value, list) else value
