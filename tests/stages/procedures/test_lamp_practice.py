"""Colors and acts of lamps, held against published practice as far as it was read."""

import re
from pathlib import Path

import pytest

from guidegen.finding import Findings
from guidegen.procedures.lamps import read_lamps
from guidegen.procedures.model import ProcedureTemplate, Words
from guidegen.specs.topics.lamps import LAMPS

READ_IN_THE_RULE = {
    "low_beam": "green",
    "high_beam": "blue",
    "turn_left": "green",
    "turn_right": "green",
    "hazard": "red",
    "tire_pressure": "amber",
}
"""UN R121, Table 1, rows that were read (reference L5); the lamp of the tires: L6. What the rule
calls yellow is called amber here."""

FROM_MEMORY = {
    "brake_system": "red",
    "oil_pressure": "red",
    "coolant_temperature": "red",
    "charging": "red",
    "seat_belt": "red",
    "abs": "amber",
    "low_fuel": "amber",
    "malfunction_indicator": "amber",
    "wait_to_start": "amber",
    "stability_control": "amber",
}
"""UN R121 and FMVSS 101, rows that nobody has read for this project (reference L6, from memory):
where the rule says otherwise, this list gives way."""

_STOPS = re.compile(r"\b(?:stop|park|parking brake|lower|fasten|latch|release)", re.IGNORECASE)
_HAS_IT_SEEN_TO = re.compile(
    r"\b(?:report|shop|checked|fill|drain|disengage|switch|stop|wait|regeneration|lower|add)",
    re.IGNORECASE,
)
_ALARM = re.compile(r"\b(?:at once|danger|do not drive|get out|call the shop)", re.IGNORECASE)


@pytest.fixture(scope="module")
def lamps(project_root: Path) -> dict[str, ProcedureTemplate]:
    path = project_root / "site_templates" / "lamps.yml"
    findings = Findings()
    found = read_lamps("lamps.yml", path.read_bytes(), findings)
    assert not list(findings)
    return dict(found)


def done(template: ProcedureTemplate) -> str:
    parts = [part for step in template.steps for part in step.text.parts]
    return " ".join(part.text for part in parts if isinstance(part, Words))


@pytest.mark.parametrize(("lamp", "color"), READ_IN_THE_RULE.items())
def test_a_lamp_has_the_color_that_the_rule_gives_it(lamp: str, color: str) -> None:
    assert LAMPS[lamp].color == color


@pytest.mark.parametrize(("lamp", "color"), FROM_MEMORY.items())
def test_a_lamp_has_the_color_that_is_remembered_of_the_rule(lamp: str, color: str) -> None:
    assert LAMPS[lamp].color == color


def test_blue_is_for_the_high_beam_only() -> None:
    # ISO 2575, clause 5 (reference L7, from memory); read of UN R121 is only the lamp's own row.
    assert [name for name, lamp in LAMPS.items() if lamp.color == "blue"] == ["high_beam"]


def test_red_asks_for_a_stop_amber_for_care_and_green_and_blue_alarm_nobody(
    lamps: dict[str, ProcedureTemplate],
) -> None:
    # The general meaning of colors in ISO 2575, clause 5 (reference L7, from memory). The lamp of
    # the hazard flashers is red by UN R121 and tells what is on.
    told = {sign.id: (sign, done(each)) for each in lamps.values() if (sign := each.lamp)}
    assert set(told) == set(LAMPS)
    for name, (sign, words) in told.items():
        match sign.color:
            case "red" if name != "hazard":
                assert _STOPS.search(words), name
            case "amber":
                assert _HAS_IT_SEEN_TO.search(words), name
                assert sign.act != "stop_now", name
            case "green" | "blue":
                assert sign.act == "know", name
                assert not _ALARM.search(words), name
            case _:
                assert name == "hazard"
