import json

import pytest

from guidegen.build.pack_site import named_manifest, pack_shell, shared_files
from guidegen.finding import FaultyInput
from guidegen.site.pack import unit_pack

FILES = {
    "sw.js": b'/* @@guidegen-pack-store@@ */ const SHELL = "@@guidegen-shell@@";',
    "app.webmanifest": b'{"name": "Truck guides"}',
    "index.html": b"list",
    "yard-1.html": b"yard",
    "own.css": b"p {}",
    "house/rules.html": b"rules",
    "_headers": b"for the host",
    "assets/javascripts/pack-store.js": b"store()",
}


def listed(raw: bytes) -> set[str]:
    return {file["path"] for file in json.loads(raw)["files"]}


def test_a_truck_is_packed_with_what_all_pages_load_and_without_its_cards() -> None:
    folder = {"T-17/index.html": b"T-17", "T-17/cards/round.pdf": b"PDF"}

    pack = unit_pack("T-17", "", folder, shared_files(FILES))

    assert listed(pack) == {"T-17/index.html", "own.css", "assets/javascripts/pack-store.js"}


def test_the_fleets_own_pages_are_packed_and_the_worker_is_of_them() -> None:
    made = pack_shell(FILES)

    assert listed(made["pack.json"]) == {
        *("index.html", "house/rules.html", "own.css", "app.webmanifest"),
        "assets/javascripts/pack-store.js",
    }
    shell = json.loads(made["pack.json"])["id"]
    assert made["sw.js"].decode() == f'store() const SHELL = "{shell}";'


def test_the_app_is_named_for_the_fleet() -> None:
    assert json.loads(named_manifest(FILES, "Bluff County"))["name"] == "Truck guides, Bluff County"


def test_the_worker_is_another_file_whenever_the_fleets_pages_are() -> None:
    other = pack_shell({**FILES, "own.css": b"p { }"})

    assert other["sw.js"] != pack_shell(FILES)["sw.js"]


@pytest.mark.parametrize("name", ["sw.js", "assets/javascripts/pack-store.js", "mark"])
def test_a_theme_without_what_makes_an_app_is_a_finding(name: str) -> None:
    files = {**FILES, "sw.js": b"x()"} if name == "mark" else dict(FILES)
    files.pop(name, None)

    with pytest.raises(FaultyInput) as caught:
        pack_shell(files)

    (finding,) = caught.value.findings
    assert finding.rule.name == "app-file-faulty"


def test_a_theme_without_a_manifest_is_a_finding() -> None:
    with pytest.raises(FaultyInput):
        named_manifest({}, "Bluff County")
