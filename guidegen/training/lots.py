"""Lots that fall the same way everywhere.

Takes in a seed and names; gives out orders of them, by SHA-256 of seed and name.
Refuses the state of a random number generator: its sequence may change with the Python, and one
more name at the front would change every draw after it. Here each name has its own lot, so the
order of some names never depends on which others there are, nor on the order they come in.
"""

import hashlib
import struct
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from operator import itemgetter
from typing import Any, TypeVar

T = TypeVar("T")

# Parts names: no seed, id or text holds it, so that two draws never read alike.
_PARTING = "\x00"
_DIGEST = 32
_SHORT = 4
"""Bytes: two of a thousand things have the same lot once in some ten thousand draws, and then
go by their names."""

_OF_A_DIGEST = _DIGEST // _SHORT
_CUT = struct.Struct(f">{_OF_A_DIGEST}I").unpack
"""A digest as whole numbers, each of `_SHORT` bytes, the greatest byte first."""

_NO_LOT = 1 << 8 * _SHORT
_PARTING_BYTE = _PARTING.encode()


@dataclass(frozen=True, slots=True)
class Lots:
    """All draws that share a seed."""

    seed: str

    def lot(self, *names: str) -> int:
        """Return the lot of *names*: a whole number below 2**256, each as likely as the other."""
        text = _PARTING.join((self.seed, *names))
        return int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest(), "big")

    def shuffled(self, things: Iterable[T], name: Callable[[T], str], draw: str) -> list[T]:
        """Return *things* in an order in which each is as likely as any other.

        Args:
            things: Of different names.
            name: Names one of them.
            draw: Names the draw: the same things fall otherwise in another draw.
        """
        begun = hashlib.sha256(_PARTING.join((self.seed, draw, "")).encode("utf-8"))
        lots = []
        for thing in things:
            called = name(thing)
            whole = begun.copy()
            whole.update(called.encode("utf-8"))
            lots.append((whole.digest(), called, thing))
        lots.sort(key=itemgetter(0, 1))
        return [thing for _, _, thing in lots]

    def weighed(
        self, things: Iterable[T], name: Callable[[T], str], weight: Callable[[T], int], draw: str
    ) -> list[T]:
        """Return *things* in an order in which heavier ones tend to come first.

        Each thing holds as many lots as it weighs and counts with its lowest: the first is then
        drawn with a chance in proportion to its weight, the second likewise among the others, and
        so on, reckoned in whole numbers only.

        Args:
            things: Of different names.
            name: Names one of them.
            weight: Weighs one of them; a thing without weight is left out.
            draw: Names the draw.
        """
        begun = hashlib.sha256(_PARTING.join((self.seed, draw, "")).encode("utf-8"))
        lots = []
        for thing in things:
            count = weight(thing)
            if count > 0:
                called = name(thing)
                lots.append((_lowest(begun, called.encode("utf-8"), count), called, thing))
        lots.sort(key=itemgetter(0, 1))
        return [thing for _, _, thing in lots]


def _lowest(begun: Any, name: bytes, count: int) -> int:  # noqa: ANN401 -- hashlib names no type
    """Return the lowest of *count* lots of `_SHORT` bytes: one digest is cut into several."""
    lowest = _NO_LOT
    for first in range(0, count, _OF_A_DIGEST):
        whole = begun.copy()
        whole.update(b"%s%s%d" % (name, _PARTING_BYTE, first))
        lowest = min(lowest, *_CUT(whole.digest())[: count - first])
    return lowest
