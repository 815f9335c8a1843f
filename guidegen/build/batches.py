"""Which units one process makes before it tells what came of them.

Takes in editions and the units that stand; gives out batches of the others. Refuses to split what
belongs together: units of one edition, and few editions of one model, make a batch, since much of
what one process has drawn and proved of the first serves the others.
"""

from collections.abc import Collection, Container, Iterable, Iterator
from itertools import chain, groupby, islice

from guidegen.build.unit_guides import EditionUnits
from guidegen.build.unit_press import Batch

_MOST_IN_BATCH = 64
"""Units that one process makes before it tells what came of them."""

_MOST_EDITIONS = 4
"""Editions that one process makes before it does: a few, so that none waits long for the last."""

_FEWEST_BATCHES = 16
"""Batches at least, if there are as many editions: enough for all processes to have their share."""


def batches_of(editions: Collection[EditionUnits], standing: Container[str]) -> Iterator[Batch]:
    """Yield the units of *editions* in batches, but for those that are *standing*.

    Args:
        editions: All of a fleet.
        standing: Numbers of units that need not be made.
    """
    most = max(1, min(_MOST_EDITIONS, len(editions) // _FEWEST_BATCHES))
    for _, of_model in groupby(sorted(editions, key=_model_of), key=_model_of):
        left = [
            [number for number in edition.numbers if number not in standing] for edition in of_model
        ]
        for together in _together(filter(None, left), most):
            numbers = iter(together)
            while batch := tuple(islice(numbers, _MOST_IN_BATCH)):
                yield batch


def _model_of(edition: EditionUnits) -> str:
    return edition.records[0].model


def _together(editions: Iterable[list[str]], most: int) -> Iterator[list[str]]:
    """Yield the units of one edition, or of at most *most* that have not many together."""
    waiting: list[list[str]] = []
    for numbers in editions:
        units = sum(map(len, waiting)) + len(numbers)
        if waiting and (len(waiting) == most or units > _MOST_IN_BATCH):
            yield list(chain(*waiting))
            waiting = []
        waiting.append(numbers)
    if waiting:
        yield list(chain(*waiting))
