"""What makes the site an app that opens without a network.

Takes in the theme's service worker and manifest; gives out those of one site.
Refuses a worker without the marks that are filled: it would never notice that the shell is new.
"""

import json

WORKER_FILE = "sw.js"
STORE_FILE = "assets/javascripts/pack-store.js"
MANIFEST_FILE = "app.webmanifest"

_STORE_MARK = "/* @@guidegen-pack-store@@ */"
_SHELL_MARK = "@@guidegen-shell@@"


class WorkerFault(ValueError):
    """The theme's service worker does not have the marks that it must have."""


def fill_worker(template: str, store: str, shell: str) -> bytes:
    """Return the service worker of one site.

    The store of packs is put into it rather than imported: a worker and a store of two issues
    would be a third that nobody has tested.

    Args:
        template: The theme's worker, with a mark each for the store and the shell's id.
        store: The script that reads and writes packs.
        shell: Id of the pack of the fleet's own pages; with it the worker is another file
            whenever the shell is another.

    Raises:
        WorkerFault: If a mark is not there exactly once.
    """
    for mark in (_STORE_MARK, _SHELL_MARK):
        if template.count(mark) != 1:
            raise WorkerFault(f"`{mark}` stands in it {template.count(mark)} times, not once")
    return template.replace(_SHELL_MARK, shell).replace(_STORE_MARK, store).encode()


def name_app(manifest: bytes, fleet_name: str) -> bytes:
    """Return the theme's web app manifest with the fleet's name in it."""
    members = json.loads(manifest)
    members["name"] = f"{members['name']}, {fleet_name}" if fleet_name else members["name"]
    return (json.dumps(members, ensure_ascii=False, indent=2) + "\n").encode()
