from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.finding import Findings
from guidegen.source import SourceFile, Span
from guidegen.source_text import unseen_character
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS
from guidegen.specs.fields import ChoicesField
from guidegen.specs.model import Spec
from guidegen.workbook.apply import expected_own
from guidegen.workbook.model import Change, Kind, Place
from guidegen.workbook.records import record_of
from guidegen.workbook.yaml_edit import remove, set_not_fitted, set_value
from guidegen.workbook.yaml_text import in_yaml
from guidegen.yaml_nodes import Table, read_yaml

ROOT = Path(__file__).resolve().parents[3]
DEMO = [
    path.read_text(encoding="utf-8")
    for folder in ("units", "models")
    for path in sorted((ROOT / "specs" / folder).glob("*.yml"))
]
HANDMADE = """\
# Head.
unit: T-1
model: m

# Above the brakes.
brakes:   # beside the brakes
  # Above air.
  air:
    cut_in: 100 psi  # beside cut-in

    drain: "automatic"
  hydraulic: not fitted  # never was
tires:
  steer: {size: 11R22.5, count: 2}  # in braces
lamps:
  fitted:
    - low_air   # the red one
    # a line between
    - abs
gas_fuel: {detector: 'yes'}
# Tail.
"""

LISTS = {n for n, f in EQUIPMENT_FACTS.items() if isinstance(f.field, ChoicesField)}
TEXTS = (
    st.text(min_size=1, max_size=30)
    .map(lambda text: " ".join(text.split()))
    .filter(lambda text: text and not unseen_character(text) and text.isprintable())
)
FACTS = st.sampled_from(sorted({*EQUIPMENT_FACTS} - LISTS))
SECTIONS = st.sampled_from(sorted(EQUIPMENT_SECTIONS))
EDITS = st.lists(
    st.one_of(
        st.tuples(st.just("set"), FACTS, TEXTS),
        st.tuples(st.just("remove"), FACTS, st.just("")),
        st.tuples(st.just("not fitted"), SECTIONS, st.just("")),
    ),
    min_size=1,
    max_size=6,
)


def own(text: str) -> dict[str, str]:
    """Return what the text states, by dotted name; its values need not be believable."""
    span = Span(SourceFile("", ""), 1, 1, 1, 1)
    spec = Spec("T-1", "m", span, span, {}, {}, {})
    return dict(record_of(Kind.TRUCK, spec, "", text.encode()).own)


def comments(text: str) -> list[str]:
    return [line.strip() for line in text.split("\n") if line.strip().startswith("#")]


@settings(max_examples=60)
@given(st.sampled_from(DEMO), EDITS)
def test_edits_change_what_they_say_and_nothing_else(
    text: str, edits: list[tuple[str, str, str]]
) -> None:
    for what, name, value in edits:
        before = own(text)
        after: str | None
        if what == "set":
            after, text = value, set_value(text, name, value)
        elif what == "remove":
            after, text = None, remove(text, name)
        else:
            after, text = "not fitted", set_not_fitted(text, name)
        change = Change(Kind.TRUCK, "T-1", name, None, after, Place("", 1, 1), "")

        findings = Findings()
        assert isinstance(read_yaml("", text.encode(), findings), Table)
        assert not len(findings), (list(findings), text)
        assert own(text) == expected_own(before, [change])


@settings(max_examples=30)
@given(st.sampled_from(DEMO), FACTS, TEXTS)
def test_comments_and_order_stay_when_a_value_is_set(text: str, name: str, value: str) -> None:
    after = set_value(text, name, value)

    assert comments(after) == comments(text)
    kept = [line for line in text.split("\n") if line in after.split("\n")]
    assert len(text.split("\n")) - len(kept) <= 1


@settings(max_examples=80)
@given(TEXTS, st.booleans(), st.sampled_from(["", "'", '"']))
def test_any_text_reads_back_from_yaml(text: str, is_flow: bool, style: str) -> None:  # noqa: FBT001 -- drawn by hypothesis
    written = in_yaml(text, is_flow=is_flow, style=style)

    line = f"k: {{v: {written}, w: x}}\n" if is_flow else f"k: {written}\n"
    table = read_yaml("", line.encode(), Findings())
    assert table is not None
    node = table.get("k")
    node = node.get("v") if isinstance(node, Table) else node
    assert getattr(node, "text", None) == text


@pytest.mark.parametrize(
    ("name", "value", "old", "new"),
    [
        ("brakes.air.cut_in", "105 psi", "cut_in: 100 psi  #", "cut_in: 105 psi  #"),
        ("brakes.air.drain", "pull_cords", 'drain: "automatic"', 'drain: "pull_cords"'),
        (
            "brakes.air.cut_out",
            "130 psi",
            "# beside cut-in\n",
            "# beside cut-in\n    cut_out: 130 psi\n",
        ),
        (
            "brakes.hydraulic.fluid",
            "DOT 3",
            "hydraulic: not fitted  # never was\n",
            "hydraulic:  # never was\n    fluid: DOT 3\n",
        ),
        ("tires.steer.load_range", "H", "11R22.5, count", "11R22.5, load_range: H, count"),
        ("tires.steer.size", "a, b", "size: 11R22.5", 'size: "a, b"'),
        ("gas_fuel.tank_count", "2", "{detector", "{tank_count: 2, detector"),
        ("gas_fuel.detector", "no", "'yes'", "'no'"),
    ],
)
def test_a_value_is_set_in_the_files_own_manner(name: str, value: str, old: str, new: str) -> None:
    assert old in HANDMADE
    assert set_value(HANDMADE, name, value) == HANDMADE.replace(old, new)


def test_words_of_a_list_keep_their_lines_and_comments() -> None:
    after = set_value(HANDMADE, "lamps.fitted", ("low_air", "charging", "abs", "pto"))

    assert after == HANDMADE.replace(
        "    # a line between\n    - abs\n",
        "    # a line between\n    - charging\n    - abs\n    - pto\n",
    )


def test_a_section_in_braces_becomes_not_fitted_in_place() -> None:
    after = set_not_fitted(HANDMADE, "tires.steer")

    assert "  steer: not fitted  # in braces\n" in after


def test_the_last_value_in_braces_takes_its_section_out() -> None:
    assert "gas_fuel" not in remove(HANDMADE, "gas_fuel.detector")
    assert remove(HANDMADE, "tires.steer.size") == HANDMADE.replace("size: 11R22.5, ", "")
    assert remove(HANDMADE, "tires.steer.count") == HANDMADE.replace(", count: 2", "")
