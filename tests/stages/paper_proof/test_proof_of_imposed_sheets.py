"""Sheets are proved after cards were laid on them, and every planted fault is caught."""

import pytest
from plants.fields import PLANTED
from plants.imposed_faults import CUT, KINDS, POCKET, SHARED, SheetShop
from plants.paper_press import Shop

from guidegen.paper.stock import Duplex
from guidegen.paper_proof.prove_imposed import prove_imposed


@pytest.fixture(scope="session")
def sheet_shop(shop: Shop) -> SheetShop:
    return SheetShop(shop)


@pytest.mark.parametrize("duplex", list(Duplex))
@pytest.mark.parametrize(
    ("cards", "stock"),
    [
        (CUT, "letter"),
        (CUT, "a4"),
        (POCKET, "letter"),
        (SHARED, "letter"),
        ((("T-17", "end-of-day", "a5"),), "a4"),
        ((("T-17", "visor", "letter"), *CUT), "letter"),
    ],
)
def test_sheets_without_a_fault_are_proved(
    sheet_shop: SheetShop, cards: tuple[tuple[str, str, str], ...], stock: str, duplex: Duplex
) -> None:
    pdf, order = sheet_shop.sheets(*cards, stock=stock, duplex=duplex)

    assert [each.what for each in prove_imposed(pdf, order).failures] == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_fault_of_sheets_is_caught_for_what_it_is(
    kind: str, sheet_shop: SheetShop, request: pytest.FixtureRequest
) -> None:
    missed = list[str]()
    planted = 0
    for plant in KINDS[kind](sheet_shop):
        planted += 1
        found = plant.caught_by()
        if not plant.rules & found:
            missed.append(f"{plant.what}: {sorted(found)}")

    request.node.user_properties.append((PLANTED, (planted, planted - len(missed))))
    assert missed == []
    assert planted
