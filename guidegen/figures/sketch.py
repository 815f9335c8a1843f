"""The parts that every kind of figure is put together from.

Takes in facts of one guide; gives out captions and sketches, ready to become a figure.
Refuses to leave a gap: a value that is not there is left out with its words.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.figures.model import Shape, Written
from guidegen.guide.model import FactRef
from guidegen.procedures.model import Words
from guidegen.units.model import Fact

Facts = Mapping[str, Fact]


@dataclass(slots=True)
class Sketch:
    """A drawing in the making."""

    width: int
    height: int
    shapes: list[Shape] = field(default_factory=list)
    writing: list[Written] = field(default_factory=list)
    caption: list[Words | FactRef] = field(default_factory=list)

    def say(self, *parts: str) -> None:
        """Add to the caption; a part that begins with ``@`` is the value of that fact."""
        for part in parts:
            self.caption.append(FactRef(part[1:]) if part.startswith("@") else Words(part))

    def draw(self, *shapes: Shape) -> None:
        """Lay *shapes* over those before."""
        self.shapes.extend(shapes)

    def write(self, x: int, y: int, says: str, anchor: str = "start") -> None:
        """Write a word by its key, or with ``@`` before it the value of a fact."""
        self.writing.append(
            Written(x, y, FactRef(says[1:]) if says.startswith("@") else says, anchor)
        )


def choice(facts: Facts, name: str) -> str:
    """Return the key of the choice that a fact holds."""
    return str(facts[name].value)
