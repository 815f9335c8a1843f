import hashlib

from hypothesis import given
from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.revisions.head import check_head, head_of

PLACE = "records/revisions.jsonl"
LINES = st.lists(st.from_regex(rb"\{[a-z]*\}\n", fullmatch=True), max_size=8)


def faults(record: bytes, head: bytes | None) -> list[str]:
    findings = Findings()
    check_head(record, head, PLACE, findings)
    return [each.rule.name for each in findings]


def test_the_head_is_a_count_and_a_hash() -> None:
    """FIPS 180-4 (SHA-256) by hashlib."""
    record = b"{a}\n{b}\n"
    assert head_of(record) == f"2 {hashlib.sha256(record).hexdigest()}\n".encode()


@given(LINES, LINES)
def test_a_record_that_only_grew_is_whole(lines: list[bytes], more: list[bytes]) -> None:
    assert faults(b"".join([*lines, *more]), head_of(b"".join(lines))) == []


@given(LINES.filter(bool), st.data())
def test_every_line_cut_off_at_the_end_is_missed(lines: list[bytes], data: st.DataObject) -> None:
    left = data.draw(st.integers(0, len(lines) - 1))

    assert faults(b"".join(lines[:left]), head_of(b"".join(lines))) == ["record-cut-off"]


def test_a_fleet_that_never_released_has_no_head() -> None:
    assert faults(b"", None) == []
    assert faults(b"{a}\n", None) == ["record-without-head"]
