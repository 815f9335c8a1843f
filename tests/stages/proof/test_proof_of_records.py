from dataclasses import replace

import pytest
from hand_made_site import Site, hand_made_site
from sample_fleet import SPAN

from guidegen.proof.prove import prove_fleet
from guidegen.specs.fields import Recorded
from guidegen.units.model import StatedIn

PLAIN = 'data-source="identity.make">from the model file — maker&#39;s handbook, p. 4<'
DATED = PLAIN.replace("p. 4", "p. 4; recorded 2026-03-02 by Orla Vint")


def site_that_says(words: str) -> Site:
    """Return a site whose truck E-04 has a dated value, and whose data page says *words* of it."""
    site = hand_made_site()
    guides = []
    for guide in site.guides:
        fact = guide.facts["identity.make"]
        origin = fact.provenance
        assert isinstance(origin, StatedIn)
        dated = replace(origin, recorded=Recorded("2026-03-02", "Orla Vint", SPAN))
        facts = {**guide.facts, fact.name: replace(fact, provenance=dated)}
        guides.append(replace(guide, facts=facts) if guide.number == "E-04" else guide)
    page = site.files["E-04/data.html"].decode()
    assert PLAIN in page
    changed = site.changed("E-04/data.html", page.replace(PLAIN, words, 1).encode())
    return replace(changed, guides=tuple(guides))


def failures(site: Site) -> list[str]:
    verdict = prove_fleet(
        site.guides,
        site.read,
        site.files,
        held_back=site.held_back,
        offer=site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )
    return [each.unit for each in verdict.all_failures]


def test_a_page_that_says_when_a_value_was_recorded_and_by_whom_is_proved() -> None:
    assert failures(site_that_says(DATED)) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("; recorded 2026-03-02 by Orla Vint", ""),
        ("2026-03-02", "2026-03-03"),
        (" by Orla Vint", ""),
        ("Orla Vint", "Orla Vane"),
    ],
)
def test_a_page_that_says_another_day_or_name_is_not(old: str, new: str) -> None:
    assert failures(site_that_says(DATED.replace(old, new))) == ["E-04"]
