"""A quiz for the first truck of the sample fleet, with values of two more trucks to choose from."""

from dataclasses import replace

from sample_fleet import TRUCKS, fact

from guidegen.guide.model import Guide
from guidegen.training.write_quiz import FleetKnowledge, write_quiz

TRUCK = TRUCKS[0]
_OTHERS = (
    {
        "brakes.air.cut_out": "120 psi",
        "brakes.air.low_air_warning": "60 psi",
        "tires.steer.cold_pressure": "120 psi",
        "engine.oil_capacity": "36 qt",
        "engine.oil_grade": "SAE 5W-30, API FA-4",
    },
    {
        "brakes.air.cut_out": "125 psi",
        "brakes.air.low_air_warning": "70 psi",
        "tires.steer.cold_pressure": "95 psi",
        "engine.oil_capacity": "28 qt",
        "engine.oil_grade": "SAE 10W-40, API CJ-4",
    },
)


def _other(typed: dict[str, str]) -> Guide:
    known = {name: fact(name, value) for name, value in typed.items() if name in TRUCK.facts}
    return replace(TRUCK, facts={**TRUCK.facts, **known})


QUIZ = write_quiz(TRUCK, FleetKnowledge.of([*TRUCKS, *map(_other, _OTHERS)]))
