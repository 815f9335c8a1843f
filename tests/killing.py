"""Killing a command of guidegen for real, at random moments, many times and cheaply.

For each kill this process is forked; the copy runs the command line's own entry and gets SIGKILL
after a time that is drawn. Nothing that clears up runs in a process that is killed so.

A *whole* run does all that the command does. Most runs are *ready*: what the command only reads
was read before, by the very functions that it calls, for this very state of the folder. What is
left is mostly what it writes, so that most kills fall there.
"""

import gc
import random
import threading
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from forked_run import ForkedRun, run_here
from read_before import Reader, Writer

LONGER, SHORTER = 1.02, 0.94
"""How the time within which a run is killed changes after one that was running, and after one that
had come to its end: a fourth comes to its end, however loaded the machine is."""

IN_WRITING = 0.75
"""Share of the kills for which the clock starts where the command begins to write."""

ON_TOP = 0.25
"""Share of the kills after which nothing is put back: the next run finds what this one left."""

MOST_RUNS = 10
"""Runs for each kill that is wanted; more would come to no end."""

Again = Callable[..., None]
"""Runs the command line with these arguments to its end, which must be a good one."""


class Scene(Protocol):
    """One command with what is before it, and what must hold after it."""

    readers: tuple[Reader, ...]
    writer: Writer

    def get_ready(self, again: Again) -> None:
        """Let the readers read in each state that a kill can leave."""

    def reset(self, lots: random.Random) -> None:
        """Put everything back as it was before the command."""

    def arguments(self) -> tuple[str, ...]:
        """Return what is typed."""

    def look(self) -> str:
        """Check what people see now, and say in a word what that is: ``new`` if all is done."""

    def follow(self, again: Again) -> None:
        """Run what is run next, and check that all is as after a run that was never killed."""

    def state(self) -> object:
        """Return all that the command can have changed, as it stands."""


@dataclass(frozen=True)
class Told:
    """What came of the kills of one command."""

    hits: int
    whole: int
    """Of them, in runs that did all that the command does."""

    writing: int
    """Of them, after the command had begun to write."""

    on_top: int
    """Of them, in runs that found what another kill had left."""

    missed: int
    """Runs that came to their end before they were killed."""

    seen: dict[str, int]
    """What people saw after a kill, and after how many."""

    states: int
    """In how many states kills left the folder."""

    seconds: float


@dataclass
class Killer:
    """Runs one command again and again and kills it."""

    scene: Scene
    said: Path
    """File for what the command prints."""

    lots: random.Random
    number: int = 0
    """Of the run, for whoever looks for a fault."""

    spans: dict[tuple[bool, bool], float] = field(default_factory=dict)
    """Seconds within which whole runs and ready ones are killed, from the beginning and from where
    they begin to write."""

    counted: Counter[str] = field(default_factory=Counter)
    seen: Counter[str] = field(default_factory=Counter)
    states: set[object] = field(default_factory=set)
    followed: set[object] = field(default_factory=set)
    """States after which what comes next did all that it does, too."""

    def kill(self, wanted: int, whole: int) -> Told:
        """Kill *wanted* runs, of which *whole* are whole ones; check after each."""
        begun = time.monotonic()
        self._get_ready()
        self._measure()
        order = [True] * whole + [False] * (wanted - whole)
        self.lots.shuffle(order)
        is_on_top = False
        while order:
            if not is_on_top:
                self.scene.reset(self.lots)
            self.number += 1
            assert self.number <= MOST_RUNS * wanted, f"{self.counted}"
            if not self._is_killed(is_whole=order[-1]):
                self.counted["missed"] += 1
                assert self.scene.look() == "new"
                is_on_top = False
                continue
            is_whole = order.pop()
            self.counted["whole"] += is_whole
            self.counted["on top"] += is_on_top
            self.seen[self.scene.look()] += 1
            self.states.add(self.scene.state())
            is_on_top = bool(order) and self.lots.random() < ON_TOP
            if not is_on_top:
                self._follow(is_whole=is_whole)
        return Told(
            hits=wanted,
            whole=self.counted["whole"],
            writing=self.counted["writing"],
            on_top=self.counted["on top"],
            missed=self.counted["missed"],
            seen=dict(sorted(self.seen.items())),
            states=len(self.states),
            seconds=time.monotonic() - begun,
        )

    def again(self, *arguments: str) -> None:
        """Run the command line with *arguments* to its end."""
        self._begin(*arguments).end()

    def _follow(self, *, is_whole: bool) -> None:
        """Check that all can still be done; once for each state by a whole run."""
        state = self.scene.state()
        self._set_ready(is_ready=not is_whole or state in self.followed)
        if is_whole:
            self.followed.add(state)
        self.scene.follow(self.again)

    def _begin(self, *arguments: str) -> ForkedRun:
        return ForkedRun.begin(arguments, self.scene.writer, self.said)

    def _get_ready(self) -> None:
        for reader in self.scene.readers:
            reader.is_filling = True
        begun = time.monotonic()
        self.scene.get_ready(run_here)
        self.spans[True, False] = self.scene.writer.begun - begun
        for reader in self.scene.readers:
            reader.is_filling = False
        # A copy that looked for cycles among all that is here would copy it page by page.
        gc.collect()
        gc.freeze()
        assert threading.active_count() == 1, "a copy of this process would hang"

    def _set_ready(self, *, is_ready: bool) -> None:
        for reader in self.scene.readers:
            reader.is_ready = is_ready

    def _measure(self) -> None:
        self._set_ready(is_ready=True)
        self.scene.reset(self.lots)
        begun = time.monotonic()
        run = self._begin(*self.scene.arguments())
        assert run.begins_to_write()
        writing = time.monotonic()
        run.end()
        self.spans[False, False] = writing - begun
        self.spans[False, True] = self.spans[True, True] = time.monotonic() - writing

    def _is_killed(self, *, is_whole: bool) -> bool:
        """Run the command and kill it; say whether it was still running."""
        self._set_ready(is_ready=not is_whole)
        waits, moment = self.lots.random() < IN_WRITING, self.lots.random()
        run = self._begin(*self.scene.arguments())
        waited = waits and run.begins_to_write()
        time.sleep(moment * self.spans[is_whole, waits])
        is_hit, is_writing = run.kill()
        is_writing |= waited
        self.counted["writing"] += is_hit and is_writing
        is_early = is_hit and is_writing == waits
        self.spans[is_whole, waits] *= LONGER if is_early else SHORTER
        return is_hit
