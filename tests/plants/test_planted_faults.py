import pytest
from hand_made_site import Site
from plants.conftest import PLANTED
from plants.faults import KINDS
from plants.plant import Plant
from plants.proving import Prover

LEAST = 200


def sown(site: Site, kind: str) -> list[Plant]:
    return [plant for guide in site.guides for plant in KINDS[kind](site, guide.number)]


def test_the_site_without_a_fault_is_proved(prover: Prover) -> None:
    assert prover.failures == ()


def test_faults_are_planted_in_their_hundreds(published: Site) -> None:
    assert sum(len(sown(published, kind)) for kind in KINDS) >= LEAST


@pytest.mark.parametrize("kind", KINDS)
def test_every_planted_fault_is_caught_for_what_it_is(
    kind: str, published: Site, prover: Prover, request: pytest.FixtureRequest
) -> None:
    plants = sown(published, kind)

    missed = [
        f"{plant.path}: {plant.what}: {sorted(found)}"
        for plant in plants
        if not plant.rules & (found := {each.rule.name for each in prover.failures_of(plant)})
    ]

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert missed == []
    assert plants


@pytest.mark.parametrize("kind", KINDS)
def test_every_planted_fault_changes_the_file(kind: str, published: Site) -> None:
    unchanged = [
        f"{plant.path}: {plant.what}"
        for plant in sown(published, kind)
        if published.files.get(plant.path) == plant.raw
    ]

    assert unchanged == []
