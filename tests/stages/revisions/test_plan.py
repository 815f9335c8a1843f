from dataclasses import replace

from sample_fleet import E_04, T_17, T_18, fact

from guidegen.finding import Findings, Severity
from guidegen.guide.model import Guide
from guidegen.revisions.model import Record, Revision
from guidegen.revisions.plan import (
    check_released,
    history_of,
    revisions_of,
    with_revisions,
)
from guidegen.revisions.report import format_history, history_as_json
from guidegen.revisions.snapshot import Snapshot

KEPT = "f" * 64
DATE = "2026-11-30"


def revision(guide: Guide, number: int = 1, changes: tuple[str, ...] = ()) -> Revision:
    return Revision(guide.number, number, "2026-10-01", "R. Aldous", guide.edition, KEPT, changes)


def changed(guide: Guide) -> Guide:
    cut_out = fact("brakes.air.cut_out", "130 psi")
    return replace(guide, edition="0" * 12, facts={**guide.facts, cut_out.name: cut_out})


def kept(_: Revision) -> Snapshot:
    return Snapshot.of(T_17)


RECORD = Record((revision(T_17), revision(T_18)))


def test_before_the_first_release_every_guide_is_a_draft_without_changes() -> None:
    history = history_of([T_17, E_04], Record(), kept)

    assert history.drafts == ("T-17", "E-04")
    assert history.of("E-04").draft is not None
    assert history.of("E-04").issued is None


def test_only_guides_that_changed_are_issued_each_with_its_own_next_number() -> None:
    guides = [changed(T_17), T_18, E_04]
    history = history_of(guides, RECORD, kept)

    editions = {guide.number: KEPT for guide in guides}
    issued = revisions_of(history, editions, date=DATE, by="I. Quist")

    assert [(each.unit, each.number, each.edition) for each in issued] == [
        ("E-04", 1, E_04.edition),
        ("T-17", 2, "0" * 12),
    ]
    assert issued[1].changes == ("Governed (cut-out) pressure 135 psi → 130 psi",)
    assert issued[0].changes == ()
    assert {each.date for each in issued} == {DATE}


def test_a_truck_that_is_left_out_stays_a_draft() -> None:
    history = history_of([changed(T_17), E_04], RECORD, kept)

    issued = revisions_of(history, {"E-04": KEPT}, date=DATE, by="I. Quist")
    after = with_revisions(history, issued)

    assert after.drafts == ("T-17",)
    assert after.of("E-04").issued == issued[0]
    assert after.last_date == DATE


def test_a_truck_that_is_no_more_keeps_its_history() -> None:
    history = history_of([T_17], RECORD, kept)

    assert history.of("T-18").last == revision(T_18)
    assert history.of("T-18").draft is None


def test_guides_that_are_no_revision_are_warned_of_once() -> None:
    findings = Findings()

    check_released(history_of([changed(T_17), E_04], RECORD, kept), "records", findings)

    (finding,) = findings
    assert finding.rule.severity is Severity.WARNING
    assert "T-17" in finding.what
    assert "E-04" in finding.what
    assert "guidegen release" in finding.fix


def test_a_record_that_is_up_to_date_is_warned_of_nothing() -> None:
    findings = Findings()

    check_released(history_of([T_17, T_18], RECORD, kept), "records", findings)

    assert len(findings) == 0


def test_a_history_is_told_newest_first() -> None:
    revisions = [revision(T_17), revision(T_17, 2, ("New: wheel chocks",))]

    text = format_history("T-17", revisions)
    told = history_as_json("T-17", revisions)

    assert text.splitlines() == [
        "T-17: revision 2 of 2026-10-01",
        "",
        f"  2, 2026-10-01, approved by R. Aldous ({T_17.edition[:8]})",
        "    New: wheel chocks",
        "",
        f"  1, 2026-10-01, approved by R. Aldous ({T_17.edition[:8]})",
        "    First revision",
    ]
    assert [each["revision"] for each in told["revisions"]] == [2, 1]


def test_a_truck_without_a_revision_is_said_to_have_none() -> None:
    assert format_history("T-17", ()) == "T-17: no revision was ever released\n"
