"""Packs that leave out, mix, misstate; app files that are gone, foreign or of another issue."""

import json
from collections.abc import Iterator
from typing import Any

from hand_made_site import Site
from packed_site import with_id
from plants.plant import Plant

_INCOMPLETE = frozenset({"pack-incomplete"})
_TOO_MANY = frozenset({"pack-too-many"})
_DIFFERS = frozenset({"pack-differs"})
_UNREADABLE = frozenset({"page-not-readable"})
_IDENTITY = frozenset({"identity-differs"})
_APP = frozenset({"app-file-differs"})
_MISSING = frozenset({"page-missing"})


def files_left_out_of_packs(site: Site, unit: str) -> Iterator[Plant]:
    """Each file of a pack gone from its list, in a list that is sound but for that."""
    path, pack = _pack(site, unit)
    for file in pack["files"]:
        left = [each for each in pack["files"] if each is not file]
        raw = with_id({**pack, "files": left})
        yield Plant(f"without {file['path']}", path, raw, _INCOMPLETE, unit)
    yield Plant("gone", path, None, _MISSING, unit)


def packs_mixed(site: Site, unit: str) -> Iterator[Plant]:
    """Files of other trucks, of the fleet and of nobody in a pack."""
    path, pack = _pack(site, unit)
    other = next(guide.number for guide in site.guides if guide.number != unit)
    _, of_other = _pack(site, other)
    foreign = [each for each in of_other["files"] if each["path"].startswith(f"{other}/")]
    made_up = {"path": f"{unit}/on-fire.html", "bytes": 1, "sha256": "0" * 64}
    for file in (*foreign, made_up):
        files = sorted([*pack["files"], file], key=lambda each: str(each["path"]))
        raw = with_id({**pack, "files": files})
        yield Plant(f"with {file['path']}", path, raw, _TOO_MANY, unit)
    whole = site.files[f"{other}/pack.json"]
    yield Plant(f"that of {other}", path, whole, _IDENTITY | _TOO_MANY, unit)
    for name, value in (("unit", other), ("revision", "00000000")):
        raw = json.dumps({**pack, name: value}).encode()
        yield Plant(f"of another {name}", path, raw, _IDENTITY, unit)


def packs_misstated(site: Site, unit: str) -> Iterator[Plant]:
    """Hashes, sizes and ids that are not those of the files, and lists of another form."""
    path, pack = _pack(site, unit)
    first = pack["files"][0]
    for place, file in enumerate(pack["files"]):
        for changed in ({"sha256": file["sha256"][::-1]}, {"bytes": file["bytes"] + 1}):
            files = list(pack["files"])
            files[place] = {**file, **changed}
            raw = with_id({**pack, "files": files})
            yield Plant(f"{file['path']}: {[*changed]}", path, raw, _DIFFERS, unit)
    for what, changed, rules in (
        ("another id", {"id": "0" * 64}, _DIFFERS),
        ("another size", {"bytes": 7}, _DIFFERS),
        ("a member too many", {"note": "x"}, _UNREADABLE),
        ("another form", {"format": 2}, _UNREADABLE),
        ("a size in words", {"bytes": "7"}, _UNREADABLE),
        ("no list", {"files": {}}, _UNREADABLE),
        ("a file in words", {"files": ["x"]}, _UNREADABLE),
    ):
        raw = json.dumps({**pack, **changed}).encode()
        yield Plant(what, path, raw, rules, unit)
    twice = with_id({**pack, "files": [first, *pack["files"]]})
    yield Plant("a file twice", path, twice, _DIFFERS, unit)
    turned = with_id({**pack, "files": pack["files"][::-1]})
    yield Plant("out of order", path, turned, _DIFFERS, unit)
    yield Plant("no JSON", path, b"{", _UNREADABLE, unit)


def packed_files_changed(site: Site, unit: str) -> Iterator[Plant]:
    """One byte more in a file that a pack lists."""
    _, pack = _pack(site, unit)
    for file in pack["files"]:
        raw = site.files[file["path"]] + b" "
        yield Plant(f"{file['path']} grown", file["path"], raw, _DIFFERS, unit)


def app_files_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The worker, the manifest, the fleet's own pack and scripts of nobody."""
    for path in ("sw.js", "app.webmanifest", "pack.json", "offline.html"):
        yield Plant("gone", path, None, _MISSING, unit)
    worker = site.files["sw.js"]
    yield Plant("of another shell", "sw.js", b'const SHELL = "0";', _APP, unit)
    yield Plant("a mark left over", "sw.js", worker + b"@@x@@", _APP, unit)
    yield Plant("another script", "sw.js", worker + b'importScripts("x.js")', _APP, unit)
    outside = frozenset({"request-to-other-origin"})
    asks = worker + b'fetch("https://example.net/x")'
    yield Plant("asks outside", "sw.js", asks, outside, unit)
    yield Plant("a second worker", "worker.js", b"", _APP | _DIFFERS, unit)
    yield Plant("a second manifest", "old.webmanifest", b"{}", _APP, unit)
    manifest: dict[str, Any] = json.loads(site.files["app.webmanifest"])
    icon = manifest["icons"][0]
    for what, changed in (
        ("another start", {"start_url": f"{unit}/index.html"}),
        ("from the root", {"start_url": "/index.html"}),
        ("outside", {"scope": "https://example.net/"}),
        ("a member too many", {"share_target": {}}),
        ("no icons", {"icons": []}),
        ("an icon that is not there", {"icons": [{**icon, "src": "assets/none.png"}]}),
        ("an icon from outside", {"icons": [{**icon, "src": "https://example.net/a.png"}]}),
    ):
        raw = json.dumps({**manifest, **changed}).encode()
        yield Plant(what, "app.webmanifest", raw, _APP, unit)
    shell: dict[str, Any] = json.loads(site.files["pack.json"])
    left = with_id({**shell, "files": shell["files"][1:]})
    yield Plant("a page left out", "pack.json", left, _INCOMPLETE, unit)
    own = json.loads(site.files[f"{unit}/pack.json"])["files"]
    foreign = next(each for each in own if each["path"].startswith(f"{unit}/"))
    files = sorted([*shell["files"], foreign], key=lambda each: str(each["path"]))
    mixed = with_id({**shell, "files": files})
    yield Plant("a truck's page", "pack.json", mixed, _TOO_MANY, unit)
    named = json.dumps({**shell, "unit": unit}).encode()
    yield Plant("a truck's name", "pack.json", named, _IDENTITY, unit)
    revised = json.dumps({**shell, "revision": "x"}).encode()
    yield Plant("another revision", "pack.json", revised, _IDENTITY, unit)


def pages_that_load_what_is_not_kept(site: Site, unit: str) -> Iterator[Plant]:
    """A page that loads a file which the site has and no tablet keeps."""
    path = f"{unit}/data.html"
    other = next(guide.number for guide in site.guides if guide.number != unit)
    for address in (f"../{other}/pack.json", "../sw.js"):
        raw = site.files[path].replace(
            b"</head>", f'<script src="{address}"></script></head>'.encode(), 1
        )
        yield Plant(f"loads {address}", path, raw, _INCOMPLETE, unit)


def _pack(site: Site, unit: str) -> tuple[str, dict[str, Any]]:
    path = f"{unit}/pack.json"
    return path, json.loads(site.files[path])
