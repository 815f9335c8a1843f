"""The symbol of a lamp.

Takes in which lamp a procedure is about; gives out its sketch in a frame.
Refuses to stand for the truck's own symbol: makers draw them in their own ways, and the caption
says so.
"""

from guidegen.figures.lamp_glyphs import GLYPHS
from guidegen.figures.model import Box, Curve
from guidegen.figures.sketch import Sketch
from guidegen.procedures.model import LampSign
from guidegen.specs.topics.lamps import LAMPS


def sketch_lamp(sign: LampSign) -> Sketch:
    """Return the symbol of the lamp *sign*."""
    glyph = GLYPHS[sign.id]
    sketch = Sketch(96, 96)
    sketch.draw(Box(2, 2, 92, 92, rounding=12))
    if glyph.strokes:
        sketch.draw(Curve(glyph.strokes, width=4))
    if glyph.solids:
        sketch.draw(Curve(glyph.solids, solid=True, width=1))
    if glyph.word:
        sketch.write(glyph.word_x, glyph.word_y, glyph.word, "middle")
    sketch.say(f"Sketch: {LAMPS[sign.id].name}. The symbol in your truck can look different.")
    return sketch
