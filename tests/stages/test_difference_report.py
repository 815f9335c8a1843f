"""A difference sheet in the terminal."""

from sample_fleet import Warn, guide, procedure

from guidegen.difference_report import differences_as_json, format_differences
from guidegen.differences.compare import compare_guides
from guidegen.guide.model import Chapter, Guide
from guidegen.procedures.model import Signal

SIGN = procedure("sign", "Sign for the truck", ["Sign here."])
LOOK = procedure("look", "Look around", ["Look left."], station="rear")
WARNED = procedure(
    "look",
    "Look around",
    [
        "Look left twice.",
        Warn(Signal.WARNING, "Traffic comes.", "It hits.", "Wait {engine.oil_check_wait}."),
        "Look right.",
    ],
    if_not=("Wait.",),
)
KNOWN = guide(
    {"number": "A-1"},
    {
        "brakes.air.cut_out": "130 psi",
        "brakes.air.tank_count": "3",
        "engine.oil_check_wait": "5 min",
        "lamps.fitted": ["pto", "abs"],
        "pto.control": "lever",
        "seat.kind": "air",
    },
    (Chapter("before-the-day", (LOOK, SIGN)),),
    frozenset({"cruise"}),
)
GIVEN = guide(
    {"number": "B-2"},
    {
        "brakes.air.cut_out": "125 psi",
        "engine.oil_check_wait": "5 min",
        "cruise.lowest_speed": "30 mph",
        "lamps.fitted": ["abs", "low_air"],
        "seat.kind": "air",
    },
    (Chapter("before-the-day", (WARNED,)),),
    frozenset({"pto"}),
)

TEXT = """\
From A-1 to B-2: 8 differences on record
Do not read while driving. Park first.
The owner's manual, local codes and qualified people come first.
This sheet is no substitute for training on the truck.

Brakes
  You count on this to stop the truck.
    Air brake system: Governed (cut-out) pressure
      A-1: 130 psi (895 kPa)
      B-2: 125 psi (860 kPa)
    Air brake system: Air tanks
      A-1: 3
      B-2: Not on record
  This tells you that the brakes need you.
    Warning lamps: low air pressure
      Only on B-2

Controls
  This works in another way than your hands expect.
    Cruise control
      A-1: Not fitted
      B-2: Fitted
        Cruise works from: 30 mph (49 km/h)
    Power take-off
      A-1: Fitted
      B-2: Not fitted

Limits
  This work is not the same on both trucks.
    Look around
      B-2: Done another way. Go by the whole procedure.
        On A-1: behind the truck; on level ground; parking brake set
        On B-2: in the driver's seat; on level ground; parking brake set
        Only on B-2: WARNING Traffic comes. It hits. Wait 5 min.
        Only on B-2: 2. Look right.
        Only on B-2: If not: Wait.
        On A-1: 1. Look left.
        On B-2: 1. Look left twice.

Checks and other work
  This work is not the same on both trucks.
    Sign for the truck
      Only on A-1

Other values
  These lamps are not on both trucks.
    Warning lamps: power take-off on
      Only on A-1
"""


def text_of(known: Guide, given: Guide) -> str:
    # No-break spaces keep amounts together; here they are as other spaces.
    sheet = compare_guides(known, given)
    return format_differences(sheet, known, given).replace("\u00a0", " ")


def test_a_sheet_is_told_gravest_first_with_reasons_and_both_trucks() -> None:
    assert text_of(KNOWN, GIVEN) == TEXT


def test_two_trucks_that_do_not_differ_are_told_as_such() -> None:
    text = text_of(GIVEN, GIVEN)
    assert text.startswith("From B-2 to B-2: no differences on record\n")
    assert "Brakes" not in text


def test_one_difference_is_told_in_the_singular() -> None:
    bare = guide({"number": "A-1"}, {"seat.kind": "air"}, ())
    other = guide({"number": "B-2"}, {"seat.kind": "mechanical"}, ())
    assert text_of(bare, other).startswith("From A-1 to B-2: 1 difference on record\n")


def test_as_json_each_difference_has_kind_rank_and_why() -> None:
    result = differences_as_json(compare_guides(KNOWN, GIVEN), KNOWN, GIVEN)
    assert (result["known"], result["given"]) == ("A-1", "B-2")
    kinds = [each["kind"] for each in result["differences"]]
    assert kinds == [
        "value changed",
        "value lost",
        "lamp gained",
        "thing gained",
        "thing lost",
        "procedure changed",
        "procedure lost",
        "lamp lost",
    ]
    first = result["differences"][0]
    assert first == {
        "kind": "value changed",
        "id": "brakes.air.cut_out",
        "what": "Air brake system: Governed (cut-out) pressure",
        "known": "130\u00a0psi (895\u00a0kPa)",
        "given": "125\u00a0psi (860\u00a0kPa)",
        "only_on": "",
        "more": [],
        "rank": "brakes",
        "reason": "stopping",
        "why": "You count on this to stop the truck.",
    }
