"""The parking brake's control, set and released.

Takes in which control the truck has; gives out that control in its two positions.
Refuses to show another control than the truck's own, and to guess which way a switch moves.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from guidegen.figures.model import Box, Circle, Curve, Line
from guidegen.figures.sketch import Facts, Sketch, choice

_SET_X, _RELEASED_X = 125, 375
_LOCATION = "parking_brake.location"


def sketch_parking_control(facts: Facts) -> Sketch:
    """Return the control that the truck has."""
    sketch = Sketch(500, 210)
    control = choice(facts, "parking_brake.control")
    if control == "electric_switch":
        _draw_switch(sketch, has_lamp=_has_lamp(facts))
    else:
        _DRAWN[control](sketch)
    sketch.say(" Control on this truck: ", "@parking_brake.control")
    if _LOCATION in facts:
        sketch.say(", ", f"@{_LOCATION}")
    sketch.say(".")
    return sketch


def _draw_knob(sketch: Sketch) -> None:
    for x, out in ((_SET_X, 86), (_RELEASED_X, 26)):
        # The dash is cut through, seen from the side; the driver sits at the right.
        sketch.draw(
            Line(x - 60, 40, x - 60, 140, 8),
            Line(x - 60, 90, x - 60 + out, 90, 12),
            Box(x - 60 + out, 62, 26, 56, rounding=6, solid=True, width=1),
        )
    sketch.draw(*_arrow(_SET_X - 10, _SET_X + 40, 46), *_arrow(_RELEASED_X + 40, _RELEASED_X, 46))
    _write(sketch, ("pulled_out", "pushed_in"))
    sketch.say("The knob pulled out sets the parking brake. Pushed in, it releases it.")


def _draw_lever(sketch: Sketch) -> None:
    for x, end in ((_SET_X, (46, 34)), (_RELEASED_X, (76, 112))):
        across, up = end
        sketch.draw(
            Box(x - 60, 112, 76, 34, rounding=6),
            Line(x - 30, 124, x - 30 + across, up, 14),
            Circle(x - 30, 124, 8, solid=True),
        )
    _write(sketch, ("lever_locked", "lever_back"))
    sketch.say("The hand lever locked sets the parking brake. All the way back, it releases it.")


def _draw_pedal(sketch: Sketch) -> None:
    for x, (across, down) in ((_SET_X, (70, 132)), (_RELEASED_X, (84, 84))):
        sketch.draw(
            Line(x - 70, 146, x + 80, 146, 5),
            Line(x - 50, 40, x - 50 + across, down, 8),
            Line(x - 62 + across, down - 10, x - 34 + across, down + 10, 14),
            Circle(x - 50, 40, 8, solid=True),
        )
    _write(sketch, ("pedal_down", "pedal_up"))
    sketch.say(
        "The parking brake pedal down sets the parking brake. All the way up, it is released."
    )


def _draw_switch(sketch: Sketch, *, has_lamp: bool) -> None:
    """Draw a switch, and the lamp that tells its state: which way it moves differs by truck."""
    for x, lit in ((_SET_X, True), (_RELEASED_X, False)):
        sketch.draw(
            Box(x - 36, 66, 72, 80, rounding=8, width=5),
            Circle(x, 106, 20),
            Curve(f"M{x - 26} 90A31 31 0 0 0 {x - 26} 122"),
            Curve(f"M{x + 26} 90A31 31 0 0 1 {x + 26} 122"),
        )
        if has_lamp:
            sketch.draw(Circle(x, 40, 14, solid=lit))
    _write(sketch, ("switch", "switch"))
    sketch.say("One switch sets and releases the parking brake.")
    if has_lamp:
        sketch.say(" The lamp is on while it is set.")
    sketch.say(" Which way to move the switch differs by truck.")


_DRAWN: Mapping[str, Callable[[Sketch], None]] = MappingProxyType(
    {
        "push_pull_knob": _draw_knob,
        "hand_lever": _draw_lever,
        "pedal": _draw_pedal,
    }
)


def _has_lamp(facts: Facts) -> bool:
    fitted = facts.get("lamps.fitted")
    return (
        fitted is not None and isinstance(fitted.value, tuple) and "parking_brake" in fitted.value
    )


def _arrow(start: int, end: int, y: int) -> tuple[Line, ...]:
    back = 10 if end < start else -10
    return (
        Line(start, y, end, y, 4),
        Line(end + back, y - 8, end, y, 4),
        Line(end + back, y + 8, end, y, 4),
    )


def _write(sketch: Sketch, words: tuple[str, str]) -> None:
    for x, word, state in zip((_SET_X, _RELEASED_X), words, ("set", "released"), strict=True):
        sketch.write(x, 176, word, "middle")
        sketch.write(x, 202, state, "middle")
