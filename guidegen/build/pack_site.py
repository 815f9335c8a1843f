"""From the files of a site to the packs that tablets keep.

Takes in the folder of a site that is still being made; gives out a list in each unit's folder,
one for the fleet's own pages, and the app's worker and manifest. Refuses a theme without them.
"""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from guidegen.build import rules
from guidegen.finding import FaultyInput, Findings
from guidegen.guide.model import Guide
from guidegen.revisions.model import FleetHistory
from guidegen.site.app_files import (
    MANIFEST_FILE,
    STORE_FILE,
    WORKER_FILE,
    WorkerFault,
    fill_worker,
    name_app,
)
from guidegen.site.fleet_page import is_yard_page
from guidegen.site.host_files import HOST_FILES
from guidegen.site.pack import (
    CARDS_FOLDER,
    PACK_FILE,
    Pack,
    PackedFile,
    is_shared,
    unit_pack,
)
from guidegen.site.revision import revision_words

_NOT_PACKED = frozenset({PACK_FILE, WORKER_FILE, *HOST_FILES})
"""Files of the root that would have to hold their own hash, or that a host keeps to itself."""


def pack_site(
    staged: Path, guides: Iterable[Guide], fleet_name: str, history: FleetHistory | None = None
) -> None:
    """Write into *staged* the lists of all packs, the service worker and the manifest.

    Args:
        staged: The site with all its other files.
        guides: Of the units that have a folder there.
        fleet_name: For the name of the app.
        history: What was released of each truck; none where no record is kept.

    Raises:
        FaultyInput: If the theme has no worker or no manifest, or a worker without marks.
    """
    by_number = {guide.number: guide for guide in guides}
    worker, store = _text(staged, WORKER_FILE), _text(staged, STORE_FILE)
    manifest = _text(staged, MANIFEST_FILE).encode()
    (staged / MANIFEST_FILE).write_bytes(name_app(manifest, fleet_name))
    of_no_truck = tuple(_packed(staged, _of_no_truck(staged, by_number)))
    shell = Pack.of("", "", of_no_truck)
    (staged / PACK_FILE).write_bytes(shell.as_json())
    try:
        (staged / WORKER_FILE).write_bytes(fill_worker(worker, store, shell.id))
    except WorkerFault as fault:
        raise _refused(WORKER_FILE, str(fault)) from fault
    revisions = {
        number: revision_words(guide, history.of(number) if history else None)
        for number, guide in by_number.items()
    }
    _pack_units(staged, revisions, [file for file in of_no_truck if is_shared(file.path)])


def _pack_units(staged: Path, revisions: Mapping[str, str], shared: Iterable[PackedFile]) -> None:
    shared = tuple(shared)
    for number, revision in revisions.items():
        folder = staged / number
        # Cards are not read: a tablet does not keep them.
        files = {
            path.relative_to(staged).as_posix(): path.read_bytes()
            for path in _below(folder)
            if path.relative_to(folder).parts[0] not in (CARDS_FOLDER, PACK_FILE)
        }
        (folder / PACK_FILE).write_bytes(unit_pack(number, revision, files, shared))


def _packed(root: Path, paths: Iterable[Path]) -> Iterator[PackedFile]:
    for path in paths:
        yield PackedFile.of(path.relative_to(root).as_posix(), path.read_bytes())


def _of_no_truck(staged: Path, numbers: Iterable[str]) -> Iterator[Path]:
    """Yield the fleet's own pages and all that the site has beside the trucks' folders."""
    left_out = {*numbers, *_NOT_PACKED}
    for path in sorted(staged.iterdir()):
        # Without signal the finder has its table; the pages of yards are for who has no script.
        if path.name not in left_out and not is_yard_page(path.name):
            yield from _below(path) if path.is_dir() else (path,)


def _below(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file())


def _text(staged: Path, name: str) -> str:
    path = staged / name
    if not path.is_file():
        raise _refused(name, "the theme does not have it")
    return path.read_text(encoding="utf-8")


def _refused(name: str, what: str) -> FaultyInput:
    findings = Findings()
    findings.add(
        rules.APP_FILE_FAULTY,
        None,
        what=f"`{name}`: {what}",
        fix="leave `sw.js`, `app.webmanifest` and `assets/javascripts/pack-store.js` in the "
        "theme as guidegen brings them",
        place=f"theme/{name}",
    )
    return FaultyInput(findings)
