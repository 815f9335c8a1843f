import contextlib
from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.build.versions import (
    NoVersion,
    Version,
    line_of,
    next_number,
    read_version,
    surplus,
    tell_changes,
)


def version(number: int, follows: int, units: Mapping[str, str] | None = None) -> Version:
    return Version(number, f"{number:064x}", "2026-11-30 07:15", follows, units or {})


def by_number(*versions: Version) -> Mapping[int, Version]:
    return {each.number: each for each in versions}


def test_what_is_kept_of_a_version_is_read_back() -> None:
    kept = Version(7, "ab" * 32, "2026-11-30 07:15", 5, {"T-17": "2"}, "2026-11-29")

    assert read_version(kept.as_bytes()) == kept
    assert kept.name == "000007-abababababab"


@given(st.data())
def test_a_changed_byte_makes_another_version_or_none(data: st.DataObject) -> None:
    kept = version(7, 5, {"T-17": "2"})
    raw = bytearray(kept.as_bytes())
    raw[data.draw(st.integers(0, len(raw) - 1))] ^= data.draw(st.integers(1, 255))

    with contextlib.suppress(NoVersion):
        assert read_version(bytes(raw)) != kept


@pytest.mark.parametrize("raw", [b"", b"[]", b"{}", b'{"number": 1}', b"\xff"])
def test_other_bytes_are_no_version(raw: bytes) -> None:
    with pytest.raises(NoVersion):
        read_version(raw)


def test_the_next_number_is_above_all_that_are_there_whole_or_not() -> None:
    assert next_number([]) == 1
    assert next_number(["000009-0123456789ab", "000010-0123456789ab", "README.txt"]) == 11


def test_the_line_goes_from_the_version_that_is_shown_to_what_readers_saw_before_it() -> None:
    versions = by_number(version(1, 0), version(2, 1), version(3, 2), version(4, 2))

    assert [each.number for each in line_of(versions, 4)] == [4, 2, 1]
    assert [each.number for each in surplus(versions, 4, 2)] == [1, 3]
    assert line_of(versions, 9) == ()


def test_a_line_that_leads_in_a_ring_ends() -> None:
    versions = by_number(version(1, 2), version(2, 1))

    assert [each.number for each in line_of(versions, 2)] == [2, 1]


@given(st.integers(1, 8), st.integers(1, 12))
def test_the_version_that_is_shown_is_always_kept(keep: int, count: int) -> None:
    versions = by_number(*(version(number, number - 1) for number in range(1, count + 1)))

    gone = {each.number for each in surplus(versions, count, keep)}

    assert count not in gone
    assert len(versions) - len(gone) == min(keep, count)


def test_trucks_whose_guides_change_are_told() -> None:
    before = version(1, 0, {"T-17": "1", "E-02": "1", "K-22": "3"})
    after = version(2, 1, {"T-17": "2", "K-22": "3", "V-08": "draft 0badcafe"})

    assert tell_changes(before, after) == (
        "E-02: no longer there",
        "T-17: 1 → 2",
        "V-08: new, draft 0badcafe",
    )
    assert tell_changes(before, before) == ()
