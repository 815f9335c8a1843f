"""The font of what is written beside the cards.

Takes in a TrueType file; gives out widths of lines and the font as a PDF holds it, whole.
Refuses to write a character that it has no glyph for: a PDF would show a box, or nothing.
"""

import io
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from types import MappingProxyType

import fontpkg_atkinson_hyperlegible  # type: ignore[import-untyped]  # it ships no types
import pikepdf
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # it ships no types
from pikepdf import Array, Dictionary, Name

_FILE = "files/AtkinsonHyperlegible-Regular.ttf"
_EM = 1000
"""Glyph space of a PDF font; ISO 32000-1, 9.2.4."""

_SYMBOLIC = 4
"""The font's own glyphs, not a standard set of Latin letters; ISO 32000-1, table 123."""


@dataclass(frozen=True, slots=True)
class MarginFont:
    """A font with horizontal metrics. All measures are in thousandths of the type size."""

    name: str
    """PostScript name."""

    ttf: bytes
    glyphs: MappingProxyType[str, int]
    """Number of the glyph by character."""

    advances: tuple[int, ...]
    """By number of the glyph."""

    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    """Negative."""

    cap_height: int

    def missing(self, text: str) -> list[str]:
        """Return the characters of *text* that have no glyph, each once."""
        return [letter for letter in dict.fromkeys(text) if letter not in self.glyphs]

    def width(self, text: str, size: Decimal) -> Decimal:
        """Return how wide *text* is in points, set at *size* points."""
        return size * sum(self.advances[self.glyphs[letter]] for letter in text) / _EM

    def shown(self, text: str) -> bytes:
        """Return *text* as the operand of a PDF's show operator: two bytes a glyph."""
        return b"<" + b"".join(b"%04X" % self.glyphs[letter] for letter in text) + b">"


@cache
def margin_font() -> MarginFont:
    """Return the font that comes with guidegen."""
    return read_font((fontpkg_atkinson_hyperlegible.ROOT / _FILE).read_bytes())


def read_font(ttf: bytes) -> MarginFont:
    """Return the font in *ttf*, which has TrueType outlines."""
    with TTFont(io.BytesIO(ttf), lazy=True) as font:
        scale = Decimal(_EM) / font["head"].unitsPerEm
        head, metrics = font["head"], font["hmtx"]
        names = font.getGlyphOrder()
        numbers = {name: number for number, name in enumerate(names)}
        glyphs = {chr(code): numbers[name] for code, name in font.getBestCmap().items()}
        return MarginFont(
            name=str(font["name"].getDebugName(6)),
            ttf=ttf,
            glyphs=MappingProxyType(glyphs),
            advances=tuple(round(metrics[name][0] * scale) for name in names),
            box=(
                round(head.xMin * scale),
                round(head.yMin * scale),
                round(head.xMax * scale),
                round(head.yMax * scale),
            ),
            ascent=round(font["hhea"].ascent * scale),
            descent=round(font["hhea"].descent * scale),
            cap_height=round(font["OS/2"].sCapHeight * scale),
        )


def embed(font: MarginFont, pdf: pikepdf.Pdf) -> pikepdf.Object:
    """Add *font* to *pdf* and return it, for a page's resources; ISO 32000-1, 9.7."""
    program = pdf.make_stream(font.ttf, {"/Length1": len(font.ttf)})
    descriptor = Dictionary(
        Type=Name.FontDescriptor,
        FontName=Name(f"/{font.name}"),
        Flags=_SYMBOLIC,
        FontBBox=Array(font.box),
        ItalicAngle=0,
        Ascent=font.ascent,
        Descent=font.descent,
        CapHeight=font.cap_height,
        StemV=80,  # Only a stand-in font would be fattened by it.
        FontFile2=program,
    )
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType2,
        BaseFont=Name(f"/{font.name}"),
        CIDSystemInfo=Dictionary(Registry=b"Adobe", Ordering=b"Identity", Supplement=0),
        FontDescriptor=pdf.make_indirect(descriptor),
        DW=0,
        W=Array([0, Array(font.advances)]),
        CIDToGIDMap=Name.Identity,
    )
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.Type0,
            BaseFont=Name(f"/{font.name}"),
            Encoding=Name("/Identity-H"),
            DescendantFonts=Array([pdf.make_indirect(descendant)]),
            ToUnicode=pdf.make_stream(_to_unicode(font)),
        )
    )


def _to_unicode(font: MarginFont) -> bytes:
    """Return the map by which text that is copied or searched becomes characters again."""
    letters = {glyph: letter for letter, glyph in sorted(font.glyphs.items(), reverse=True)}
    pairs = [
        b"<%04X> <%s>" % (glyph, letter.encode("utf-16-be").hex().upper().encode("ascii"))
        for glyph, letter in sorted(letters.items())
    ]
    # A block holds at most 100 pairs.
    blocks = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    lines = [
        b"/CIDInit /ProcSet findresource begin",
        b"12 dict begin",
        b"begincmap",
        b"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        b"/CMapName /Adobe-Identity-UCS def",
        b"/CMapType 2 def",
        b"1 begincodespacerange",
        b"<0000> <FFFF>",
        b"endcodespacerange",
    ]
    for block in blocks:
        lines += [b"%d beginbfchar" % len(block), *block, b"endbfchar"]
    lines += [b"endcmap", b"CMapName currentdict /CMap defineresource pop", b"end", b"end"]
    return b"\n".join(lines) + b"\n"
