import pytest
from plants.fields import PLANTED
from plants.paper_press import Shop
from plants.training_faults import TRAINING_KINDS, TrainingShop

UNITS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")


@pytest.fixture(scope="session")
def trainers(shop: Shop) -> TrainingShop:
    return TrainingShop(shop)


@pytest.mark.parametrize("size", ["letter", "a4"])
@pytest.mark.parametrize("unit", UNITS)
def test_the_quiz_of_every_truck_is_proved(unit: str, size: str, trainers: TrainingShop) -> None:
    sheet = trainers.quiz(unit, size)

    verdict = sheet.prove(trainers.draw(sheet))

    assert verdict.failures == ()
    assert verdict.counts.codes == 1
    assert verdict.counts.values > 0


@pytest.mark.parametrize("size", ["letter", "a4"])
@pytest.mark.parametrize("unit", UNITS)
def test_the_sign_off_sheet_of_every_truck_is_proved(
    unit: str, size: str, trainers: TrainingShop
) -> None:
    sheet = trainers.signoff(unit, size)

    verdict = sheet.prove(trainers.draw(sheet))

    assert verdict.failures == ()
    assert verdict.counts.codes == 1
    chapters = sheet.order.guide.chapters
    assert verdict.counts.procedures == sum(len(each.procedures) for each in chapters)


@pytest.mark.parametrize("kind", TRAINING_KINDS)
def test_every_fault_planted_in_a_trainers_sheet_is_caught_for_what_it_is(
    kind: str, trainers: TrainingShop, request: pytest.FixtureRequest
) -> None:
    planted = 0
    missed = list[str]()
    for plant in TRAINING_KINDS[kind](trainers):
        planted += 1
        found = plant.order.rules_of(plant.pdf)
        if not plant.rules & found:
            missed.append(f"{plant.what}: {sorted(found)}")

    request.node.user_properties.append((PLANTED, (planted, planted - len(missed))))
    assert missed == []
    assert planted
