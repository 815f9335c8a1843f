import pytest
from plants.fields import PLANTED
from plants.paper_faults import PAPER_KINDS
from plants.paper_press import Order, Shop

from guidegen.finding import Rule, Severity
from guidegen.paper_proof import rules

LEAST = 500
EVERY = {rule.name: rule for rule in vars(rules).values() if isinstance(rule, Rule)}


@pytest.mark.parametrize("kind", PAPER_KINDS)
def test_every_planted_fault_is_caught_for_what_it_is(
    kind: str, shop: Shop, request: pytest.FixtureRequest
) -> None:
    planted = 0
    missed = list[str]()
    for plant in PAPER_KINDS[kind](shop):
        planted += 1
        assert plant.rules <= set(EVERY)
        assert isinstance(plant.order, Order)
        assert plant.pdf != shop.whole(plant.order), plant.what
        found = plant.order.rules_of(plant.pdf)
        if not plant.rules & found:
            missed.append(f"{plant.what}: {sorted(found)}")

    request.node.user_properties.append((PLANTED, (planted, planted - len(missed))))
    assert missed == []
    assert planted


def test_each_rule_says_what_happens_at_the_truck_and_is_no_mere_warning() -> None:
    assert all(rule.severity is Severity.ERROR for rule in EVERY.values())
    assert all(name.startswith("paper-") and rule.why for name, rule in EVERY.items())
