"""What a fleet recorded too long ago.

Takes in a fleet and the day; gives out the values that are to be checked again.
Refuses to look at each truck: those that state the same recorded it on the same days, so that the
others are read only where one of them has something to check.
"""

from collections.abc import Iterator

from guidegen.build.load import Loaded
from guidegen.gaps.recheck import Old, old_values
from guidegen.units.model import Unit


def old_in(loaded: Loaded, today: str) -> tuple[Old, ...]:
    """Return what the fleet *loaded* recorded too long ago, as `old_values` finds it.

    Args:
        loaded: The fleet.
        today: The day, as ``2026-11-30``.
    """
    return old_values(_units_with_any(loaded, today), loaded.fleet.recheck_months, today)


def _units_with_any(loaded: Loaded, today: str) -> Iterator[Unit]:
    units, months = loaded.units, loaded.fleet.recheck_months
    found: dict[tuple[str, str], bool] = {}
    for number, record in units.records.items():
        # Who recorded what and when is in the signature, of a truck's own values too.
        alike = record.model, record.signature
        if alike not in found:
            found[alike] = bool(old_values((units[number],), months, today))
        if found[alike]:
            yield units[number]
