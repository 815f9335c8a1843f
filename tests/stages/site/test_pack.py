"""Packs, judged by `hashlib`, `sha256sum` of the GNU coreutils, `zipfile` and Pillow."""

import hashlib
import io
import json
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import DictLoader
from PIL import Image

from guidegen.site.app_files import WorkerFault, fill_worker, name_app
from guidegen.site.pack import ForeignFile, Pack, PackedFile
from guidegen.site.stick_copy import (
    NameNotForSticks,
    StickTemplates,
    check_names,
    copy_for_stick,
    zipped,
)

FILES = {
    "T-17/index.html": b"<p>T-17</p>",
    "T-17/search/search_index.json": b"{}",
    "assets/a.css": b"p {}",
}
STICK = StickTemplates.load(
    DictLoader(
        {"open.html.j2": "{{ folder }}/{{ unit }}/index.html", "only.html.j2": "{{ unit }}"}
    ),
    {"open.js": b"//"},
)


def pack(files: dict[str, bytes]) -> Pack:
    return Pack.of("T-17", "0123abcd", (PackedFile.of(path, raw) for path, raw in files.items()))


def test_a_pack_lists_each_file_with_its_size_and_hash() -> None:
    read = json.loads(pack(FILES).as_json())

    assert (read["format"], read["unit"], read["revision"]) == (1, "T-17", "0123abcd")
    assert read["bytes"] == sum(map(len, FILES.values()))
    assert read["files"] == [
        {"path": path, "bytes": len(FILES[path]), "sha256": hashlib.sha256(FILES[path]).hexdigest()}
        for path in sorted(FILES)
    ]


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="no GNU coreutils here")
def test_the_id_of_a_pack_is_what_coreutils_make_of_its_files(tmp_path: Path) -> None:
    for path, raw in FILES.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(raw)
    judge = shutil.which("sha256sum")
    assert judge is not None

    listed = subprocess.run([judge, *sorted(FILES)], cwd=tmp_path, capture_output=True, check=True)
    of_list = subprocess.run([judge], input=listed.stdout, capture_output=True, check=True)

    assert pack(FILES).id == of_list.stdout.decode().split()[0]


@given(st.sampled_from(sorted(FILES)), st.binary(max_size=20))
def test_a_pack_has_another_id_exactly_if_one_byte_is_another(path: str, raw: bytes) -> None:
    assert (pack({**FILES, path: raw}).id == pack(FILES).id) == (raw == FILES[path])


@pytest.mark.parametrize(
    "path", ["T-18/index.html", "index.html", "T-170/x.html", "E-02/pack.json"]
)
def test_a_pack_refuses_what_is_not_its_trucks(path: str) -> None:
    with pytest.raises(ForeignFile):
        pack({**FILES, path: b""})


def test_a_worker_without_its_marks_is_refused() -> None:
    whole = '/* @@guidegen-pack-store@@ */ const SHELL = "@@guidegen-shell@@";'
    assert fill_worker(whole, "store()", "abc") == b'store() const SHELL = "abc";'
    for broken in ("", whole * 2, whole.replace("shell", "")):
        with pytest.raises(WorkerFault):
            fill_worker(broken, "store()", "abc")


def test_the_manifest_has_members_of_the_standard_only(project_root: Path) -> None:
    theme = project_root / "site_templates" / "theme"
    named = json.loads(name_app((theme / "app.webmanifest").read_bytes(), "Bluff County"))
    # W3C, Web Application Manifest, "Manifest members", and Manifest Image Resource, "members".
    standard = {
        *("background_color", "dir", "display", "icons", "id", "lang", "name", "orientation"),
        *("scope", "short_name", "shortcuts", "start_url", "theme_color", "description"),
    }

    assert set(named) <= standard
    assert named["name"].endswith("Bluff County")
    # "Display modes" of the same standard.
    assert named["display"] in {"fullscreen", "standalone", "minimal-ui", "browser"}
    for icon in named["icons"]:
        assert set(icon) <= {"src", "sizes", "type", "label", "purpose"}
        assert icon["purpose"] in {"monochrome", "maskable", "any"}
        if icon["type"] == "image/png":
            with Image.open(theme / icon["src"]) as image:
                assert f"{image.width}x{image.height}" == icon["sizes"]


def test_the_maskable_icon_keeps_its_mark_inside_the_circle_that_is_never_cut(
    project_root: Path,
) -> None:
    path = project_root / "site_templates/theme/assets/images/app-maskable-512.png"
    with Image.open(path) as image:
        pixels = image.convert("RGBA")
    ground = pixels.getpixel((0, 0))
    assert ground[3] == 255  # type: ignore[index]  # of an RGBA image
    # W3C, Web Application Manifest, "Icon masks and safe zone": a circle of 2/5 of the side.
    middle, radius = 256, 512 * 2 / 5
    outside = {
        pixels.getpixel((x, y))
        for x in range(0, 512, 3)
        for y in range(0, 512, 3)
        if (x - middle) ** 2 + (y - middle) ** 2 > radius**2
    }
    assert outside == {ground}


def entries(raw: bytes) -> Iterator[zipfile.ZipInfo]:
    with zipfile.ZipFile(io.BytesIO(raw)) as archive:
        assert archive.testzip() is None
        yield from archive.infolist()


def test_a_copy_for_a_stick_has_one_page_to_open_and_all_else_in_a_folder_of_its_own() -> None:
    raw = copy_for_stick("T-17", "0123abcd", FILES, STICK)
    names = [entry.filename for entry in entries(raw)]

    assert [name for name in names if "/" not in name] == ["OPEN-T-17.html"]
    assert {name.partition("/")[0] for name in names if "/" in name} == {"T-17-0123abcd"}
    with zipfile.ZipFile(io.BytesIO(raw)) as archive:
        for path, content in FILES.items():
            assert archive.read(f"T-17-0123abcd/{path}") == content
        assert archive.read("OPEN-T-17.html") == b"T-17-0123abcd/T-17/index.html\n"


def test_a_copy_is_the_same_to_the_byte_whatever_the_order_and_the_system(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    first = zipped(FILES)
    monkeypatch.setattr("sys.platform", "win32")
    assert zipped(dict(reversed(FILES.items()))) == first

    for entry in entries(first):
        assert entry.date_time == (1980, 1, 1, 0, 0, 0)
        assert entry.create_system == 3
        assert entry.compress_type == zipfile.ZIP_STORED
        assert entry.flag_bits == 0


@pytest.mark.parametrize(
    "path",
    [
        # Microsoft, "Naming Files, Paths, and Namespaces": reserved names and characters.
        *("CON/index.html", "a/com1.html", "lpt9", "a/b:c", "a/b?", "a/b*c", "a/b|c", "a\\b"),
        *("a/b ", "a/b.", "a/ b", 'a/"b"', "a/<b>", "", "a//b", "a/../b", "ü.html"),
        "a/" * 100 + "b",
    ],
)
def test_a_name_that_a_stick_or_windows_cannot_hold_is_refused(path: str) -> None:
    with pytest.raises(NameNotForSticks):
        check_names([path])


def test_two_names_that_differ_in_case_only_are_refused() -> None:
    check_names(["a/b.html", "a/c.html"])
    with pytest.raises(NameNotForSticks):
        check_names(["a/b.html", "A/B.html"])
