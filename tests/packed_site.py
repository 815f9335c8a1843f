"""The site written by hand, with packs, a worker and a manifest written by hand too.

Hashes come from `hashlib` and ids from lines as `sha256sum` prints them; nothing comes from the
code that packs sites.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import replace

from hand_made_site import Site, revision_in_bar, site_with_revisions

MANIFEST: Mapping[str, object] = {
    "id": "./index.html",
    "name": "Truck guides",
    "short_name": "Trucks",
    "description": "Guides",
    "lang": "en",
    "dir": "ltr",
    "start_url": "./index.html?open=last",
    "scope": "./",
    "display": "standalone",
    "background_color": "#222222",
    "theme_color": "#222222",
    "icons": [{"src": "assets/a.svg", "sizes": "any", "type": "image/svg+xml", "purpose": "any"}],
}


def packed_site() -> Site:
    """Return the hand-made site with all that tablets keep trucks by."""
    site = site_with_revisions()
    files = dict(site.files)
    files["assets/a.svg"] = b'<svg xmlns="http://www.w3.org/2000/svg"/>'
    files["offline.html"] = (
        b"<!doctype html><html><head><title>x</title></head><body></body></html>"
    )
    files["app.webmanifest"] = json.dumps(MANIFEST).encode()
    shared = [path for path in files if path.startswith("assets/")]
    for guide in site.guides:
        own = [path for path in files if path.startswith(f"{guide.number}/")]
        files[f"{guide.number}/pack.json"] = pack_of(
            files, [*own, *shared], guide.number, revision_in_bar(guide.number)
        )
    numbers = {guide.number for guide in site.guides}
    fleets = [path for path in files if path.partition("/")[0] not in numbers]
    files["pack.json"] = pack_of(files, fleets, "", "")
    files["sw.js"] = f'const SHELL = "{json.loads(files["pack.json"])["id"]}";'.encode()
    return replace(site, files=files, has_packs=True)


def pack_of(files: Mapping[str, bytes], paths: Iterable[str], unit: str, revision: str) -> bytes:
    """Return the list of the files at *paths*."""
    listed = [
        {
            "path": path,
            "bytes": len(files[path]),
            "sha256": hashlib.sha256(files[path]).hexdigest(),
        }
        for path in sorted(paths)
    ]
    return with_id({"format": 1, "unit": unit, "revision": revision, "files": listed})


def with_id(pack: Mapping[str, object]) -> bytes:
    """Return *pack* as bytes with the id and the size that belong to its list."""
    files = pack["files"]
    assert isinstance(files, list)
    lines = "".join(f"{each['sha256']}  {each['path']}\n" for each in files)
    of_list = hashlib.sha256(lines.encode()).hexdigest()
    size = sum(each["bytes"] for each in files)
    named = {**pack, "id": of_list, "bytes": size, "revision": pack["revision"] or of_list[:8]}
    return json.dumps(named).encode()
