"""The fleet's mark.

Takes in what the theme states and the bytes of the file; gives out the logo as the templates read
it. Refuses what prints differently by machine: letters, scripts, and files that it leads to.
"""

import struct
from dataclasses import dataclass
from typing import Any
from xml.parsers import expat

from guidegen.finding import Findings
from guidegen.paper import rules
from guidegen.specs.theme import ThemeLogo

WIDEST = 30
HIGHEST = 12
"""Millimeters, of the largest that it is printed: on covers and sheets for trainers."""

LEAST_DOTS = 300
"""Per inch, as printed: common practice, no source."""

_INCH = 25.4
_PNG = b"\x89PNG\r\n\x1a\n"
_WORDS = ("svg", "g", "title", "desc")
_SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
_LEADS_OUT = ("href", "src")


@dataclass(frozen=True, slots=True)
class Logo:
    """A mark, ready to be drawn."""

    raw: bytes
    format: str
    """``svg`` or ``png``."""

    alt: str
    ratio: float
    """Width by height."""

    def as_file(self) -> dict[str, Any]:
        """Return it in types that JSON has."""
        return {
            "data": list(self.raw),
            "format": self.format,
            "alt": self.alt,
            "ratio": self.ratio,
        }


class _NotPlain(Exception):
    """What it is, in words."""


def logo_from(stated: ThemeLogo, raw: bytes | None, findings: Findings) -> Logo | None:
    """Return the logo that is *stated*, or nothing and the finding why.

    Args:
        stated: With the name of the file and what is read aloud.
        raw: Of the file; none if there is no such file.
        findings: Takes the fault.
    """
    name, span = str(stated.file.value), stated.file.span
    if raw is None:
        findings.add(
            rules.LOGO_MISSING,
            span,
            what=f"there is no file `{name}` beside the theme",
            fix="put the file there, or correct its name; without a logo leave `logo:` out",
        )
        return None
    alt = str(stated.alt.value)
    try:
        if raw.startswith(_PNG):
            width, height = struct.unpack(">II", raw[16:24])
            printed = min(WIDEST, HIGHEST * width / height)
            dots = width / printed * _INCH
            if dots < LEAST_DOTS:
                findings.add(
                    rules.LOGO_TOO_COARSE,
                    span,
                    what=f"`{name}` has {dots:.0f} dots an inch where it is {printed:.0f} mm wide",
                    fix=f"take one that is {printed / _INCH * LEAST_DOTS:.0f} dots wide or more, "
                    "or an SVG",
                )
                return None
            return Logo(raw, "png", alt, width / height)
        return Logo(raw, "svg", alt, _ratio_of_svg(raw))
    except (_NotPlain, expat.ExpatError, struct.error, ZeroDivisionError) as fault:
        findings.add(
            rules.LOGO_NOT_PLAIN,
            span,
            what=f"`{name}` is no plain SVG or PNG: {fault}",
            fix="export it as an SVG of plain shapes, letters turned into outlines, or as a PNG",
        )
        return None


def _ratio_of_svg(raw: bytes) -> float:
    """Return width by height of an SVG.

    Raises:
        _NotPlain: If there is more in it than shapes.
        expat.ExpatError: If it is no XML.
    """
    found: list[float] = []
    parser = expat.ParserCreate()

    def start(name: str, given: dict[str, str]) -> None:
        _refuse_strange(name, given, parser.CurrentLineNumber)
        if not found:
            if name != "svg" or "viewBox" not in given:
                raise _NotPlain("it does not begin with an `<svg>` that has a `viewBox`")
            _, _, width, height = (float(each) for each in given["viewBox"].split())
            found.append(width / height)

    def refuse(*_: object) -> None:
        raise _NotPlain(f"a document type in line {parser.CurrentLineNumber}")

    parser.StartElementHandler = start
    parser.StartDoctypeDeclHandler = refuse
    try:
        parser.Parse(raw, True)  # noqa: FBT003 -- expat names no such argument
    except ValueError as fault:
        raise _NotPlain("a `viewBox` that is not of four numbers") from fault
    if not found:
        raise _NotPlain("it is empty")
    return found[0]


def _refuse_strange(name: str, given: dict[str, str], line: int) -> None:
    if name not in (*_WORDS, *_SHAPES):
        raise _NotPlain(f"`<{name}>` in line {line}")
    for key, value in given.items():
        leads = key.split(":")[-1] in _LEADS_OUT or "url(" in value
        if leads or key.startswith("on") or key == "style":
            raise _NotPlain(f"`{key}` in line {line}")
