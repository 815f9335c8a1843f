import json
from pathlib import Path

import pytest
from sample_fleet import GUIDES

from guidegen.build.pack_site import pack_site
from guidegen.finding import FaultyInput

WORKER = '/* @@guidegen-pack-store@@ */ const SHELL = "@@guidegen-shell@@";'


@pytest.fixture
def staged(tmp_path: Path) -> Path:
    """A site of one page a truck, with what a theme brings for the app."""
    files = {
        "sw.js": WORKER,
        "app.webmanifest": '{"name": "Truck guides"}',
        "index.html": "list",
        "own.css": "p {}",
        "house/rules.html": "rules",
        "assets/javascripts/pack-store.js": "store()",
    }
    for guide in GUIDES:
        files[f"{guide.number}/index.html"] = guide.number
        files[f"{guide.number}/cards/round.pdf"] = "PDF"
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def listed(folder: Path) -> set[str]:
    return {file["path"] for file in json.loads((folder / "pack.json").read_bytes())["files"]}


def test_a_truck_is_packed_with_what_all_pages_load_and_without_its_cards(staged: Path) -> None:
    pack_site(staged, GUIDES, "Bluff County")

    for guide in GUIDES:
        assert listed(staged / guide.number) == {
            f"{guide.number}/index.html",
            "own.css",
            "assets/javascripts/pack-store.js",
        }


def test_the_fleets_own_pages_are_packed_and_the_worker_is_of_them(staged: Path) -> None:
    pack_site(staged, GUIDES, "Bluff County")
    shell = json.loads((staged / "pack.json").read_bytes())

    assert listed(staged) == {
        *("index.html", "house/rules.html", "own.css", "app.webmanifest"),
        "assets/javascripts/pack-store.js",
    }
    worker = (staged / "sw.js").read_text(encoding="utf-8")
    assert worker == f'store() const SHELL = "{shell["id"]}";'
    assert "Bluff County" in (staged / "app.webmanifest").read_text(encoding="utf-8")


def test_the_worker_is_another_file_whenever_the_fleets_pages_are(staged: Path) -> None:
    pack_site(staged, GUIDES, "Bluff County")
    first = (staged / "sw.js").read_bytes()
    (staged / "sw.js").write_text(WORKER, encoding="utf-8")
    (staged / "app.webmanifest").write_text('{"name": "Truck guides"}', encoding="utf-8")
    (staged / "own.css").write_text("p { }", encoding="utf-8")

    pack_site(staged, GUIDES, "Bluff County")

    assert (staged / "sw.js").read_bytes() != first


@pytest.mark.parametrize(
    "name", ["sw.js", "app.webmanifest", "assets/javascripts/pack-store.js", "mark"]
)
def test_a_theme_without_what_makes_an_app_is_a_finding(name: str, staged: Path) -> None:
    if name == "mark":
        (staged / "sw.js").write_text("x()", encoding="utf-8")
    else:
        (staged / name).unlink()

    with pytest.raises(FaultyInput) as caught:
        pack_site(staged, GUIDES, "Bluff County")

    (finding,) = caught.value.findings
    assert finding.rule.name == "app-file-faulty"
