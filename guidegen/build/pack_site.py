"""From the files of a site to the pack of the fleet's own pages.

Takes in the files that belong to no truck; gives out what makes the site an app: the list of what
tablets keep of them, the worker and the manifest. Refuses a theme without these.
"""

from collections.abc import Iterator, Mapping

from guidegen.build import rules
from guidegen.finding import FaultyInput, Findings
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
from guidegen.site.pack import PACK_FILE, Pack, PackedFile, is_shared

_NOT_PACKED = frozenset({PACK_FILE, WORKER_FILE, *HOST_FILES})
"""Files of the root that would have to hold their own hash, or that a host keeps to itself."""


def shared_files(files: Mapping[str, bytes]) -> tuple[PackedFile, ...]:
    """Return those of *files* that pages of all trucks load, as packs list them.

    Args:
        files: All that belong to no truck and are finished, by path.
    """
    return tuple(
        PackedFile.of(path, raw)
        for path, raw in sorted(files.items())
        if is_shared(path) and path not in _NOT_PACKED
    )


def named_manifest(files: Mapping[str, bytes], fleet_name: str) -> bytes:
    """Return the manifest among *files* with the name of the fleet.

    Raises:
        FaultyInput: If there is none.
    """
    return name_app(_of(files, MANIFEST_FILE), fleet_name)


def pack_shell(files: Mapping[str, bytes]) -> Mapping[str, bytes]:
    """Return the list of the fleet's own pages and the service worker, by path.

    Args:
        files: All that belong to no truck, by path.

    Raises:
        FaultyInput: If the theme has no worker, or one without marks.
    """
    worker, store = (_of(files, name).decode() for name in (WORKER_FILE, STORE_FILE))
    shell = Pack.of("", "", _packed(files))
    try:
        filled = fill_worker(worker, store, shell.id)
    except WorkerFault as fault:
        raise _refused(WORKER_FILE, str(fault)) from fault
    return {PACK_FILE: shell.as_json(), WORKER_FILE: filled}


def _packed(files: Mapping[str, bytes]) -> Iterator[PackedFile]:
    for path, raw in files.items():
        # Without signal the finder has its table; the pages of yards are for who has no script.
        if path not in _NOT_PACKED and not is_yard_page(path):
            yield PackedFile.of(path, raw)


def _of(files: Mapping[str, bytes], name: str) -> bytes:
    if name not in files:
        raise _refused(name, "the theme does not have it")
    return files[name]


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
