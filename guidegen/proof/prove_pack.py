"""The pack of one truck, held against its files as they were read back.

Takes in number and revision, files and what all packs share; gives out failures: files that the
pack leaves out, holds too many or states otherwise than they are, and pages of it that load what
it does not keep. Refuses a pack of which one byte of one file is not accounted for.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.model import Counts, Failure
from guidegen.proof.read_pack import (
    PACK_FILE,
    PackedRead,
    PackRead,
    file_as_it_is,
    id_of,
    loaded_by,
    read_pack,
)

OWN_FOLDER = "./"
"""Begins paths in the folder of a page's own unit."""

_FIX = "build the site anew; if it comes back, guidegen packs the wrong files"


@dataclass(frozen=True, slots=True)
class PackVerdict:
    """What the proof found of one pack."""

    counts: Counts
    failures: tuple[Failure, ...]


NO_PACK = PackVerdict(Counts(), ())


def prove_pack(
    unit: tuple[str, str],
    files: Mapping[str, bytes],
    wanted: Iterable[str],
    shell: Mapping[str, PackedRead],
) -> PackVerdict:
    """Hold the pack of a unit against its files; what its pages load is looked at elsewhere.

    Args:
        unit: Its number, and which revision its guide is.
        files: All files in the unit's folder, by path from the root of the site.
        wanted: Paths of those that a driver reads without signal.
        shell: What pages of all trucks load, by path.
    """
    number, _ = unit
    path = f"{number}/{PACK_FILE}"
    raw = files.get(path)
    if raw is None:
        return NO_PACK  # that it is not there has been said
    pack = read_pack(raw)
    if pack is None:
        what = "is no list of files in the form that tablets know"
        return PackVerdict(Counts(), (Failure(rules.PAGE_NOT_READABLE, number, path, what, _FIX),))
    kept = {name: file_as_it_is(name, files[name]) for name in wanted if name in files}
    failures = [
        Failure(rule, number, path, what, _FIX)
        for rule, what in (
            *_compare_head(pack, *unit),
            *compare_list(pack, {**kept, **shell}),
        )
    ]
    return PackVerdict(Counts(packed=len(pack.files)), tuple(failures))


def compare_list(pack: PackRead, due: Mapping[str, PackedRead]) -> Iterator[tuple[Rule, str]]:
    """Yield what is wrong with the list of *pack*, which must be *due*: rule and words.

    Args:
        pack: As it was read.
        due: The files as they are, by path.
    """
    listed = pack.paths
    for path in sorted(set(due) - listed):
        yield rules.PACK_INCOMPLETE, f"does not list `{path}`"
    for path in sorted(listed - set(due)):
        yield rules.PACK_TOO_MANY, f"lists `{path}`, which does not belong to it"
    for file in pack.files:
        if file.path in due and file != due[file.path]:
            yield rules.PACK_DIFFERS, f"states another size or hash of `{file.path}` than it has"
    if [file.path for file in pack.files] != sorted(listed):
        yield rules.PACK_DIFFERS, "lists a file twice, or out of order"
    if pack.id != id_of(pack.files):
        yield rules.PACK_DIFFERS, "has an id that is not the hash of its list"
    if pack.size != sum(file.size for file in pack.files):
        yield rules.PACK_DIFFERS, f"says that it has {pack.size} bytes"


def _compare_head(pack: PackRead, number: str, revision: str) -> Iterator[tuple[Rule, str]]:
    if pack.unit != number:
        yield rules.IDENTITY_DIFFERS, f"says that it is of `{pack.unit}`"
    if pack.revision != revision:
        yield rules.IDENTITY_DIFFERS, f"says that it is of revision `{pack.revision}`"


def not_kept(
    number: str, loads: Mapping[str, Iterable[str]], shell: Mapping[str, PackedRead]
) -> Iterator[Failure]:
    """Yield failures for what pages load and the pack of their unit does not keep.

    Args:
        number: Of the unit.
        loads: What each file that is kept loads, by its path in the unit's folder, in the form of
            `FileVerdict.loads`.
        shell: What pages of all trucks load, by path.
    """
    path = f"{number}/{PACK_FILE}"
    for page, targets in loads.items():
        for target in targets:
            is_own = target.startswith(OWN_FOLDER)
            if (target.removeprefix(OWN_FOLDER) if is_own else target) not in (
                loads if is_own else shell
            ):
                loaded = target.replace(OWN_FOLDER, f"{number}/", 1)
                what = f"`{number}/{page}` loads `{loaded}`, which is not kept"
                yield Failure(rules.PACK_INCOMPLETE, number, path, what, _FIX)


def loaded_in(number: str, path: str, raw: bytes) -> tuple[str, ...]:
    """Return what the page *raw* of the unit *number* loads, in the form of `FileVerdict.loads`."""
    folder = f"{number}/"
    return tuple(
        OWN_FOLDER + target.removeprefix(folder) if target.startswith(folder) else target
        for target in loaded_by(f"{folder}{path}", raw)
    )
