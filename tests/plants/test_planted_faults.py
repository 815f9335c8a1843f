from collections.abc import Callable

import pytest
from plants.cord_table_faults import CORD_KINDS, PAGE, TRUCK
from plants.faults import KINDS
from plants.fields import PLANTED, Field
from plants.house_rule_faults import HOUSE_RULE_KINDS, READ_BACK
from plants.house_rule_faults import PAGE as RULES_PAGE
from plants.plant import Plant, pages_of

from guidegen.finding import Rule
from guidegen.proof import rules

LEAST = 200

OF_THE_SITE = frozenset(
    {
        *("hidden_by_a_stylesheet", "changed_by_a_stylesheet", "figures_hidden_by_a_stylesheet"),
        *("fleet_page_changed", "app_files_changed"),
    }
)
"""Kinds that change what no truck has alone: planted for one truck, they are planted for all."""


def sown(field: Field, kind: str) -> list[Plant]:
    """Plant faults of one kind in each of the field's units, spread over all of its pages."""
    chosen = []
    for unit in field.units[: 1 if kind in OF_THE_SITE else None]:
        plants = list(KINDS[kind](field.site, unit))
        step = max(1, -(-len(plants) // field.most))
        chosen += plants[::step]
    return chosen


def test_the_site_without_a_fault_is_proved(published: Field) -> None:
    assert published.prover.failures == ()


@pytest.mark.parametrize("kind", KINDS)
def test_every_planted_fault_is_caught_for_what_it_is(
    kind: str, published: Field, request: pytest.FixtureRequest
) -> None:
    plants = sown(published, kind)
    unchanged = [
        f"{plant.path}: {plant.what}"
        for plant in plants
        if published.site.files.get(plant.path) == plant.raw
    ]

    missed = [
        f"{plant.path}: {plant.what}: {sorted(found)}"
        for plant in plants
        if not plant.rules & (found := published.prover.rules_of(plant))
    ]

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert unchanged == []
    assert missed == []
    assert plants


def test_faults_of_every_kind_break_every_rule_of_the_proof(
    field_of: Callable[[str], Field],
) -> None:
    site, prover = field_of("hand-made").site, field_of("hand-made").prover
    found = [prover.rules_of(plant) for sow in KINDS.values() for plant in sow(site, "T-17")]
    broken = frozenset().union(*found)
    every = {rule.name for rule in vars(rules).values() if isinstance(rule, Rule)}

    assert len(found) >= LEAST
    # A wrong conversion is one that guide and pages agree on, so no file alone can show it; an
    # unsound question is one that quiz and page agree on.
    assert every - broken == {"value-converted-wrongly", "question-unsound"}


def test_the_table_of_cords_is_among_what_is_proved(field_of: Callable[[str], Field]) -> None:
    field = field_of("demo")
    assert field.prover.failures == ()
    assert "no cord of this length" in field.site.files[PAGE].decode()


@pytest.mark.parametrize("kind", CORD_KINDS)
def test_every_fault_of_the_table_of_cords_is_caught(
    kind: str, field_of: Callable[[str], Field], request: pytest.FixtureRequest
) -> None:
    field = field_of("demo")
    page = field.site.files[PAGE].decode()
    plants = [
        Plant(what, PAGE, changed.encode(), rules, TRUCK)
        for what, changed, rules in CORD_KINDS[kind](page)
        if changed != page
    ]

    missed = [
        f"{plant.what}: {sorted(found)}"
        for plant in plants
        if not plant.rules & (found := field.prover.rules_of(plant))
    ]

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert missed == []
    assert len(plants) >= 3


def test_the_librarys_words_for_a_lamp_that_the_fleet_words_otherwise_are_refused(
    field_of: Callable[[str], Field],
) -> None:
    own, of_library = "by radio the same day", "the same day"
    field = field_of("demo")
    plants = [
        Plant("the library's words", path, page.replace(own, of_library).encode(), READ_BACK, TRUCK)
        for path, page in pages_of(field.site, TRUCK).items()
        if own in page
    ]

    assert plants
    assert all(plant.rules & field.prover.rules_of(plant) for plant in plants)


def test_house_rules_of_the_fleet_are_among_what_is_proved(
    field_of: Callable[[str], Field],
) -> None:
    assert "Drive no faster than 5 mph" in field_of("demo").site.files[RULES_PAGE].decode()


@pytest.mark.parametrize("kind", HOUSE_RULE_KINDS)
def test_every_fault_of_the_house_rules_is_caught(
    kind: str, field_of: Callable[[str], Field], request: pytest.FixtureRequest
) -> None:
    field = field_of("demo")
    page = field.site.files[RULES_PAGE].decode()
    plants = [
        Plant(what, RULES_PAGE, changed.encode(), rules, TRUCK)
        for what, changed, rules in HOUSE_RULE_KINDS[kind](page)
        if changed != page
    ]

    missed = [
        f"{plant.what}: {sorted(found)}"
        for plant in plants
        if not (found := field.prover.rules_of(plant)) or not plant.rules & found
    ]

    request.node.user_properties.append((PLANTED, (len(plants), len(plants) - len(missed))))
    assert missed == []
    assert len(plants) >= 3
