"""Dipsticks and level marks.

Takes in the state in which the maker wants a level read; gives out the marks that hold in that
state. Refuses to show a mark of another state: oil that is read cold at a hot mark is overfilled.
"""

from guidegen.figures.model import Box, Circle, Curve, Line
from guidegen.figures.sketch import Facts, Sketch, choice

_WIDTH = 500
_BETWEEN = "engine.oil_between_marks"


def sketch_engine_dipstick(facts: Facts) -> Sketch:
    """Return the end of the engine's dipstick with ADD and FULL."""
    sketch = Sketch(_WIDTH, 146 if _BETWEEN in facts else 96)
    _draw_stick(sketch, 60)
    _draw_marks(sketch, (200, 340))
    # The tip, at the left, is dipped in: less oil reaches less far up the stick.
    sketch.write(200, 32, "mark_add", "middle")
    sketch.write(340, 32, "mark_full", "middle")
    sketch.say("Engine oil dipstick. The oil belongs between ADD and FULL.")
    if _BETWEEN in facts:
        sketch.draw(Curve("M200 98L200 110L340 110L340 98"))
        sketch.write(270, 136, f"@{_BETWEEN}", "middle")
        sketch.say(" From ADD to FULL takes ", f"@{_BETWEEN}", ".")
    sketch.say(" Read it in this state: ", "@engine.oil_check_state", ".")
    return sketch


def sketch_power_steering_level(facts: Facts) -> Sketch:
    """Return the mark that holds in the state of the check."""
    mark = "hot" if choice(facts, "power_steering.check_state") == "hot" else "cold"
    sketch = Sketch(_WIDTH, 120)
    _draw_stick(sketch, 60)
    sketch.draw(Line(270, 40, 270, 90, 7))
    sketch.write(270, 30, f"mark_{mark}", "middle")
    sketch.write(270, 112, "level_here", "middle")
    sketch.say(f"Power steering fluid. Read the {mark.upper()} mark. The fluid is checked ")
    sketch.say("@power_steering.check_state", ".")
    return sketch


def sketch_transmission_level(facts: Facts) -> Sketch:
    """Return the band of the dipstick or sight glass that holds in the state of the check."""
    mark = "cold" if choice(facts, "transmission.check_state") == "cold" else "hot"
    sketch = Sketch(_WIDTH, 130)
    if choice(facts, "transmission.check") == "dipstick":
        _draw_stick(sketch, 60)
        _draw_marks(sketch, (220, 320))
        sketch.say(f"Transmission dipstick. Read between the {mark.upper()} marks.")
    else:
        sketch.draw(Box(200, 36, 140, 66, rounding=33, width=5), Box(212, 58, 116, 22, solid=True))
        sketch.say(f"Sight glass of the transmission. Read the {mark} band.")
    sketch.write(270, 28, f"mark_{mark}", "middle")
    sketch.write(270, 124, "level_here", "middle")
    sketch.say(" State for the check: ", "@transmission.check_state", ".")
    return sketch


def _draw_stick(sketch: Sketch, middle: int) -> None:
    """Draw a stick with its tip at the left and its handle at the right."""
    sketch.draw(
        Curve(f"M140 {middle - 16}L420 {middle - 16}M420 {middle + 16}L140 {middle + 16}"),
        Curve(f"M140 {middle - 16}A16 16 0 0 0 140 {middle + 16}"),
        Curve(f"M420 {middle - 16}L420 {middle + 16}"),
        Circle(444, middle, 24, width=5),
    )


def _draw_marks(sketch: Sketch, ends: tuple[int, int]) -> None:
    """Draw two marks across a stick at the height 60, hatched between them."""
    left, right = ends
    sketch.draw(Line(left, 38, left, 82, 7), Line(right, 38, right, 82, 7))
    for x in range(left + 10, right - 12, 16):
        sketch.draw(Line(x, 74, x + 12, 46, 2))
