import json
from dataclasses import replace

import pytest
from difference_strategies import guides
from hypothesis import given
from sample_fleet import E_04, GUIDES, T_17, T_18

from guidegen.finding import Findings
from guidegen.guide.fingerprint import fingerprint
from guidegen.guide.model import Guide
from guidegen.revisions.origins import restored
from guidegen.revisions.snapshot import digest_of, read_snapshot, snapshot_bytes


def as_printed(guide: Guide) -> Guide:
    """Return *guide* with the fingerprint of what it says."""
    return replace(guide, edition=fingerprint(guide.facts, guide.sections, guide.chapters))


def again(guide: Guide, stamped: Guide) -> Guide | None:
    raw = snapshot_bytes(guide)
    kept = read_snapshot("x.json", raw, (guide.edition, digest_of(raw)), Findings())
    assert kept is not None
    return restored(kept.guide, json.loads(raw)["origins"], stamped)


@pytest.mark.parametrize("guide", GUIDES, ids=lambda each: each.number)
def test_a_guide_is_put_together_again_as_it_was_printed(guide: Guide) -> None:
    guide = as_printed(guide)

    found = again(guide, guide)

    assert found is not None
    assert list(found.facts) == list(guide.facts)
    for name, fact in guide.facts.items():
        other = found.facts[name]
        assert (other.field, other.value, other.shown) == (fact.field, fact.value, fact.shown)
        assert other.is_quoted == fact.is_quoted
    assert snapshot_bytes(found) == snapshot_bytes(guide)
    assert (found.number, found.edition) == (guide.number, guide.edition)


@given(guides("T-1"))
def test_what_is_put_together_has_the_fingerprint_of_what_was_kept(guide: Guide) -> None:
    printed = as_printed(guide)

    found = again(printed, printed)

    assert found is not None
    assert as_printed(found) == found


def test_the_identity_is_that_of_the_truck_and_not_of_the_edition() -> None:
    found = again(as_printed(T_17), T_18)

    assert found is not None
    assert found.number == "T-18"
    assert found.facts["identity.vin"] == T_18.facts["identity.vin"]


def test_what_was_kept_without_its_origins_is_not_put_together() -> None:
    raw = snapshot_bytes(E_04)
    kept = read_snapshot("x.json", raw, (E_04.edition, digest_of(raw)), Findings())
    assert kept is not None

    assert restored(kept.guide, {}, E_04) is None
