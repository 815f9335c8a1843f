"""When Python looks for what nobody needs any more.

Takes in nothing; gives out a stretch of work in which it does not look. Refuses to stay off: work
that goes on for long has cycles to be freed.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count


@contextmanager
def paused() -> Iterator[None]:
    """Do not look for cycles within: what is made there lives on, and looking takes a fifth."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def look_no_more() -> None:
    """Do not look for cycles from here on: the process does one thing, and ends."""
    gc.disable()


def leave_all() -> None:
    """Leave all that is there to the end of the process, which would look through it once more."""
    gc.freeze()


def look_as_usual() -> None:
    """Look from here on, whatever is paused: the process goes on for long."""
    gc.enable()


_SELDOM, _YOUNG = 16, 1
_calls = count(1)


def look_seldom() -> None:
    """Look for what nobody needs, in what is new, each sixteenth time; in all, each 256th.

    For processes that do not look by themselves: most of what a task leaves is gone by then, and
    is not gone through.
    """
    call = next(_calls)
    if call % (_SELDOM * _SELDOM) == 0:
        gc.collect()
    elif call % _SELDOM == 0:
        gc.collect(_YOUNG)
