import pytest
from plants.booklet_faults import BOOKLET_KINDS
from plants.booklet_photo_faults import BOOKLET_PHOTO_KINDS, with_photos
from plants.booklet_press import BookletShop
from plants.fields import PLANTED
from plants.paper_press import Shop

from guidegen.guide.model import Caution, Step
from guidegen.paper_proof.unchecked import UNCHECKED

KINDS = {**BOOKLET_KINDS, **BOOKLET_PHOTO_KINDS}
UNITS = ("D-31", "E-02", "R-12", "T-17", "V-08")
"""Air and hydraulic brakes, diesel, gas and electric, with and without a fifth wheel."""


@pytest.fixture(scope="session")
def booklets(shop: Shop) -> BookletShop:
    return BookletShop(shop)


@pytest.mark.parametrize("unit", UNITS)
def test_the_booklet_of_every_truck_is_proved(unit: str, booklets: BookletShop) -> None:
    booklet = booklets.whole_guide(unit, "letter")
    guide = booklet.order.guide

    verdict = booklet.prove(booklets.whole(booklet))

    procedures = [each for chapter in guide.chapters for each in chapter.procedures]
    blocks = [block for each in procedures for block in each.blocks]
    assert verdict.failures == ()
    assert verdict.unchecked == UNCHECKED
    assert verdict.counts.codes == 1
    assert verdict.counts.procedures == len(procedures)
    assert verdict.counts.steps == sum(isinstance(block, Step) for block in blocks)
    assert verdict.counts.cautions == sum(isinstance(block, Caution) for block in blocks)
    assert verdict.counts.values >= len(guide.facts)


@pytest.mark.parametrize(("unit", "size"), [("E-02", "a4"), ("T-17", "a5")])
def test_booklets_of_every_size_are_proved(unit: str, size: str, booklets: BookletShop) -> None:
    booklet = booklets.whole_guide(unit, size)

    assert booklet.prove(booklets.whole(booklet)).failures == ()


def test_the_booklet_of_one_truck_does_not_pass_for_that_of_its_twin(booklets: BookletShop) -> None:
    drawn = booklets.whole(booklets.short_guide("T-17", "letter"))

    found = booklets.short_guide("T-18", "letter").rules_of(drawn)

    assert {"paper-unit-differs", "paper-title-differs", "paper-code-differs"} <= found


def test_a_booklet_with_photos_is_proved(booklets: BookletShop) -> None:
    booklet = with_photos(booklets)

    assert booklet.prove(booklets.whole(booklet)).failures == ()


@pytest.mark.parametrize("kind", KINDS)
def test_every_fault_planted_in_a_booklet_is_caught_for_what_it_is(
    kind: str, booklets: BookletShop, request: pytest.FixtureRequest
) -> None:
    planted = 0
    missed = list[str]()
    for plant in KINDS[kind](booklets):
        planted += 1
        found = plant.order.rules_of(plant.pdf)
        if not plant.rules & found:
            missed.append(f"{plant.what}: {sorted(found)}")

    request.node.user_properties.append((PLANTED, (planted, planted - len(missed))))
    assert missed == []
    assert planted
