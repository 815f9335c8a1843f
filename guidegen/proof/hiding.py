"""Declarations that keep a driver from reading a text.

Takes in the declarations of one rule or style attribute; gives out those that hide a text, show
it out of order, change it or add to it. Refuses the benefit of the doubt: what hides only
sometimes, or almost, hides.
"""

import enum
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.proof.css import Declaration, Number


class Effect(enum.Enum):
    """What a declaration does to the text that it holds for."""

    HIDES = "hides"
    REORDERS = "shows out of order"
    CHANGES = "changes the letters of"
    ADDS = "adds words to"


@dataclass(frozen=True, slots=True)
class Hiding:
    """One declaration that a text does not survive."""

    effect: Effect
    declaration: str
    """As it stands: ``display: none``."""

    only_tints: bool = False
    """Whether it only makes darker or changes colors, which a photo survives at night."""


# What is smaller than this is not read, and what is shifted further is off the screen. Chosen
# between the smallest and largest that themes use in earnest and what people hide text with;
# common practice, no source.
_SMALLEST_TYPE = {"px": 7, "pt": 5, "em": 0.4, "rem": 0.4, "%": 40, "ex": 0.8, "ch": 0.8, "": 0.4}
_SMALLEST_BOX = {"px": 6, "pt": 5, "em": 0.4, "rem": 0.4, "%": 5, "": 0, "vw": 5, "vh": 5}
_SMALLEST_LINE = {"px": 7, "pt": 5, "em": 0.6, "rem": 0.4, "%": 60, "": 0.6}
_FURTHEST = {"px": 300, "pt": 220, "em": 20, "rem": 20, "ch": 40, "%": 50, "vw": 40, "vh": 40}
_FURTHEST_ELSE = 40
_LEAST_OPACITY = 0.5
_LEAST_SCALE = 0.5
_TIGHTEST = {"px": -2, "em": -0.15, "rem": -0.15}

_LENGTHLESS = 0.0


def _says(*words: str) -> Callable[[Declaration], bool]:
    wanted = frozenset(words)
    return lambda declared: bool(declared.words & wanted)


def _says_other_than(*words: str) -> Callable[[Declaration], bool]:
    allowed = frozenset(words) | {"inherit", "initial", "unset", "revert", "revert-layer"}
    return lambda declared: bool(
        declared.words - allowed or declared.numbers or declared.calls or declared.strings
    )


def _is_small(number: Number, least: Mapping[str, float]) -> bool:
    return abs(number.value) < least.get(number.unit, _LENGTHLESS) or number.value == 0


def _is_any_small(least: Mapping[str, float]) -> Callable[[Declaration], bool]:
    def is_small(declared: Declaration) -> bool:
        return any(_is_small(number, least) for number in _all_numbers(declared))

    return is_small


def _all_numbers(declared: Declaration) -> Iterator[Number]:
    yield from declared.numbers
    for call in declared.calls:
        yield from call.numbers


def _is_far(number: Number) -> bool:
    return abs(number.value) >= _FURTHEST.get(number.unit, _FURTHEST_ELSE)


def _shifts_far(declared: Declaration) -> bool:
    return any(_is_far(number) for number in _all_numbers(declared) if number.unit)


def _is_faint(declared: Declaration) -> bool:
    shares = [n.value / 100 if n.unit == "%" else n.value for n in _all_numbers(declared)]
    return any(share < _LEAST_OPACITY for share in shares) or bool(declared.calls)


def _is_small_font(declared: Declaration) -> bool:
    # Of the shorthand `font`, the size comes first among what has a unit; the rest is line height.
    sized = [number for number in declared.numbers if number.unit or number.value == 0]
    return any(_is_small(number, _SMALLEST_TYPE) for number in sized)


def _turns_or_shrinks(declared: Declaration) -> bool:
    for call in declared.calls:
        if call.name.startswith("translate"):
            if any(_is_far(number) for number in call.numbers if number.unit):
                return True
        elif not (call.name.startswith("scale") and all(_keeps_size(n) for n in call.numbers)):
            return True
    return False


def _keeps_size(number: Number) -> bool:
    return (number.value / 100 if number.unit == "%" else number.value) >= _LEAST_SCALE


def _shrinks(declared: Declaration) -> bool:
    return not all(_keeps_size(number) for number in _all_numbers(declared))


def _filters(declared: Declaration) -> bool:
    return any(call.name != "drop-shadow" for call in declared.calls if call.name != "var")


_TINTS = frozenset({"brightness", "grayscale", "sepia", "saturate", "hue-rotate"})


def _only_tints(declared: Declaration) -> bool:
    """Whether a filter leaves a photo to be seen, if in another light."""
    if declared.name != "filter" or any(call.name not in _TINTS for call in declared.calls):
        return False
    lights = [number for c in declared.calls if c.name == "brightness" for number in c.numbers]
    return all((n.value / 100 if n.unit == "%" else n.value) >= _LEAST_OPACITY for n in lights)


def _is_below_zero(declared: Declaration) -> bool:
    return any(number.value < 0 for number in _all_numbers(declared))


def _is_not_zero(declared: Declaration) -> bool:
    return any(number.value != 0 for number in _all_numbers(declared)) or bool(declared.calls)


def _is_tight(declared: Declaration) -> bool:
    return any(number.value <= _TIGHTEST.get(number.unit, -1) for number in _all_numbers(declared))


