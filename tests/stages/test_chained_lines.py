import hashlib
import json

import pytest

from guidegen.chained_lines import Broken, Chain, check_dates, line_hash, opened, sealed
from guidegen.finding import Findings
from guidegen.printings.record import PRINTINGS
from guidegen.revisions.record import RELEASES

FORM = ("unit", "before")
SAID = {"unit": "T-17 «ü»\u2028", "before": "0" * 64}
PATH = "records/lines.jsonl"


def broken(line: bytes) -> str:
    """Return what is wrong with *line*."""
    with pytest.raises(Broken) as caught:
        opened(line, FORM)
    return str(caught.value)


def test_a_sealed_line_says_what_was_sealed() -> None:
    assert opened(sealed(SAID), FORM) == SAID


def test_a_seal_is_what_a_hash_function_and_a_json_parser_say() -> None:
    """FIPS 180-4 (SHA-256) by hashlib, and JSON Lines (one JSON value a line, LF, UTF-8)."""
    line = sealed(SAID)
    content = json.loads(line)

    assert line.count(b"\n") == 1
    assert list(content) == [*FORM, "seal"]
    body = line[: line.rindex(b',"seal":')]
    assert content["seal"] == hashlib.sha256(body).hexdigest()
    assert line_hash(line) == hashlib.sha256(line).hexdigest()


def test_a_line_that_was_cut_or_changed_or_says_something_else_is_told_in_words() -> None:
    line = sealed(SAID)

    assert broken(line[:-1]) == "does not end as it was written"
    assert broken(b"\n") == "does not end as it was written"
    assert broken(b"}\n") == "is not as it was written: its seal does not fit"
    assert broken(line.replace(b"T-17", b"T-18")).endswith("its seal does not fit")
    assert broken(b">>>>>>> main\n") == "is left over from a merge"
    assert broken(sealed({"unit": "T-17"})) == "does not hold unit, before, seal, in this order"


def test_a_body_that_is_no_json_is_told_although_its_seal_fits() -> None:
    body = b"{not JSON"
    seal = hashlib.sha256(body).hexdigest().encode()

    assert broken(body + b',"seal":"' + seal + b'"}\n') == "is no JSON"


@pytest.mark.parametrize(
    ("day", "followed", "words"),
    [
        ("2026-02-30", [], "names no date"),
        ("20261130", [], "names no date"),
        ("2026-11-29", ["2026-11-28", "2026-11-30"], "is dated 2026-11-29, before a line"),
    ],
)
def test_a_line_may_not_be_dated_before_one_that_it_follows(
    day: str, followed: list[str], words: str
) -> None:
    check_dates("2026-11-30", ["2026-11-30", "2026-10-01"])

    with pytest.raises(Broken, match=words):
        check_dates(day, followed)


def test_reading_ends_at_the_first_line_that_is_broken() -> None:
    read: list[bytes] = []

    def add(line: bytes) -> None:
        opened(line, FORM)
        read.append(line)

    findings = Findings()
    line = sealed(SAID)

    assert not RELEASES.reads(PATH, line + line[1:] + line[2:], add, findings)

    (finding,) = findings
    assert read == [line]
    assert finding.where == f"{PATH}:2:1"
    assert finding.what == "line 2 is not as it was written: its seal does not fit"
    assert finding.fix == f"get the file back from git: `git restore {PATH}`"


@pytest.mark.parametrize(
    ("chain", "fix"),
    [(PRINTINGS, "keep the lines of both sides"), (RELEASES, "get the file back from git")],
)
def test_what_to_do_after_a_merge_depends_on_whether_both_sides_may_stand(
    chain: Chain, fix: str
) -> None:
    findings = Findings()

    assert not chain.reads(PATH, b"<<<<<<< ours\n", lambda line: opened(line, FORM), findings)

    (finding,) = findings
    assert finding.what == "line 1 is left over from a merge"
    assert finding.fix.startswith(fix)


@pytest.mark.parametrize(
    ("chain", "rule", "words"),
    [
        (RELEASES, "release-before-the-last", "a release of `2026-09-30`"),
        (PRINTINGS, "printing-before-the-last", "a printing of `2026-09-30`"),
    ],
)
def test_a_clock_that_was_set_back_is_refused(chain: Chain, rule: str, words: str) -> None:
    findings = Findings()
    for day in ("2026-10-01", "2026-10-02"):
        chain.check_date(day, "2026-10-01", PATH, findings)
    chain.check_date("2026-10-01", "", PATH, findings)
    assert len(findings) == 0

    chain.check_date("2026-09-30", "2026-10-01", PATH, findings)

    (finding,) = findings
    assert finding.rule.name == rule
    assert finding.what == f"{words} would come before the last one, of `2026-10-01`"
    assert "from 2026-10-01 on: `--date`" in finding.fix
