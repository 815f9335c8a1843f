import pytest
from hand_made_site import hand_made_site
from plants.faults import KINDS
from plants.fields import PLANTED, Field
from plants.plant import Plant
from plants.proving import Prover

from guidegen.finding import Rule
from guidegen.proof import rules

LEAST = 200


def sown(field: Field, kind: str) -> list[Plant]:
    """Plant faults of one kind in each of the field's units, spread over all of its pages."""
    chosen = []
    for unit in field.units:
        plants = list(KINDS[kind](field.site, unit))
        step = max(1, -(-len(plants) // field.most))
        chosen += plants[::step]
    return chosen


def test_the_site_without_a_fault_is_proved(published: Field) -> None:
    assert published.prover.failures == ()


def test_faults_are_planted_in_their_hundreds(published: Field) -> None:
    assert sum(len(sown(published, kind)) for kind in KINDS) >= LEAST


@pytest.mark.parametrize("kind", KINDS)
def test_every_planted_fault_is_caught_for_what_it_is(
    kind: str, published: Field, request: pytest.FixtureRequest
) -> None:
    plants = sown(published, kind)

    missed = [
        f"{plant.path}: {plant.what}: {sorted(found)}"
        for plant in plants
        if not plant.rules & (found := published.prover.rules_of(plant))
    ]

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert missed == []
    assert plants


@pytest.mark.parametrize("kind", KINDS)
def test_every_planted_fault_changes_the_file(kind: str, published: Field) -> None:
    unchanged = [
        f"{plant.path}: {plant.what}"
        for plant in sown(published, kind)
        if published.site.files.get(plant.path) == plant.raw
    ]

    assert unchanged == []


def test_every_rule_of_the_proof_is_broken_by_some_fault() -> None:
    site = hand_made_site()
    prover = Prover.of(site)
    broken = {
        rule
        for sow in KINDS.values()
        for plant in sow(site, "T-18")
        for rule in prover.rules_of(plant)
    }
    every = {rule.name for rule in vars(rules).values() if isinstance(rule, Rule)}

    # A wrong conversion is one that guide and pages agree on, so no file alone can show it.
    assert every - broken == {"value-converted-wrongly"}
