"""What a site is made of before it is written.

Takes in nothing; gives out the frozen values that travel between drawing and stamping.
Refuses to know a file system: paths are relative, with forward slashes.
"""

from dataclasses import dataclass
from typing import Self

from guidegen.site.frame import UNIT_FRAME
from guidegen.specs.fleet import Contact, Fleet, Yard


@dataclass(frozen=True, slots=True)
class FleetView:
    """What the site says of the fleet as a whole."""

    name: str
    yards: tuple[Yard, ...]
    """In the order in which the fleet page lists them."""

    contacts: tuple[Contact, ...]
    """Whom a driver can call; printed at the foot of every page."""

    @classmethod
    def of(cls, fleet: Fleet) -> Self:
        """Return what the site says of *fleet*."""
        return cls(fleet.name, fleet.yards, fleet.contacts)


@dataclass(frozen=True, slots=True)
class PageText:
    """One page of an edition, without its frame; identity values are tokens."""

    path: str
    """Relative to the unit's own folder: ``index.html``, ``air-brakes.html``."""

    title: str
    """HTML text of the title element."""

    nav: str
    """HTML list entries of the unit's own navigation."""

    tools: str
    """HTML links to what a driver reaches for first."""

    body: str
    """HTML of the page's container."""

    frame: str = UNIT_FRAME
    """Name of the frame that the page stands in."""


@dataclass(frozen=True, slots=True)
class Edition:
    """All pages that units of one edition share, drawn once."""

    id: str
    """The guide's fingerprint."""

    pages: tuple[PageText, ...]
    """Start page, inspection round if there is one, chapters in the guide's order, data page."""

    search_index: str
    """What the search finds, as JSON text; identity values in it are tokens."""
