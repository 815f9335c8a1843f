import pytest

from guidegen.finding import Findings
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.lamps import read_lamps
from guidegen.procedures.model import ProcedureTemplate, TextTemplate, Words
from guidegen.specs.topics.lamps import LAMPS

ENTRY = "{}:\n  act: {}\n  meaning: It is on.\n  do:\n    - Stop at the nearest safe place.\n"


def whole(changed: str = "", text: str = "") -> str:
    """A lamp file with an entry for every lamp, one of them as *text*."""
    entries = [text if name == changed else ENTRY.format(name, "report") for name in LAMPS]
    return "".join(entries)


def read(text: str) -> tuple[dict[str, ProcedureTemplate], list[tuple[int, int, str]]]:
    findings = Findings()
    lamps = read_lamps("lamps.yml", text.encode(), findings)
    return dict(lamps), [(f.span.line, f.span.column, f.rule.name) for f in findings if f.span]


def words(template: TextTemplate) -> str:
    return "".join(part.text for part in template.parts if isinstance(part, Words))


def test_a_lamp_becomes_a_procedure_for_the_trucks_that_have_it() -> None:
    lamps, faults = read(whole())

    assert faults == []
    oil = lamps["lamp-oil-pressure"]
    assert words(oil.title) == "Engine oil pressure"
    assert oil.applies is not None
    assert as_typed(oil.applies) == 'fitted(lamps) and "oil_pressure" in lamps.fitted'
    assert [words(outcome.text) for outcome in oil.expect] == ["It is on."]
    assert oil.lamp is not None
    assert (oil.lamp.id, oil.lamp.color, oil.lamp.act) == ("oil_pressure", "red", "report")


def test_what_it_looks_like_is_said_after_what_it_means() -> None:
    entry = ENTRY.format("abs", "report") + "  symbol: the letters ABS in a ring\n"

    lamps, faults = read(whole("abs", entry))

    assert faults == []
    shown = [words(outcome.text) for outcome in lamps["lamp-abs"].expect]
    assert shown == ["It is on.", "It looks like the letters ABS in a ring."]


def test_the_gravest_act_comes_first_and_red_before_amber() -> None:
    lamps, _ = read(whole("washer_low", ENTRY.format("washer_low", "stop_now")))

    first, second, *_ = lamps
    assert first == "lamp-washer-low"
    sign = lamps[second].lamp
    assert sign is not None
    assert sign.color == "red"


@pytest.mark.parametrize("act", ["stop_now", "stop_soon"])
def test_a_lamp_that_says_stop_has_a_step_that_stops(act: str) -> None:
    entry = f"low_air:\n  act: {act}\n  meaning: It is on.\n  do:\n    - Look at the gauge.\n"

    _, faults = read(whole("low_air", entry))

    assert [rule for *_, rule in faults] == ["lamp-without-stop"]


@pytest.mark.parametrize(
    ("entry", "rule"),
    [
        ("low_air: stop\n", "part-of-wrong-kind"),
        ("low_air:\n  act: panic\n  meaning: On.\n  do: [Stop.]\n", "unknown-act"),
        ("low_air:\n  act: know\n  do: [Stop.]\n", "part-missing"),
        ("low_air:\n  act: know\n  meaning: On.\n  do: [Stop.]\n  colour: red\n", "unknown-part"),
        ("low_air:\n  act: know\n  meaning: On.\n  do: ['Stop. Walk.']\n", "two-instructions"),
        ("low_air:\n  act: know\n  meaning: 'Below {{ low }}.'\n  do: [Stop.]\n", "unknown-fact"),
        ("", "lamp-without-entry"),
        (ENTRY.format("low_air", "know") + ENTRY.format("low_water", "know"), "unknown-lamp"),
    ],
)
def test_each_fault_of_an_entry_is_reported(entry: str, rule: str) -> None:
    _, faults = read(whole("low_air", entry))

    assert [found for *_, found in faults] == [rule]
