"""What the template of the lamp finder is given.

Takes in nothing; gives out the shapes of its view.
Refuses logic: the template loops over these and places their words.
"""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.site.views import Link, PageHead, PickView, Worded


@dataclass(frozen=True, slots=True)
class TileView:
    """One lamp: its symbol, its name and what it asks for."""

    id: str
    """Of the procedure about it."""

    href: str
    """To its text on the page of its chapter."""

    name: str
    kind: str
    """Of the drawing."""

    symbol: Markup
    """SVG, its words escaped."""

    act: Worded


@dataclass(frozen=True, slots=True)
class LampColorView:
    """The lamps of one color."""

    pick: PickView
    tiles: tuple[TileView, ...]
    general: Link | None
    """To what is done about a lamp of this color that the driver finds nowhere."""


@dataclass(frozen=True, slots=True)
class LampFinderView:
    """For ``lamps.html.j2``."""

    head: PageHead
    colors: tuple[LampColorView, ...]
    onward: tuple[Link, ...]
