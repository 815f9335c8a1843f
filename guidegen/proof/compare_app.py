"""What makes the site an app: the fleet's own pack, the service worker, the manifest, the icons.

Takes in a reader of files and what is known of the site; gives out failures. Refuses scripts at
places where none belongs: one in the root could answer for every page of every truck.
"""

import json
from collections.abc import Iterator, Mapping

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.claims import SEARCH_DATA_PATH
from guidegen.proof.compare_fleet_page import FLEET_PAGE
from guidegen.proof.fleet_claims import FleetClaims, Read
from guidegen.proof.links import find_outside, is_relative, resolve_address
from guidegen.proof.model import Failure
from guidegen.proof.prove_pack import compare_list
from guidegen.proof.read_pack import (
    ASSETS,
    PACK_FILE,
    WORKER_FILE,
    file_as_it_is,
    loaded_by,
    of_no_truck,
    read_pack,
)

MANIFEST_FILE = "app.webmanifest"
OFFLINE_PAGE = "offline.html"
"""What opens instead of a page that neither network nor tablet has."""

_FIX = "build the site anew; if it comes back, the theme's app files are not guidegen's"
_SCRIPTS = (".js", ".mjs", ".webmanifest", ".wasm")
_MEMBERS = frozenset(
    {
        *("id", "name", "short_name", "description", "lang", "dir", "start_url", "scope"),
        *("display", "background_color", "theme_color", "icons"),
    }
)
"""Of the Web Application Manifest (W3C), all that the app's has."""

_ICON_MEMBERS = frozenset({"src", "sizes", "type", "purpose"})


def compare_app(read: Read, fleet: FleetClaims) -> Iterator[Failure]:
    """Yield what is wrong with the files that make the site an app."""
    for path, rule, what in (
        *_compare_shell(read, fleet),
        *_compare_worker(read),
        *_compare_manifest(read, fleet),
        *_stray_scripts(read, fleet),
    ):
        yield Failure(rule, "", path, what, _FIX)


Fault = tuple[str, Rule, str]
"""Path, rule and words."""


def _compare_shell(read: Read, fleet: FleetClaims) -> Iterator[Fault]:
    raw = read(PACK_FILE)
    pack = read_pack(raw) if raw is not None else None
    if pack is None:
        yield PACK_FILE, rules.PAGE_MISSING, "is no list of the fleet's own pages"
        return
    due = {
        path: file_as_it_is(path, read(path) or b"")
        for path in of_no_truck(fleet.paths, fleet.numbers)
    }
    if OFFLINE_PAGE not in due:
        yield OFFLINE_PAGE, rules.PAGE_MISSING, "is not there"
    if pack.unit:
        yield PACK_FILE, rules.IDENTITY_DIFFERS, f"says that it is of `{pack.unit}`"
    if pack.revision != pack.id[: len(pack.revision)] or not pack.revision:
        yield PACK_FILE, rules.IDENTITY_DIFFERS, f"says that it is of revision `{pack.revision}`"
    for rule, what in compare_list(pack, due):
        yield PACK_FILE, rule, what


def _compare_worker(read: Read) -> Iterator[Fault]:
    raw, listed = read(WORKER_FILE), read(PACK_FILE)
    if raw is None:
        yield WORKER_FILE, rules.PAGE_MISSING, "is not there"
        return
    text = raw.decode("utf-8", "replace")
    pack = read_pack(listed) if listed is not None else None
    if pack is not None and text.count(f'"{pack.id}"') != 1:
        yield WORKER_FILE, rules.APP_FILE_DIFFERS, "is not of the fleet's pages that stand here"
    if "@@" in text or "importScripts" in text:
        yield WORKER_FILE, rules.APP_FILE_DIFFERS, "asks for something that is not in it"
    for address in find_outside(text):
        yield WORKER_FILE, rules.REQUEST_TO_OTHER_ORIGIN, f"holds `{address}`"


def _compare_manifest(read: Read, fleet: FleetClaims) -> Iterator[Fault]:
    manifest = _json_object(read(MANIFEST_FILE))
    if manifest is None:
        yield MANIFEST_FILE, rules.PAGE_MISSING, "is no manifest of an app"
        return
    differs = rules.APP_FILE_DIFFERS
    if set(manifest) != _MEMBERS:
        yield MANIFEST_FILE, differs, f"has the members {', '.join(sorted(map(str, manifest)))}"
        return
    for name, wanted in (("scope", "."), ("start_url", "index.html"), ("id", "index.html")):
        address = str(manifest[name])
        if not is_relative(address) or resolve_address(MANIFEST_FILE, address)[0] not in (
            wanted,
            f"{wanted}/",
        ):
            yield MANIFEST_FILE, differs, f"has the {name} `{address}`"
    icons = manifest["icons"]
    for icon in icons if isinstance(icons, list) and icons else [None]:
        address = str(icon["src"]) if isinstance(icon, dict) and "src" in icon else ""
        known = isinstance(icon, dict) and set(icon) == _ICON_MEMBERS and is_relative(address)
        if not known or resolve_address(MANIFEST_FILE, address)[0] not in (fleet.shell or {}):
            yield (
                MANIFEST_FILE,
                differs,
                f"names the icon `{address}`, which the site does not have",
            )


def _json_object(raw: bytes | None) -> Mapping[str, object] | None:
    try:
        read = json.loads((raw or b"").decode("utf-8"))
    except ValueError:
        return None
    return read if isinstance(read, dict) else None


def _stray_scripts(read: Read, fleet: FleetClaims) -> Iterator[Fault]:
    pages = (FLEET_PAGE, *(f"{number}/index.html" for number in sorted(fleet.numbers)[:1]))
    known = {WORKER_FILE, MANIFEST_FILE}
    known.update(path for page in pages for path in loaded_by(page, read(page) or b""))
    # That these are data and nothing else is proved with the truck.
    known.update(f"{number}/{SEARCH_DATA_PATH}" for number in fleet.numbers)
    for path in sorted(fleet.paths - known):
        if path.endswith(_SCRIPTS) and not path.startswith(ASSETS):
            yield path, rules.APP_FILE_DIFFERS, "is a script that no page loads"
