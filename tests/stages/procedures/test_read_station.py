"""A station can hang on the truck, and every truck has one."""

from pathlib import Path

from guidegen.finding import Findings
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.read import read_procedure

SOUND = Path(__file__).parents[2] / "specimens" / "sound_procedures" / "two-stations.yml"


def test_stations_are_read_in_their_order_and_the_last_is_for_all_others() -> None:
    template = read_procedure("two-stations.yml", SOUND.read_bytes(), Findings())

    assert template is not None
    assert [(each.station, as_typed(each.when)) for each in template.stations] == [
        ("left_side", 'on_record(battery.reached) and battery.reached == "left_side"')
    ]
    assert template.station == "around"


def test_an_empty_list_of_stations_is_found() -> None:
    raw = SOUND.read_text(encoding="utf-8")
    begin, end = raw.index("station:"), raw.index("steps:")
    findings = Findings()

    read_procedure("two-stations.yml", f"{raw[:begin]}station: []\n{raw[end:]}".encode(), findings)
    assert [finding.rule.name for finding in findings] == ["part-missing"]


def test_a_condition_of_a_station_that_never_holds_is_found() -> None:
    raw = SOUND.read_text(encoding="utf-8").replace("when: on_record", "when: not on_record")
    findings = Findings()

    read_procedure("two-stations.yml", raw.encode(), findings)
    assert [finding.rule.name for finding in findings] == ["dead-condition"]
