"""Units made by whoever does the work, here or on machines that share nothing with this one.

Takes in the plan of a site and batches of its units; gives out what came of each, its files in the
folder of the plan. Refuses a folder that came back otherwise than it was proved.

Elsewhere, what a worker needs of the project travels as a parcel, and the folder of a unit comes
back as a zip archive in memory, or is left in a folder that this machine and all workers see.
"""

import io
import shutil
import uuid
import zipfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

from guidegen.build.card_proof import read_in
from guidegen.build.cluster import Cluster, NoCluster, Unfit
from guidegen.build.folder_state import folder_state
from guidegen.build.manifest import files_in, joined_lines, lines_of
from guidegen.build.parcel import NOWHERE, CannotTravel, Parcel
from guidegen.build.published import Published
from guidegen.build.unit_made import UnitBroken, UnitMade
from guidegen.build.unit_press import Batch, Result, SitePlan, make_units
from guidegen.build.workers import Done, Lost, Workers

_LEVEL = 1
"""Of deflate: the fastest; higher ones cost far more time than they spare bytes."""

_DATED = (1980, 1, 1, 0, 0, 0)
"""The first day that a zip archive knows."""


@dataclass(frozen=True, slots=True, eq=False)
class SentPlan:
    """A plan as it travels."""

    plan: SitePlan
    """Without its project and its folder."""

    parcel: Parcel
    shared: Path | None
    """A folder that this machine and all workers see, made for one run."""


@dataclass(frozen=True, slots=True)
class FarMade:
    """What came of one unit elsewhere."""

    made: UnitMade | UnitBroken
    archive: bytes
    """Its folder; empty if there is none, or if it is left in the shared folder."""

    left: str
    """Folder below the shared one in which its folder was left; empty if it was not."""


def made_by(
    workers: Workers, plan: SitePlan, batches: Iterable[Batch]
) -> Iterator[Done[Batch, Result]]:
    """Yield what came of each of *batches*, in order; files are then in the folder of *plan*.

    Raises:
        NoCluster: If a cluster is asked for and cannot be used, or is gone.
    """
    if not isinstance(workers, Cluster):
        if plan.published.has_cards:
            read_in()
        yield from workers.run(make_units, plan, batches)
        return
    try:
        parcel = Parcel.of(plan.published.project)
    except CannotTravel as stays:
        raise NoCluster(str(stays)) from stays
    sent = replace(plan, published=_without_places(plan.published), folder=Path())
    with _meeting_place(workers.shared) as shared:
        for done in workers.run(make_far, SentPlan(sent, parcel, shared), batches):
            if isinstance(done.result, Lost):
                yield Done(done.task, done.result)
            else:
                home = tuple(_bring_home(each, plan.folder, shared) for each in done.result)
                yield Done(done.task, home)


def _without_places(published: Published) -> Published:
    """Return it without what is found on this machine alone."""
    return replace(published, project=NOWHERE, store=None)


def make_far(sent: SentPlan, batch: Batch) -> tuple[FarMade, ...]:
    """Return what came of each unit of *batch*; called where nothing of this machine is seen.

    Raises:
        Unfit: If the shared folder is not seen here, or nothing can be written.
    """
    try:
        return tuple(_made_here(sent, batch))
    except OSError as error:
        raise Unfit(f"cannot write what it makes: {error}") from error


def _made_here(sent: SentPlan, batch: Batch) -> Iterator[FarMade]:
    plan = _plan_here(sent)
    for number in batch:
        # A task that was broken off may be tried again in the same process.
        shutil.rmtree(plan.folder / number, ignore_errors=True)
    for each in make_units(plan, batch):
        yield _sent_home(each, plan.folder, is_left=sent.shared is not None)


@lru_cache(maxsize=1)
def _plan_here(sent: SentPlan) -> SitePlan:
    """Return *sent* with a project and a folder of this process."""
    project = sent.parcel.unpacked()
    if sent.shared is None:
        folder = Path(mkdtemp(dir=project.root))
    elif sent.shared.is_dir():
        # A worker that died leaves half a folder: nobody else ever takes its name.
        folder = sent.shared / uuid.uuid4().hex
        folder.mkdir()
    else:
        raise Unfit(
            f"does not see the folder `{sent.shared.parent}`: --shared names one that this machine "
            "and all workers see under the same path, or is left out"
        )
    published = replace(sent.plan.published, project=project)
    return replace(sent.plan, published=published, folder=folder)


def _sent_home(made: UnitMade | UnitBroken, folder: Path, *, is_left: bool) -> FarMade:
    if isinstance(made, UnitBroken):
        return FarMade(made, b"", "")
    if is_left:
        return FarMade(made, b"", folder.name)
    archive = packed(folder / made.number)
    shutil.rmtree(folder / made.number)
    return FarMade(made, archive, "")


def _bring_home(far: FarMade, folder: Path, shared: Path | None) -> UnitMade | UnitBroken:
    """Return what *far* tells, its files in *folder*, looked at again."""
    made = far.made
    if isinstance(made, UnitBroken):
        return made
    home = folder / made.number
    if shared is None:
        with zipfile.ZipFile(io.BytesIO(far.archive)) as archive:
            archive.extractall(home)
    else:
        shutil.move(shared / far.left / made.number, home)
    read = {f"{made.number}/{name}": (home / name).read_bytes() for name in files_in(home)}
    if joined_lines(lines_of(read)) != made.hashes:
        return UnitBroken(made.number, "its files came back otherwise than they were proved")
    return replace(made, state=folder_state(home))


def packed(folder: Path) -> bytes:
    """Return all files of *folder* as a zip archive."""
    raw = io.BytesIO()
    with zipfile.ZipFile(raw, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as archive:
        for name in sorted(files_in(folder)):
            entry = zipfile.ZipInfo(name, _DATED)
            archive.writestr(entry, (folder / name).read_bytes(), zipfile.ZIP_DEFLATED, _LEVEL)
    return raw.getvalue()


@contextmanager
def _meeting_place(shared: Path | None) -> Iterator[Path | None]:
    """Give a new folder in *shared*, and remove it with all that is left in it."""
    if shared is None:
        yield None
        return
    place = shared / f".guidegen-{uuid.uuid4().hex}"
    try:
        place.mkdir()
    except OSError as error:
        raise NoCluster(f"nothing can be written to `{shared}` ({error.strerror})") from error
    try:
        yield place
    finally:
        shutil.rmtree(place, ignore_errors=True)
