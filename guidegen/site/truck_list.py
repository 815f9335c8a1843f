"""The trucks of a large fleet for the finder's script.

Takes in one line a truck; gives out a table of them as JSON, small enough for ten thousand.
Refuses to repeat itself: names, bodies and yards stand once and are pointed at.
"""

import json
from collections.abc import Iterable

from guidegen.guide.counting_order import in_counting_order
from guidegen.site.truck_line import TruckLine

LIST_PATH = "trucks.json"
"""From the root of the site."""


class _Words:
    """Texts in the order in which they were first met."""

    def __init__(self) -> None:
        self.places: dict[str, int] = {}

    def place(self, text: str) -> int:
        """Return where *text* stands."""
        return self.places.setdefault(text, len(self.places))


def truck_list(trucks: Iterable[TruckLine]) -> bytes:
    """Return *trucks*, sorted by number as people count, as JSON.

    Of each there is a row of number, plate, and its places in ``names``, ``bodies`` and ``yards``.
    """
    names, bodies, yards = _Words(), _Words(), _Words()
    rows = [
        [
            truck.number,
            truck.plate,
            names.place(truck.name),
            bodies.place(truck.body),
            yards.place(truck.yard),
        ]
        for truck in sorted(trucks, key=lambda each: in_counting_order(each.number))
    ]
    table = {
        "names": list(names.places),
        "bodies": list(bodies.places),
        "yards": list(yards.places),
        "trucks": rows,
    }
    return json.dumps(table, ensure_ascii=False, separators=(",", ":")).encode()
