"""What was made before is found again, and nothing else is."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.build.store import Store, hash_of, open_store

PARTS = st.lists(st.text(max_size=4) | st.binary(max_size=4), max_size=4)


def test_a_value_is_found_under_the_key_it_was_kept_under(tmp_path: Path) -> None:
    store = Store(tmp_path, "program")
    key = store.key("page", "a", b"b")

    store.put(key, {"pages": ("one", "two")})

    assert store.get(key) == {"pages": ("one", "two")}
    assert store.get(store.key("page", "a", b"c")) is None


def test_another_program_or_kind_finds_nothing(tmp_path: Path) -> None:
    one, other = Store(tmp_path, "program"), Store(tmp_path, "program of tomorrow")
    one.put(one.key("page", "a"), "kept")

    assert other.get(other.key("page", "a")) is None
    assert one.get(one.key("round", "a")) is None


@given(PARTS, PARTS)
def test_parts_that_differ_have_different_hashes(
    one: list[str | bytes], other: list[str | bytes]
) -> None:
    as_bytes = [[p.encode() if isinstance(p, str) else p for p in parts] for parts in (one, other)]

    assert (hash_of(*one) == hash_of(*other)) == (as_bytes[0] == as_bytes[1])


def test_every_flipped_bit_makes_a_file_as_if_it_were_not_there(tmp_path: Path) -> None:
    store = Store(tmp_path, "program")
    key = store.key("page", "a")
    store.put(key, "kept")
    (path,) = (path for path in tmp_path.rglob("*") if path.is_file())
    whole = path.read_bytes()
    for place in range(len(whole)):
        for bit in range(8):
            broken = bytearray(whole)
            broken[place] ^= 1 << bit
            path.write_bytes(broken)
            assert store.get(key) is None
    for length in range(len(whole)):
        path.write_bytes(whole[:length])
        assert store.get(key) is None


def test_a_store_that_cannot_be_written_to_keeps_nothing_and_says_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    store = Store(tmp_path / "file", "program")
    key = store.key("page", "a")

    store.put(key, "lost")

    assert store.get(key) is None


def test_no_store_keeps_nothing() -> None:
    store = Store(None, "program")
    store.put(store.key("page", "a"), "lost")

    assert store.get(store.key("page", "a")) is None


def test_what_was_not_used_for_longest_goes_first(tmp_path: Path) -> None:
    store = Store(tmp_path, "program")
    keys = [store.key("page", str(number)) for number in range(4)]
    for age, key in enumerate(keys):
        store.put(key, "x" * 1000)
        path = next(path for path in tmp_path.rglob("*") if path.name == key[2:])
        os.utime(path, (1_000_000 + age, 1_000_000 + age))
    store.get(keys[0])

    store.tidy(most=2200)

    assert [store.get(key) is not None for key in keys] == [True, False, False, True]


def test_the_store_lies_in_the_users_cache_and_not_in_the_project(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GUIDEGEN_STORE", str(tmp_path / "elsewhere"))
    assert open_store("program").folder == tmp_path / "elsewhere"
    monkeypatch.delenv("GUIDEGEN_STORE")
    folder = open_store("program").folder
    assert folder is not None
    assert folder.is_absolute()
    assert Path.cwd() not in folder.parents
