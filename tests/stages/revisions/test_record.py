import hashlib
import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_revisions import CHANGES

from guidegen.finding import Findings
from guidegen.revisions.model import Record, Revision
from guidegen.revisions.record import NOTHING_BEFORE, lines_of, read_record

PATH = "records/revisions.jsonl"


def made(unit: str, number: int, date: str, changes: tuple[str, ...] = ()) -> Revision:
    edition = hashlib.sha256(f"{unit} {number}".encode()).hexdigest()
    return Revision(unit, number, date, "Renske «Ré» Aldous", edition[:12], edition, changes)


def with_outputs(revision: Revision) -> Revision:
    digest = hashlib.sha256(revision.edition.encode()).hexdigest()
    return replace(revision, outputs=digest, program="26.1.0+0123456789ab")


REVISIONS = (
    # A record that was begun before published files were listed goes on with lines that have them.
    made("T-17", 1, "2026-10-01"),
    made("E-02", 1, "2026-10-01"),
    with_outputs(made("T-17", 2, "2026-11-30", CHANGES)),
    made("T-17", 3, "2026-11-30", ("New: wheel “chock” \\ «1/2»\u2028x",)),
)
RAW = b"".join(lines_of(REVISIONS, b""))


def read(raw: bytes) -> tuple[Record | None, Findings]:
    findings = Findings()
    return read_record(PATH, raw, findings), findings


def test_what_was_recorded_is_read_back() -> None:
    record, findings = read(RAW)

    assert record is not None
    assert record.revisions == REVISIONS
    assert record.last_date == "2026-11-30"
    assert [each.number for each in record.of("T-17")] == [1, 2, 3]
    assert len(findings) == 0


def test_lines_that_are_added_later_follow_the_last_one() -> None:
    first = lines_of(REVISIONS[:2], b"")
    second = lines_of(REVISIONS[2:], first[-1])

    assert b"".join((*first, *second)) == RAW


def test_an_empty_file_is_a_record_of_nothing() -> None:
    record, findings = read(b"")

    assert record == Record()
    assert len(findings) == 0


def test_the_chain_holds_for_anyone_with_a_hash_function_and_a_json_parser() -> None:
    """FIPS 180-4 (SHA-256) by hashlib, and JSON Lines (one JSON value a line, LF, UTF-8)."""
    before = NOTHING_BEFORE
    text = RAW.decode("utf-8")
    assert text.endswith("\n")
    lines = text.split("\n")[:-1]
    assert len(lines) == len(REVISIONS)
    for line in lines:
        content = json.loads(line)
        assert isinstance(content, dict)
        assert content["before"] == before
        body = line[: line.rindex(',"seal":')]
        assert hashlib.sha256(body.encode()).hexdigest() == content["seal"]
        before = hashlib.sha256(f"{line}\n".encode()).hexdigest()


@given(st.integers(0, len(RAW) - 1), st.integers(1, 255))
def test_any_changed_byte_is_found_in_its_line(place: int, flip: int) -> None:
    raw = bytearray(RAW)
    raw[place] ^= flip

    record, findings = read(bytes(raw))

    assert record is None
    (finding,) = findings
    line = RAW[:place].count(b"\n") + 1
    assert finding.rule.name == "record-damaged"
    assert finding.where.startswith(f"{PATH}:{line}:")
    assert "git restore records/revisions.jsonl" in finding.fix


def test_every_single_byte_flipped_at_every_bit_is_found() -> None:
    for place in range(len(RAW)):
        for bit in range(8):
            raw = bytearray(RAW)
            raw[place] ^= 1 << bit
            assert read(bytes(raw))[0] is None, (place, bit)


@given(st.integers(0, len(RAW) - 1))
def test_a_record_cut_off_within_a_line_is_found(length: int) -> None:
    is_whole = length == 0 or RAW[:length].endswith(b"\n")

    record, _ = read(RAW[:length])

    assert (record is not None) is is_whole


@pytest.mark.parametrize("order", [(1, 0), (0, 2), (0, 1, 1), (0, 1, 3)])
def test_lines_left_out_exchanged_or_doubled_are_found(order: tuple[int, ...]) -> None:
    lines = RAW.splitlines(keepends=True)

    record, findings = read(b"".join(lines[place] for place in order))

    assert record is None
    assert len(findings) == 1


@pytest.mark.parametrize(
    ("revisions", "words"),
    [
        ((made("T-17", 2, "2026-10-01"),), "is revision 2 of T-17 and not 1"),
        ((REVISIONS[0], made("T-17", 3, "2026-10-02")), "is revision 3 of T-17 and not 2"),
        ((REVISIONS[0], made("E-02", 1, "2026-09-30")), "is dated 2026-09-30"),
        ((made("T-17", 1, "2026-02-30"),), "names no date"),
    ],
)
def test_lines_sealed_by_hand_are_still_held_to_order(
    revisions: tuple[Revision, ...], words: str
) -> None:
    record, findings = read(b"".join(lines_of(revisions, b"")))

    assert record is None
    (finding,) = findings
    assert words in finding.what
