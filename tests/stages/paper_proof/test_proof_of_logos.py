"""The fleet's mark is proved where it stands, and nothing else is taken for it."""

from pathlib import Path

from plants.logo_faults import other_marks, templates, with_logo
from plants.paper_press import Shop

from guidegen.build.print_shop import logo_of
from guidegen.paper_proof.prove import prove_card


def test_a_card_with_the_mark_that_its_theme_states_is_proved(shop: Shop) -> None:
    marked = with_logo(shop)
    logo = logo_of(marked.theme, marked.templates)
    for kind, size in (("brakes", ""), ("visor", "half-letter"), ("round", "pocket")):
        order = marked.order("T-17", kind, size)
        assert order is not None
        verdict = prove_card(marked.draw(order), order.card, order.guide, order.issue, logo=logo)
        assert [each.what for each in verdict.failures] == []


def test_every_fault_of_the_mark_is_caught(shop: Shop, tmp_path: Path) -> None:
    planted = [*templates(shop, tmp_path), *other_marks(shop)]
    missed = [
        f"{plant.what}: {sorted(plant.caught_by())}"
        for plant in planted
        if not plant.rules & plant.caught_by()
    ]

    assert len(planted) == 10
    assert missed == []
