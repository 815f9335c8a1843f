"""When Python looks for what nobody needs any more.

Takes in nothing; gives out a stretch of work in which it does not look. Refuses to stay off: work
that goes on for long has cycles to be freed.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


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
