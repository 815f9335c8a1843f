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
    word_x: int = 48


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
_FILTER = "M24 32L72 32L72 66L24 66ZM10 49L24 49M72 49L86 49"
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
_DOTS = _ring(38, 42, 3) + _ring(50, 54, 3) + _ring(60, 42, 3) + _ring(40, 58, 3)
_LOW_WAVES = "M30 66A6 6 0 0 0 42 66A6 6 0 0 0 54 66A6 6 0 0 0 66 66"
_DEEP_WAVES = "M14 76A8 8 0 0 0 30 76A8 8 0 0 0 46 76A8 8 0 0 0 62 76A8 8 0 0 0 78 76"
_SMALL_ENGINE = (
    "M30 44L38 44L38 36L56 36L56 42L62 42L62 48L66 48L66 60L60 60L56 64L38 64L38 56L30 56Z"
)

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
        "coolant_level": Glyph(f"{_TANK}{_LOW_WAVES}M48 14L48 52M40 44L48 52L56 44"),
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
        "filter_regeneration": Glyph(_FILTER, _DOTS),
        "high_exhaust_temperature": Glyph(
            "M8 58L40 58M8 78L40 78M52 62A6 6 0 0 0 62 62A6 6 0 0 1 72 62A6 6 0 0 0 82 62"
            "M52 76A6 6 0 0 0 62 76A6 6 0 0 1 72 76A6 6 0 0 0 82 76"
            "M20 58L20 20A5 5 0 0 1 30 20L30 58M30 26L38 26M30 38L38 38"
        ),
        "regeneration_inhibited": Glyph(f"{_FILTER}M22 20L74 78M74 20L22 78", _DOTS),
        "def_level": Glyph(
            f"M12 30L40 30L40 44{_DEEP_WAVES}", "M40 48L45 58A6 6 0 1 1 35 58Z", "def", 40, 68
        ),
        "low_fuel": Glyph(_PUMP),
        "water_in_fuel": Glyph(
            "M28 14L68 14L68 26L28 26ZM32 26L32 50L64 50L64 26",
            "M36 60L41 70A6 6 0 1 1 31 70ZM60 60L65 70A6 6 0 1 1 55 70Z",
        ),
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
            "M30 22L66 22L66 74L30 74Z"
            "M38 30A8 8 0 0 0 38 42A8 8 0 0 1 38 54A8 8 0 0 0 38 66"
            "M58 30A8 8 0 0 0 58 42A8 8 0 0 1 58 54A8 8 0 0 0 58 66M6 48L88 48"
            "M78 40L88 48L78 56"
        ),
        "washer_low": Glyph(
            "M18 58A44 44 0 0 1 78 58ZM48 42L48 20"
            f"M36 28A12 12 0 0 1 48 20A12 12 0 0 1 60 28{_DEEP_WAVES}"
        ),
        "suspension_dump": Glyph(
            "M18 22L58 22M18 74L58 74"
            "M24 22A10 9 0 0 0 24 40A10 9 0 0 0 24 57A10 9 0 0 0 24 74"
            "M52 22A10 9 0 0 1 52 40A10 9 0 0 1 52 57A10 9 0 0 1 52 74M76 24L76 70"
            "M68 60L76 70L84 60"
        ),
        "body_up": Glyph(
            f"M14 70L82 70M20 62L72 24L80 36L34 62Z{_ring(28, 78, 6)}{_ring(68, 78, 6)}"
        ),
        "cab_lock": Glyph(
            "M12 58L34 16L58 28L46 72ZM38 32L50 38L44 50M62 62L86 62L86 84L62 84Z"
            "M67 62L67 54A7 7 0 0 1 81 54L81 62M10 84L52 84"
        ),
        "engine_brake": Glyph(f"{_SMALL_ENGINE}{_SHOES}"),
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
            "M24 36A12 14 0 0 1 48 36L48 82L24 82ZM32 22L32 14L40 14L40 22M70 28L70 58"
            f"{_ring(70, 70, 1)}"
        ),
        "gas_fuel_low": Glyph(
            "M28 84L28 38L54 38L54 84ZM35 46L47 46L47 56L35 56Z"
            "M54 56L62 56L62 74A6 6 0 0 0 74 74L74 50L66 42",
            word="gas",
            word_y=28,
        ),
        "high_voltage_fault": Glyph("M48 8L90 84L6 84Z", "M52 30L38 58L47 58L43 76L58 50L49 50Z"),
        "insulation_fault": Glyph(
            "M54 8L36 36L48 36L40 66L62 28L50 28ZM48 58L48 70M28 70L68 70M36 78L60 78M43 86L53 86"
        ),
        "battery_temperature": Glyph(f"{_BATTERY}M45 62L45 46A4 4 0 0 1 53 46L53 62Z"),
        "low_charge": Glyph(
            "M14 32L76 32L76 66L14 66ZM76 42L84 42L84 56L76 56", "M20 38L30 38L30 60L20 60Z"
        ),
        "reduced_power": Glyph(
            "M14 64A32 32 0 0 1 66 40M40 68L26 48M78 30L78 76M68 64L78 76L88 64", _ring(40, 68, 5)
        ),
        "power_steering": Glyph(
            f"{_ring(42, 48, 26)}M42 48L42 22M42 48L20 60M42 48L64 60M80 32L80 54{_ring(80, 64, 1)}"
        ),
        "def_fault": Glyph(
            f"M12 24L34 24L34 38{_DEEP_WAVES}M70 14L70 34{_ring(70, 43, 1)}",
            "M34 42L39 52A6 6 0 1 1 29 52Z",
        ),
        "tire_pressure": Glyph(
            f"M30 72A30 32 0 1 1 66 72M24 72L72 72M30 80L66 80M48 32L48 52{_ring(48, 61, 1)}"
        ),
        "ready": Glyph(f"{_TRUCK}{_TIRES}", word="ready", word_y=22),
        "charging_cable": Glyph(_PLUG),
    }
)
"""Of every lamp of the list."""
