"""From an old site to a new one that differs from it in a few trucks.

Takes in a folder of finished and proved folders and files beside the site; gives out the site with
these in their places. Refuses to show half a truck: each folder takes its place in one move, and
what was begun is finished by the next run, from a plan that is written before the first move.
"""

import json
import os
import shutil
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Self

from guidegen.build.switch import exchange, old_folder, recover, staging_folder

_PLAN = "{}.patch.json"


@dataclass(frozen=True, slots=True)
class PlannedMove:
    """One folder or file of the site that is replaced, added or taken away."""

    name: str
    """In the root of the site."""

    new: int | None
    """Number of the new file or folder in the file system; none if it is only taken away."""


@dataclass(frozen=True, slots=True)
class Patch:
    """What is about to change in a site, in this order."""

    moves: tuple[PlannedMove, ...]

    @classmethod
    def of(cls, staged: Path, names: Iterable[str], gone: Iterable[str]) -> Self:
        """Return the patch that puts *names* of *staged* in place and takes *gone* away."""
        put = (PlannedMove(name, (staged / name).stat().st_ino) for name in names)
        return cls((*put, *(PlannedMove(name, None) for name in gone)))


def plan_file(target: Path) -> Path:
    """Return where the plan of a patch of *target* stands while it is carried out."""
    return target.with_name(_PLAN.format(f".{target.name}"))


def _unfinished_plan(target: Path) -> Path:
    return target.with_name(_PLAN.format(f".{target.name}") + ".new")


def apply_patch(patch: Patch, staged: Path, target: Path) -> None:
    """Carry out *patch*: what stands in *staged* takes its place in *target*.

    Raises:
        OSError: If something cannot be moved; the next run of `finish_patch` tries again.
    """
    unfinished = _unfinished_plan(target)
    unfinished.write_text(json.dumps([asdict(each) for each in patch.moves]), encoding="utf-8")
    unfinished.replace(plan_file(target))
    _carry_out(patch, staged, target)


def finish_patch(target: Path) -> bool:
    """Finish a patch of *target* that was cut short; say whether there was one."""
    plan = plan_file(target)
    if not plan.is_file():
        return False
    _carry_out(Patch(_planned(plan)), staging_folder(target), target)
    return True


def _planned(plan: Path) -> tuple[PlannedMove, ...]:
    try:
        return tuple(PlannedMove(**each) for each in json.loads(plan.read_bytes()))
    except (TypeError, ValueError):
        # Power went before its bytes were on the disk: whatever was moved is whole, and the run
        # that has asked makes the rest anew.
        return ()


def _carry_out(patch: Patch, staged: Path, target: Path) -> None:
    old = old_folder(target)
    old.mkdir(exist_ok=True)
    for move in patch.moves:
        _move(move, staged, target, old)
    plan_file(target).unlink()
    for leftover in (staged, old):
        if leftover.exists():
            shutil.rmtree(leftover)


def _move(move: PlannedMove, staged: Path, target: Path, old: Path) -> None:
    new, there, away = staged / move.name, target / move.name, old / move.name
    is_there = os.path.lexists(there)
    if move.new is None:
        if is_there:
            there.rename(away)
        return
    # A swap that was cut short leaves the old one where the new one was.
    if not new.exists() or new.stat().st_ino != move.new:
        return
    if new.is_file() and not there.is_dir():
        new.replace(there)
    elif not is_there:
        new.rename(there)
    elif not exchange(new, there):
        there.rename(away)
        new.rename(there)


def is_in_order(target: Path) -> bool:
    """Whether no run that was cut short has left anything that `clear_up` would act on."""
    left = (plan_file(target), staging_folder(target), old_folder(target))
    return not any(path.exists() for path in left)


def clear_up(target: Path) -> None:
    """Finish or undo what a run that was cut short has left at and beside *target*."""
    _unfinished_plan(target).unlink(missing_ok=True)
    finish_patch(target)
    recover(target)
