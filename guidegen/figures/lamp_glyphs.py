"""The strokes of the lamp symbols, drawn for this library.

Takes in nothing; gives out, by lamp, strokes and solids on a grid of 96 by 96, and a word if the
lamp carries one. Refuses two lamps of one shape: color alone tells no lamp.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Glyph:
    """One symbol."""

    strokes: str = ""
    """Path of its lines."""

    solids: str = ""
    """Path of what is filled."""

    word: str = ""
    """Key of ``FIGURE_WORDS``; stands in the middle."""

    word_y: int = 55


def _ring(x: int, y: int, radius: int) -> str:
    return (
        f"M{x - radius} {y}A{radius} {radius} 0 0 1 {x + radius} {y}"
        f"A{radius} {radius} 0 0 1 {x - radius} {y}Z"
    )


_WHEEL = _ring(48, 48, 24)
_SHOES = "M18 28A36 36 0 0 0 18 68M78 28A36 36 0 0 1 78 68"
_BANG = f"M48 34L48 52{_ring(48, 61, 1)}"
_ENGINE = "M22 40L34 40L34 32L60 32L60 40L72 40L72 50L80 50L80 66L66 66L58 72L34 72L34 58L22 58Z"
_TANK = "M28 40L68 40L68 78L28 78Z"
_TRUCK = "M14 64L14 30L54 30L54 64ZM54 42L70 42L82 54L82 64L54 64"
_TIRES = _ring(28, 68, 6) + _ring(68, 68, 6)
_THERMOMETER = f"M44 54L44 20A5 5 0 0 1 54 20L54 54{_ring(49, 62, 9)}"
_WAVES = "M18 78A8 8 0 0 0 34 78A8 8 0 0 0 50 78A8 8 0 0 0 66 78A8 8 0 0 0 80 78"
_BATTERY = "M18 34L78 34L78 74L18 74ZM28 34L28 26L38 26L38 34M58 34L58 26L68 26L68 34"
_BOLT = "M52 16L34 52L47 52L42 80L62 42L49 42Z"
_FILTER = "M24 32L72 32L72 66L24 66ZM10 49L24 49M72 49L86 49"
_DROP = "M48 20L62 44A17 17 0 1 1 34 44Z"
_PUMP = (
    "M26 78L26 22L56 22L56 78ZM34 30L48 30L48 42L34 42Z"
    "M56 44L66 44L66 66A6 6 0 0 0 78 66L78 36L68 26"
)
_AXLE = f"M26 48L70 48{_ring(18, 48, 8)}{_ring(78, 48, 8)}"
_CROSS = "M38 38L58 58M58 38L38 58"
_GEAR = f"{_ring(48, 48, 20)}M48 18L48 28M48 68L48 78M18 48L28 48M68 48L78 48"
_GEAR_TEETH = "M27 27L34 34M62 62L69 69M69 27L62 34M34 62L27 69"
_LAMP = "M52 26A22 22 0 0 0 52 70Z"
_CAR_BACK = "M26 44L34 26L62 26L70 44L70 60L26 60Z"
_SKID = "M30 66A8 8 0 0 1 38 74A8 8 0 0 0 46 82M56 66A8 8 0 0 1 64 74A8 8 0 0 0 72 82"
_PLUG = "M36 20L36 36M60 20L60 36M28 36L68 36L68 50A20 20 0 0 1 28 50ZM48 70L48 84"

GLYPHS: Mapping[str, Glyph] = MappingProxyType(
    {
        "low_air": Glyph(f"{_ring(48, 50, 30)}M48 50L28 64M48 26L48 20", _ring(48, 50, 4)),
        "parking_brake": Glyph(f"{_WHEEL}{_SHOES}M41 62L41 35L50 35A8 8 0 0 1 50 51L41 51"),
        "brake_system": Glyph(f"{_WHEEL}{_SHOES}{_BANG}"),
        "stop_engine": Glyph("M34 16L62 16L80 34L80 62L62 80L34 80L16 62L16 34Z", word="stop"),
        "oil_pressure": Glyph(
            "M14 44L26 36L34 44L56 44L82 34L62 66L30 66L30 50L18 52ZM40 44L40 36M34 36L48 36",
            "M82 46L87 56A6 6 0 1 1 77 56Z",
        ),
        "coolant_temperature": Glyph(f"{_THERMOMETER}{_WAVES}M54 26L64 26M54 38L64 38"),
        "coolant_level": Glyph(
            f"{_TANK}M40 40L40 30L56 30L56 40M14 66A7 7 0 0 0 28 66M34 64L62 64"
        ),
        "charging": Glyph(f"{_BATTERY}M26 54L38 54M58 54L70 54M64 48L64 60"),
        "seat_belt": Glyph(f"{_ring(48, 26, 10)}M28 80L32 44L64 44L68 80ZM34 46L66 78"),
        "check_engine": Glyph(_ENGINE, word="check", word_y=26),
        "malfunction_indicator": Glyph(_ENGINE),
        "abs": Glyph(
            f"{_ring(48, 48, 28)}M10 26A44 44 0 0 0 10 70M86 26A44 44 0 0 1 86 70", word="abs"
        ),
        "trailer_abs": Glyph("M12 26L84 26L84 62L12 62Z" + _ring(62, 70, 7), word="abs", word_y=52),
        "traction_control": Glyph(f"{_CAR_BACK}{_SKID}"),
        "stability_control": Glyph(f"{_CAR_BACK}{_SKID}M48 8L56 20L40 20Z"),
        "filter_regeneration": Glyph(
            _FILTER, _ring(38, 42, 3) + _ring(50, 54, 3) + _ring(60, 42, 3) + _ring(40, 58, 3)
        ),
        "high_exhaust_temperature": Glyph(
            "M10 66L54 66A8 8 0 0 0 54 50L10 50M66 58A6 6 0 0 1 76 58A6 6 0 0 0 86 58"
            "M36 40L36 18A4 4 0 0 1 44 18L44 40"
        ),
        "regeneration_inhibited": Glyph(f"{_FILTER}{_CROSS}"),
        "def_level": Glyph("M14 60L14 80L82 80L82 60M14 70L82 70", word="def", word_y=44),
        "low_fuel": Glyph(_PUMP),
        "water_in_fuel": Glyph(f"{_DROP}M18 78L78 78M22 68L32 68M64 68L74 68"),
        "wait_to_start": Glyph(
            "M12 48L24 48A8 12 0 1 1 40 48A8 12 0 1 1 56 48A8 12 0 1 1 72 48L84 48"
        ),
        "differential_lock": Glyph(f"{_AXLE}{_CROSS}"),
        "inter_axle_lock": Glyph(
            "M20 26L76 26M20 70L76 70M48 26L48 70M38 38L58 58M58 38L38 58M12 18L12 34M84 18L84 34"
            "M12 62L12 78M84 62L84 78"
        ),
        "pto": Glyph(f"{_ring(48, 48, 34)}M82 48L92 48M4 48L14 48", word="pto"),
        "transmission_temperature": Glyph(
            f"{_GEAR}{_GEAR_TEETH}M44 54L44 38A4 4 0 0 1 52 38L52 54Z"
        ),
        "check_transmission": Glyph(f"{_GEAR}{_GEAR_TEETH}M48 36L48 52{_ring(48, 59, 1)}"),
        "air_restriction": Glyph(
            "M20 26L76 26L66 70L30 70ZM36 26L40 70M48 26L48 70M60 26L56 70M48 80L48 90"
        ),
        "washer_low": Glyph(
            "M14 70A52 52 0 0 1 82 70ZM48 52L48 24M36 34A14 14 0 0 1 48 24A14 14 0 0 1 60 34"
        ),
        "suspension_dump": Glyph(
            "M20 20L76 20M20 76L76 76M34 20L34 56M62 20L62 56M48 30L48 62M40 54L48 64L56 54"
        ),
        "body_up": Glyph(
            f"M14 70L82 70M20 62L72 24L80 36L34 62Z{_ring(28, 78, 6)}{_ring(68, 78, 6)}"
        ),
        "cab_lock": Glyph("M26 46L70 46L70 80L26 80ZM34 46L34 32A14 14 0 0 1 62 32M48 58L48 68"),
        "engine_brake": Glyph(f"{_ENGINE}M12 26L12 74M86 26L86 36M20 84L76 84"),
        "cruise": Glyph(
            "M16 66A34 34 0 1 1 80 66M48 58L66 36M76 14L84 22L76 30M84 22L66 22",
            _ring(48, 58, 5),
        ),
        "turn_left": Glyph(solids="M10 48L44 20L44 36L84 36L84 60L44 60L44 76Z"),
        "turn_right": Glyph(solids="M86 48L52 20L52 36L12 36L12 60L52 60L52 76Z"),
        "hazard": Glyph("M48 14L86 80L10 80ZM48 36L68 70L28 70Z"),
        "low_beam": Glyph(f"{_LAMP}M60 30L84 40M60 46L84 56M60 62L84 72"),
        "high_beam": Glyph(f"{_LAMP}M60 30L86 30M60 42L86 42M60 54L86 54M60 66L86 66"),
        "gas_leak": Glyph(
            "M12 52L84 52M20 62A6 6 0 0 0 30 62A6 6 0 0 1 40 62M56 62A6 6 0 0 0 66 62"
            "A6 6 0 0 1 76 62M26 74L70 74",
            word="gas",
            word_y=42,
        ),
        "gas_fuel_low": Glyph(
            "M20 56L76 56A12 12 0 0 1 76 82L20 82A12 12 0 0 1 20 56ZM28 56L28 82",
            word="gas",
            word_y=42,
        ),
        "high_voltage_fault": Glyph("M48 8L90 84L6 84Z", "M52 30L38 58L47 58L43 76L58 50L49 50Z"),
        "insulation_fault": Glyph(f"{_BOLT}M20 16L20 80M76 16L76 80M12 80L84 80"),
        "battery_temperature": Glyph(f"{_BATTERY}M45 62L45 46A4 4 0 0 1 53 46L53 62Z"),
        "low_charge": Glyph(
            "M14 32L76 32L76 66L14 66ZM76 42L84 42L84 56L76 56", "M20 38L30 38L30 60L20 60Z"
        ),
        "reduced_power": Glyph(
            f"{_ring(48, 62, 5)}M18 74A34 34 0 0 1 78 74M30 50L24 44M48 40L48 32M66 50L72 44"
            "M14 22A7 7 0 0 1 28 22A7 7 0 0 1 38 28L12 28"
        ),
        "power_steering": Glyph(
            f"{_ring(42, 48, 26)}M42 48L42 22M42 48L20 60M42 48L64 60M80 32L80 54{_ring(80, 64, 1)}"
        ),
        "def_fault": Glyph(
            f"M10 60L10 80L86 80L86 60M10 70L86 70M80 22L80 40{_ring(80, 49, 1)}",
            word="def",
            word_y=44,
        ),
        "tire_pressure": Glyph(
            f"M30 72A30 32 0 1 1 66 72M24 72L72 72M30 80L66 80M48 32L48 52{_ring(48, 61, 1)}"
        ),
        "ready": Glyph(f"{_TRUCK}{_TIRES}", word="ready", word_y=22),
        "charging_cable": Glyph(_PLUG),
    }
)
"""Of every lamp of the list."""
