"""Which facts follow from which others.

Takes in the catalog; gives out, for each fact that can be worked out, what it is worked out of.
Refuses to work anything out: `guidegen.units.derive` does, and a test holds the two together.
"""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.specs.profile import FACTS
from guidegen.units.cords import CORDS

_CURRENT_OF = ("block_heater.power", "block_heater.voltage")


def _all() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {"block_heater.current": _CURRENT_OF}
    for name, field in FACTS.items():
        if name.startswith("tires.") and name.endswith(".no_fill_pressure"):
            found[name] = (f"{field.section}.cold_pressure",)
    for cord in CORDS:
        for name in (f"block_heater.{cord}", f"block_heater.{cord}_gauge"):
            found[name] = ("block_heater.current", "block_heater.voltage")
    return found


FOLLOWS_FROM: Mapping[str, tuple[str, ...]] = MappingProxyType(_all())
"""By dotted name of the fact, the facts that it follows from when nobody has stated it itself."""
