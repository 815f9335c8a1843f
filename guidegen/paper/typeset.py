"""The only door to Typst.

Takes in a template and its data; gives out a PDF, the same bytes for the same data.
Refuses any warning: a font that is missing prints nothing and only warns.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import fontpkg_atkinson_hyperlegible  # type: ignore[import-untyped]  # it has no hints

FONT = fontpkg_atkinson_hyperlegible.FAMILY
FONT_FOLDER = Path(fontpkg_atkinson_hyperlegible.ROOT) / "files"

_STOPPED = re.compile(r"stopped ([a-z-]+) (\[.*\])")


class TypesetFault(Exception):
    """Typst would not draw, or drew with a warning: a fault of a template or of a font."""


@dataclass(frozen=True, slots=True)
class Stopped(Exception):
    """The template found that something does not fit."""

    reason: str
    """``tall``, ``wide`` or ``head``."""

    places: tuple[int, ...]
    """Numbers of the groups that it is about, from 0."""


class Typesetter:
    """One template, ready to be filled many times."""

    def __init__(self, template: Path, look: Mapping[str, Any]) -> None:
        """Prepare *template*, a file ``.typ``.

        Args:
            template: It may use the other templates of its folder, and reads the files named
                ``look.json``, ``matter.json``, ``stamp.json`` and ``part.json``, which exist only
                here.
            look: How all that is drawn looks, in types that JSON has.
        """
        import typst  # noqa: PLC0415 -- see `draw`

        fonts = typst.Fonts(
            include_system_fonts=False,
            include_embedded_fonts=False,
            font_paths=[str(FONT_FOLDER)],
        )
        self._compiler = typst.Compiler(
            root=str(template.parent), font_paths=fonts, ignore_system_fonts=True
        )
        parts = sorted(template.parent.glob("*.typ"))
        self._files: Mapping[str, bytes] = {
            **{path.name: path.read_bytes() for path in parts},
            "main": template.read_bytes(),
            "look.json": as_file(look),
        }

    def draw(
        self, matter: bytes, stamp: Mapping[str, Any], date: str, part: str = "whole"
    ) -> bytes:
        """Return the PDF of *matter*.

        What was laid out for the same *matter* a few drawings ago is not laid out again, so
        draw trucks of one edition one after another.

        Args:
            matter: What all trucks of the edition share, made by `as_file`.
            stamp: What is this truck's own, in types that JSON has.
            date: Of the document, as ``2026-11-20``.
            part: What is drawn of it, by a template that draws in parts.

        Raises:
            Stopped: If the template says that something does not fit.
            TypesetFault: If Typst fails or warns.
        """
        # Most runs draw nothing, and need not read it in.
        import typst  # noqa: PLC0415

        noon = datetime.fromisoformat(f"{date}T12:00:00").replace(tzinfo=UTC)
        files = {
            **self._files,
            "matter.json": matter,
            "stamp.json": as_file(stamp),
            "part.json": json.dumps(part).encode(),
        }
        try:
            drawn, warnings = self._compiler.compile_with_warnings(
                input=files,  # type: ignore[type-var]  # its hints lack folders held in memory
                format="pdf",
                pdf_standards=["ua-1", "a-2a"],
                timestamp=int(noon.timestamp()),
            )
        except typst.TypstError as error:
            stopped = _STOPPED.search(error.message)
            if stopped:
                raise Stopped(stopped[1], tuple(json.loads(stopped[2]))) from error
            raise TypesetFault(f"{error.message} {error.diagnostic}") from error
        if warnings:
            raise TypesetFault("; ".join(warning.message for warning in warnings))
        assert isinstance(drawn, bytes)  # noqa: S101 -- one PDF, not a list of pictures
        return drawn


def as_file(content: Mapping[str, Any]) -> bytes:
    """Return *content*, in types that JSON has, as the templates read it."""
    return json.dumps(content, ensure_ascii=False).encode()