def _reverses(declared: Declaration) -> bool:
    return any(word.endswith("-reverse") for word in declared.words)


def _places(declared: Declaration) -> bool:
    return bool(declared.numbers)


_HIDES: Mapping[str, Callable[[Declaration], bool]] = {
    "display": _says("none"),
    "visibility": _says("hidden", "collapse"),
    "content-visibility": _says("hidden"),
    "opacity": _is_faint,
    "font-size": _is_any_small(_SMALLEST_TYPE),
    "font": _is_small_font,
    "line-height": _is_any_small(_SMALLEST_LINE),
    **dict.fromkeys(
        ("height", "max-height", "width", "max-width", "block-size", "inline-size"),
        _is_any_small(_SMALLEST_BOX),
    ),
    **dict.fromkeys(("max-block-size", "max-inline-size"), _is_any_small(_SMALLEST_BOX)),
    "clip": _says_other_than("auto"),
    "clip-path": _says_other_than("none"),
    **dict.fromkeys(("mask", "mask-image"), _says_other_than("none")),
    **dict.fromkeys(
        (
            *("left", "right", "top", "bottom", "inset", "inset-inline", "inset-block"),
            *("inset-inline-start", "inset-inline-end", "inset-block-start", "inset-block-end"),
            *("margin", "margin-left", "margin-right", "margin-top", "margin-bottom"),
            *("margin-inline", "margin-inline-start", "margin-inline-end"),
            *("margin-block", "margin-block-start", "margin-block-end"),
            *("padding", "padding-left", "padding-right", "padding-top", "padding-bottom"),
            *("padding-inline", "padding-inline-start", "padding-inline-end"),
            *("text-indent", "translate", "word-spacing"),
        ),
        _shifts_far,
    ),
    "transform": _turns_or_shrinks,
    "scale": _shrinks,
    "zoom": _shrinks,
    "rotate": _is_not_zero,
    "filter": _filters,
    "mix-blend-mode": _says_other_than("normal"),
    "z-index": _is_below_zero,
    "text-security": _says_other_than("none"),
    **dict.fromkeys(("line-clamp", "max-lines"), _says_other_than("none")),
    "text-overflow": _says("ellipsis"),
    "letter-spacing": _is_tight,
    "text-decoration": _says("line-through"),
    "text-decoration-line": _says("line-through"),
    "content": _says_other_than("normal", "none"),
    "direction": _says("rtl"),
    "unicode-bidi": _says("bidi-override", "isolate-override"),
    **dict.fromkeys(("fill", "stroke"), _says_other_than("currentcolor")),
    **dict.fromkeys(("fill-opacity", "stroke-opacity"), _is_faint),
    **dict.fromkeys(("text-anchor", "dominant-baseline", "d", "r"), lambda _declared: True),
    "all": lambda _declared: True,
}

_REORDERS: Mapping[str, Callable[[Declaration], bool]] = {
    "position": _says("absolute", "fixed"),
    "order": _is_not_zero,
    **dict.fromkeys(("flex-direction", "flex-flow", "flex-wrap"), _reverses),
    **dict.fromkeys(("grid-row", "grid-row-start", "grid-area"), _places),
}

_CHANGES: Mapping[str, Callable[[Declaration], bool]] = {
    "text-transform": _says_other_than("none"),
}


def find_hiding(declarations: Iterable[Declaration]) -> Iterator[Hiding]:
    """Yield the declarations that a text does not survive, but for its color."""
    declarations = tuple(declarations)
    yield from _find_cut_off(declarations)
    for declared in declarations:
        for effect, table in (
            (Effect.HIDES, _HIDES),
            (Effect.REORDERS, _REORDERS),
            (Effect.CHANGES, _CHANGES),
        ):
            test = table.get(declared.name)
            if test is not None and (test(declared) or _cannot_be_told(declared, effect)):
                yield Hiding(effect, str(declared), _only_tints(declared))


def _find_cut_off(declarations: Sequence[Declaration]) -> Iterator[Hiding]:
    """Yield what makes a box of fixed height that shows only what fits into it."""
    cuts = [e for e in declarations if e.name in _OVERFLOWS and e.words & {"hidden", "clip"}]
    sizes = [e for e in declarations if e.name in _HEIGHTS and e.numbers]
    for cut in cuts[:1]:
        for size in sizes:
            yield Hiding(Effect.HIDES, f"{cut}; {size}")


_OVERFLOWS = frozenset({"overflow", "overflow-y", "overflow-block"})
_HEIGHTS = frozenset({"height", "max-height", "block-size", "max-block-size"})

_NOT_TOLD = frozenset({"display", "visibility", "content-visibility"})


def _cannot_be_told(declared: Declaration, effect: Effect) -> bool:
    return effect is Effect.HIDES and declared.name in _NOT_TOLD and bool(declared.calls)


def find_added_words(declarations: Iterable[Declaration]) -> Iterator[Hiding]:
    """Yield the declarations of a pseudo-element that print letters or digits of their own.

    Symbols from a private range are icons; the number of a step may come from its mark.
    """
    for declared in declarations:
        if declared.name != "content":
            continue
        printed = any(character.isalnum() for text in declared.strings for character in text)
        copied = any(
            call.name in ("attr", "var") and call.words != ("data-number",)
            for call in declared.calls
        )
        if printed or copied:
            yield Hiding(Effect.ADDS, str(declared))
