import hashlib
import json
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_printings import collected, printed

from guidegen.chained_lines import line_hash
from guidegen.finding import Findings
from guidegen.printings.head import check_head, head_of
from guidegen.printings.model import Printing, PrintRecord
from guidegen.printings.record import lines_of, read_printings

PATH = "records/printings/printings.jsonl"
PRINTINGS = (
    printed("T-17", "2026-10-01", "brakes", "fluids"),
    printed("E-02", "2026-10-01", "brakes"),
    replace(printed("T-17", "2026-11-30", "brakes"), by="Renske «Ré» \\ Aldous\u2028", copies=2),
    collected("E-02", "2026-11-30", "brakes"),
)
LINES = lines_of(PRINTINGS, ())
RAW = b"".join(LINES)


def read(raw: bytes) -> tuple[PrintRecord | None, Findings]:
    findings = Findings()
    return read_printings(PATH, raw, findings), findings


def record_of(raw: bytes) -> PrintRecord:
    record, findings = read(raw)
    assert record is not None, [each.what for each in findings]
    return record


def added(before: Sequence[bytes], *printings: Printing) -> list[bytes]:
    """Return the lines *before*, with more that follow them."""
    return [*before, *lines_of(printings, record_of(b"".join(before)).tips)]


def test_what_was_recorded_is_read_back() -> None:
    record = record_of(RAW)

    assert record.printings == PRINTINGS
    assert record.last_date == "2026-11-30"
    assert record.tips == (line_hash(LINES[-1]),)
    assert read(b"")[0] == PrintRecord()


def test_the_chain_holds_for_anyone_with_a_hash_function_and_a_json_parser() -> None:
    """FIPS 180-4 (SHA-256) by hashlib, and JSON Lines (one JSON value a line, LF, UTF-8)."""
    before: list[str] = []
    lines = RAW.decode("utf-8").split("\n")
    assert lines.pop() == ""
    assert len(lines) == len(PRINTINGS)
    for line in lines:
        content = json.loads(line)
        assert content["before"] == before
        body = line[: line.rindex(',"seal":')]
        assert hashlib.sha256(body.encode()).hexdigest() == content["seal"]
        before = [hashlib.sha256(f"{line}\n".encode()).hexdigest()]


def test_every_single_byte_flipped_is_found_in_its_line() -> None:
    for place in range(len(RAW)):
        raw = bytearray(RAW)
        raw[place] ^= 1 << place % 8
        record, findings = read(bytes(raw))
        assert record is None, place
        (finding,) = findings
        assert finding.rule.name == "printings-damaged"
        assert finding.where.startswith(f"{PATH}:{RAW[:place].count(10) + 1}:")


@given(st.integers(0, len(RAW) - 1))
def test_a_last_line_that_is_torn_is_found(length: int) -> None:
    is_whole = length == 0 or RAW[:length].endswith(b"\n")

    record, _ = read(RAW[:length])

    assert (record is not None) is is_whole


@pytest.mark.parametrize("lines", [(1, 0), (0, 2), (0, 1, 3), (1, 2, 3)])
def test_lines_left_out_or_exchanged_are_found(lines: tuple[int, ...]) -> None:
    record, findings = read(b"".join(LINES[place] for place in lines))

    assert record is None
    assert "follows a line that is gone" in next(iter(findings)).what


@pytest.mark.parametrize("lines", range(len(LINES)))
def test_lines_that_are_gone_from_the_end_are_missed_by_the_head(lines: int) -> None:
    findings = Findings()
    raw = b"".join(LINES[:lines])

    check_head(raw, head_of(record_of(RAW)), PATH, findings)

    assert [each.rule.name for each in findings] == ["printings-cut-off"]


def test_a_record_that_is_longer_than_its_head_was_cut_short_and_is_whole() -> None:
    findings = Findings()

    check_head(RAW, head_of(record_of(b"".join(LINES[:2]))), PATH, findings)
    assert len(findings) == 0

    check_head(RAW, None, PATH, findings)
    assert [each.rule.name for each in findings] == ["printings-without-head"]
    assert not findings.has_errors


def test_every_flipped_byte_of_the_head_is_found() -> None:
    head = head_of(record_of(RAW))
    for place in range(len(head)):
        changed = bytearray(head)
        changed[place] ^= 1 << place % 8
        findings = Findings()
        check_head(RAW, bytes(changed), PATH, findings)
        assert findings.has_errors, place


def test_lines_of_two_clerks_may_both_stand_in_either_order_and_the_next_ties_both() -> None:
    ours = added(LINES, printed("T-17", "2026-12-01", "fluids"))
    theirs = added(LINES, printed("K-22", "2026-12-02", "fluids"))
    for merged in ([*ours, theirs[-1]], [*theirs, ours[-1]]):
        record = record_of(b"".join(merged))
        assert record.tips == tuple(sorted((line_hash(ours[-1]), line_hash(theirs[-1]))))
        tied = added(merged, printed("T-17", "2026-12-03", "brakes"))
        assert len(record_of(b"".join(tied)).tips) == 1
        # Neither clerk's line can go any more.
        for gone in (-2, -3):
            left = [line for line in tied if line is not tied[gone]]
            assert read(b"".join(left))[0] is None


def test_two_first_printings_may_both_stand() -> None:
    ours, theirs = (lines_of([each], ()) for each in PRINTINGS[:2])

    record = record_of(b"".join((*ours, *theirs)))

    assert len(record.tips) == 2


def test_a_line_that_a_merge_by_hand_has_doubled_counts_once() -> None:
    assert record_of(b"".join((*LINES, LINES[2]))).printings == PRINTINGS


def test_what_git_leaves_of_a_merge_that_failed_is_named() -> None:
    mark = b"<<<<<<< HEAD\n"

    record, findings = read(b"".join((LINES[0], mark, LINES[1])))

    (finding,) = findings
    assert record is None
    assert finding.what == "line 2 is left over from a merge"
    assert "keep the lines of both sides" in finding.fix


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"date": "2026-02-30"}, "names no date"),
        ({"date": "2026-09-30"}, "is dated 2026-09-30, before a line that it follows"),
        ({"edition": "x"}, "names no cards"),
        ({"deck": ""}, "names no cards"),
    ],
)
def test_lines_sealed_by_hand_are_still_held_to_order(change: dict[str, str], words: str) -> None:
    wrong = replace(printed("K-22", "2026-10-02", "brakes"), **change)  # type: ignore[arg-type]

    record, findings = read(b"".join(lines_of([PRINTINGS[0], wrong], ())))

    assert record is None
    assert words in next(iter(findings)).what


def test_the_newest_card_hangs_in_the_cab_and_what_was_collected_does_not() -> None:
    cabs = record_of(RAW).in_cabs()

    assert {unit: sorted(cards) for unit, cards in cabs.items()} == {"T-17": ["brakes", "fluids"]}
    assert cabs["T-17"]["brakes"].printing.date == "2026-11-30"
    assert cabs["T-17"]["fluids"].printing.date == "2026-10-01"


def test_of_two_clerks_the_later_date_counts_whatever_line_comes_first() -> None:
    newer = added(LINES, printed("T-17", "2026-12-09", "fluids"))
    older = added(LINES, printed("T-17", "2026-12-02", "fluids"))

    for merged in ([*newer, older[-1]], [*older, newer[-1]]):
        hangs = record_of(b"".join(merged)).in_cabs()["T-17"]["fluids"]
        assert hangs.printing.date == "2026-12-09"
