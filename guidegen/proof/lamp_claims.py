"""What the lamp finder must say.

Takes in a guide and its figures; gives out, color by color and in order, the lamps that the truck
has, what each tile must say, and the drawings that it must show.
Refuses to ask the printing: which lamp stands under which color follows from the guide anew.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.figures.lamp_color import LAMP_COLOR, mark_of_color
from guidegen.figures.model import Figure, Picture
from guidegen.guide.model import FactRef, Guide, Procedure
from guidegen.procedures.words import LAMP_COLORS, LAMPS_IN_GENERAL
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.source import Span


@dataclass(frozen=True, slots=True)
class TileClaims:
    """What the tile of one lamp must say."""

    id: str
    """Of the procedure about it."""

    claims: tuple[Claim, ...]
    """In order: words of its symbol, name, act."""

    span: Span
    """Of the lamp in the library."""


@dataclass(frozen=True, slots=True)
class ColorClaims:
    """What must be said of the lamps of one color."""

    color: str
    tiles: tuple[TileClaims, ...]
    closing: tuple[Claim, ...]
    """After the tiles: where a driver goes who does not find the lamp."""

    @property
    def head(self) -> Claim:
        """The color itself, before the tiles."""
        return Claim(Mark.LAMP_COLOR, self.color, Within(color=self.color))


@dataclass(frozen=True, slots=True)
class LampClaims:
    """What the lamp finder must say."""

    colors: tuple[ColorClaims, ...]
    """Gravest first."""

    drawings: Mapping[Within, Picture]
    """By the elements that each stands in."""

    @property
    def picks(self) -> tuple[Claim, ...]:
        """The ways to the colors."""
        return tuple(
            Claim(Mark.LAMP_COLOR, each.color, Within(pick=each.color)) for each in self.colors
        )


def lamp_claims_of(guide: Guide, figures: Mapping[str, Figure]) -> LampClaims | None:
    """Return what the lamp finder of *guide* must say; nothing if it tells of no lamp.

    Args:
        guide: The guide of one unit of the edition.
        figures: Its drawings, by id of the procedure.
    """
    every = [each for chapter in guide.chapters for each in chapter.procedures]
    lit = [(each.lamp.color, each) for each in every if each.lamp is not None]
    if not lit:
        return None
    colors = tuple(
        ColorClaims(
            color,
            tuple(_tile(each, color, figures[each.id]) for its, each in lit if its == color),
            tuple(_closing(color, {each.id for each in every})),
        )
        for color in LAMP_COLORS
        if any(its == color for its, _ in lit)
    )
    return LampClaims(colors, dict(_drawings(colors, figures)))


def _tile(procedure: Procedure, color: str, figure: Figure) -> TileClaims:
    within = Within(color=color, tile=procedure.id)
    drawn = within._replace(figure=figure.kind)
    claims = [
        Claim(Mark.FACT, written.says.name, drawn)
        if isinstance(written.says, FactRef)
        else Claim(Mark.FIGURE_WORD, written.says, drawn)
        for written in figure.writing
    ]
    claims.append(Claim(Mark.PROCEDURE_LINK, procedure.id, within))
    if procedure.lamp is not None:
        claims.append(Claim(Mark.LAMP_ACT, procedure.lamp.act, within))
    return TileClaims(procedure.id, tuple(claims), procedure.span)


def _closing(color: str, known: set[str]) -> Iterator[Claim]:
    general = LAMPS_IN_GENERAL.get(color)
    if general in known:
        within = Within(color=color)
        yield Claim(Mark.LABEL, "lamp_not_here", within)
        yield Claim(Mark.PROCEDURE_LINK, general, within)


def _drawings(
    colors: tuple[ColorClaims, ...], figures: Mapping[str, Figure]
) -> Iterator[tuple[Within, Picture]]:
    for each in colors:
        mark = mark_of_color(each.color)
        yield Within(pick=each.color, figure=LAMP_COLOR), mark
        yield Within(color=each.color, figure=LAMP_COLOR), mark
        for tile in each.tiles:
            figure = figures[tile.id]
            yield Within(color=each.color, tile=tile.id, figure=figure.kind), figure
