import json

import pytest
from difference_strategies import guides
from hypothesis import given
from sample_fleet import E_04, GUIDES, H_2, T_17, T_18

from guidegen.differences.compare import compare_guides
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.revisions.snapshot import Snapshot, digest_of, read_snapshot, snapshot_bytes
from guidegen.revisions.tell import tell_changes

PATH = "records/editions/x.json"


def kept(guide: Guide) -> Snapshot:
    raw = snapshot_bytes(guide)
    findings = Findings()
    found = read_snapshot(PATH, raw, (guide.edition, digest_of(raw)), findings)
    assert found is not None, list(findings)
    return found


@pytest.mark.parametrize("guide", GUIDES, ids=lambda each: each.number)
def test_an_edition_that_was_kept_compares_as_the_guide_it_was_kept_from(guide: Guide) -> None:
    snapshot = kept(guide)

    assert compare_guides(snapshot.guide, guide).differences == ()
    assert tell_changes(snapshot, Snapshot.of(guide)) == ("Changed: nothing that a driver reads",)
    assert [c.id for c in snapshot.guide.chapters] == [c.id for c in guide.chapters]


@given(guides("T-1"), guides("T-2"))
def test_kept_editions_differ_as_their_guides_do(known: Guide, given: Guide) -> None:
    before, after = compare_guides(known, given), compare_guides(kept(known).guide, given)

    assert [type(each) for each in after.differences] == [type(each) for each in before.differences]


def test_trucks_of_one_edition_keep_the_same_bytes_and_name_nobody() -> None:
    first = snapshot_bytes(T_17)

    assert first == snapshot_bytes(T_18)
    for named in ("T-17", "7Z9CHX9S1KBC00017", "BLF 4417"):
        assert named not in first.decode()


@pytest.mark.parametrize("place", [0, 40, -2])
def test_a_changed_byte_of_a_kept_edition_is_found(place: int) -> None:
    raw = bytearray(snapshot_bytes(E_04))
    digest = digest_of(bytes(raw))
    raw[place] ^= 1
    findings = Findings()

    assert read_snapshot(PATH, bytes(raw), (E_04.edition, digest), findings) is None
    (finding,) = findings
    assert finding.rule.name == "edition-damaged"
    assert finding.where.startswith(PATH)
    assert finding.fix.endswith(f"`git restore {PATH}`")


@pytest.mark.parametrize("change", [{"form": 2}, {"edition": "0" * 12}, {"facts": {"a": []}}])
def test_an_edition_of_another_form_is_refused(change: dict[str, object]) -> None:
    raw = json.dumps({**json.loads(snapshot_bytes(H_2)), **change}).encode()
    findings = Findings()

    assert read_snapshot(PATH, raw, (H_2.edition, digest_of(raw)), findings) is None
    (finding,) = findings
    assert "in a known form" in finding.what


def test_what_the_catalog_has_no_more_name_for_is_told_as_left_out() -> None:
    content = json.loads(snapshot_bytes(H_2))
    stated = ["Choke knob location", "on the dash", "on the dash", "handbook", "on the dash"]
    content["facts"]["engine.choke_location"] = stated
    content["chapters"].append(["at-the-scale", *content["chapters"][0][1:]])
    raw = json.dumps(content).encode()
    snapshot = read_snapshot(PATH, raw, (H_2.edition, digest_of(raw)), Findings())
    assert snapshot is not None

    told = tell_changes(snapshot, Snapshot.of(H_2))

    assert told == (
        "Left out: choke knob location on the dash",
        "Left out: procedure “Check the brake pedal”",
    )
