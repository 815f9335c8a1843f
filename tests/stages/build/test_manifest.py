import contextlib
import hashlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from published_site import built

from guidegen.build.manifest import (
    MANIFEST,
    NoManifest,
    faults_in,
    list_of,
    open_manifest,
    read_list,
)

HASHES = st.binary().map(lambda raw: hashlib.sha256(raw).hexdigest())
PARTS = st.text(st.characters(codec="utf-8", exclude_characters="/\\\n\0"), min_size=1).filter(
    lambda part: part not in {".", ".."}
)
PATHS = st.lists(PARTS, min_size=1, max_size=3).map("/".join)


@given(st.dictionaries(PATHS, HASHES, min_size=1))
def test_a_list_reads_as_it_was_written(hashes: dict[str, str]) -> None:
    assert read_list(list_of(hashes)) == hashes


@given(st.dictionaries(PATHS, HASHES, min_size=1), st.data())
def test_a_list_of_which_a_byte_was_changed_is_another_or_none(
    hashes: dict[str, str], data: st.DataObject
) -> None:
    raw = bytearray(list_of(hashes))
    raw[data.draw(st.integers(0, len(raw) - 1))] ^= data.draw(st.integers(1, 255))

    with contextlib.suppress(NoManifest):
        assert read_list(bytes(raw)) != hashes


@pytest.mark.parametrize("name", ["../T-17/index.html", "/etc/passwd", "a/../../b", "a//b", "./a"])
def test_a_list_that_leads_out_of_its_site_is_none(name: str) -> None:
    with pytest.raises(NoManifest):
        read_list(f"{'0' * 64}  {name}\n".encode())


@pytest.mark.parametrize("name", ["two\nlines", "back\\slash"])
def test_a_name_that_the_list_cannot_hold_is_refused(name: str) -> None:
    with pytest.raises(NoManifest):
        list_of({name: "0" * 64})


def test_a_built_site_is_what_its_list_says(tmp_path: Path) -> None:
    site = built(tmp_path / "site", "one")
    manifest = open_manifest(site)

    assert manifest is not None
    assert list(faults_in(site, manifest)) == []
    assert manifest.units == ("T-17",)
    assert hashlib.sha256((site / MANIFEST).read_bytes()).hexdigest() == manifest.digest
    for name, digest in manifest.hashes.items():
        assert hashlib.sha256((site / name).read_bytes()).hexdigest() == digest
