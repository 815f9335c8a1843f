"""The truck's tires, seen from above.

Takes in the axle configuration and the tires by position; gives out every tire in its place with
the cold pressure of its position. Refuses tires that do not pair up on axles.
"""

from guidegen.figures.model import Box, Line
from guidegen.figures.sketch import Facts, Sketch
from guidegen.guide.drawable import AxleGroup, axle_groups

_MIDDLE, _TOP = 130, 92
_TRACK = 74
"""From the middle of the truck to the outer side of its outer tires."""

_TIRE_WIDE, _TIRE_LONG, _APART = 20, 54, 4
_ROW, _GROUP_GAP = 68, 30
_WORDS_X = 232


class DoNotPair(ValueError):
    """Tires and axle configuration do not agree; no figure should have been asked for."""


def sketch_tire_plan(facts: Facts) -> Sketch:
    """Return all tires, front at the top, with count and cold pressure beside each position."""
    groups = axle_groups(facts)
    if groups is None:
        raise DoNotPair
    axles = sum(group.axles for group in groups)
    height = _TOP + axles * _ROW + (len(groups) - 1) * _GROUP_GAP + 10
    sketch = Sketch(500, height)
    top = _TOP
    _draw_frame(sketch, height)
    sketch.write(_MIDDLE, 24, "front", "middle")
    sketch.say("Tires seen from above, not to scale. Cold pressures:")
    for place, group in enumerate(groups):
        _draw_group(sketch, group, top)
        _write_group(sketch, group, top, facts)
        end = "." if place == len(groups) - 1 else ";"
        sketch.say(f" {group.position} ", *_in_words(group, facts), end)
        top += group.axles * _ROW + _GROUP_GAP
    if groups[-1].position == "tag":
        sketch.say(" A tag, pusher or lift axle can also stand ahead of the drive axles.")
    return sketch


def _draw_frame(sketch: Sketch, height: int) -> None:
    """Two rails, a front bumper and an arrow that points ahead."""
    sketch.draw(
        Line(_MIDDLE - 18, 64, _MIDDLE - 18, height - 8, 4),
        Line(_MIDDLE + 18, 64, _MIDDLE + 18, height - 8, 4),
        Line(_MIDDLE - 70, 64, _MIDDLE + 70, 64, 6),
        Line(_MIDDLE, 56, _MIDDLE, 34, 4),
        Line(_MIDDLE - 9, 44, _MIDDLE, 34, 4),
        Line(_MIDDLE + 9, 44, _MIDDLE, 34, 4),
    )


def _draw_group(sketch: Sketch, group: AxleGroup, top: int) -> None:
    for axle in range(group.axles):
        y = top + axle * _ROW
        across = y + _TIRE_LONG // 2
        sketch.draw(Line(_MIDDLE - _TRACK, across, _MIDDLE + _TRACK, across, 5))
        for tire in range(group.tires_at_end):
            inward = tire * (_TIRE_WIDE + _APART)
            left, right = _MIDDLE - _TRACK + inward, _MIDDLE + _TRACK - _TIRE_WIDE - inward
            for x in (left, right):
                box = Box(x, y, _TIRE_WIDE, _TIRE_LONG, rounding=6, solid=True, width=1)
                sketch.draw(box)


def _write_group(sketch: Sketch, group: AxleGroup, top: int, facts: Facts) -> None:
    middle = top + (group.axles * _ROW - _ROW + _TIRE_LONG) // 2
    bottom = top + group.axles * _ROW - _ROW + _TIRE_LONG
    sketch.draw(Line(_WORDS_X - 14, top, _WORDS_X - 14, bottom, 3))
    lines = 2 if f"tires.{group.position}.cold_pressure" in facts else 1
    y = middle + 8 - 13 * (lines - 1)
    sketch.write(_WORDS_X, y, group.position)
    sketch.write(_WORDS_X + 100, y, f"@tires.{group.position}.count", "end")
    sketch.write(_WORDS_X + 108, y, "tires")
    if lines > 1:
        sketch.write(_WORDS_X, y + 26, f"@tires.{group.position}.cold_pressure")


def _in_words(group: AxleGroup, facts: Facts) -> tuple[str, ...]:
    count, pressure = (f"tires.{group.position}.{part}" for part in ("count", "cold_pressure"))
    told = (f"@{count}", " tires")
    return (*told, " at ", f"@{pressure}") if pressure in facts else told
