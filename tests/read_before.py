"""What a command reads, read before it runs; and the moment at which it begins to write."""

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from guidegen.finding import Finding, Findings


@dataclass
class Reader:
    """A function that only reads, and what it gave for each state of what it reads."""

    owner: Any
    """Module or class that calls it."""

    name: str
    state: Callable[[], object]
    """Returns what is there to be read."""

    is_filling: bool = False
    """Whether what it gives is kept."""

    is_ready: bool = False
    """Whether what was kept is given, where there is any."""

    _given: dict[object, tuple[object, tuple[Finding, ...]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Stand in for the function."""
        self._real = getattr(self.owner, self.name)
        setattr(self.owner, self.name, self)

    def __call__(self, *given: object) -> object:
        """Return what the function returns, and add the findings that it adds."""
        if not self.is_filling and not self.is_ready:
            return self._real(*given)
        state = self.state()
        if state not in self._given:
            own = Findings()
            got = self._real(*(own if isinstance(each, Findings) else each for each in given))
            self._given[state] = got, tuple(own)
        result, found = self._given[state]
        for each in given:
            if isinstance(each, Findings):
                each.extend(found)
        return result


@dataclass
class Writer:
    """A function with which a command begins to write: says so to whoever waits for it."""

    owner: Any
    """Module or class that calls it."""

    name: str
    told: int = -1
    """Where it says so: the open end of a pipe."""

    begun: float = 0.0
    """When it began for the first time in this process, by the monotonic clock."""

    def __post_init__(self) -> None:
        """Stand in for the function."""
        real = getattr(self.owner, self.name)

        def marked(*given: object, **named: object) -> object:
            self.begun = self.begun or time.monotonic()
            if self.told >= 0:
                os.write(self.told, b"w")
            return real(*given, **named)

        setattr(self.owner, self.name, marked)
