"""How large the fleets of a run are.

Takes in nothing; gives out the sizes of a quick, a usual and a large run.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sizes:
    """Fleets as pairs of units and editions."""

    own_edition: tuple[int, int]
    """Every unit its own edition; measured beside Hugo on the same pages."""

    growth: tuple[tuple[int, int], ...]
    """Fleets of one mixture, smallest first, each measured beside a raw copy."""

    changed: tuple[int, int]
    """The fleet of which one unit, one model and nothing is changed; one of ``growth``."""

    plain_units: int
    """Plain MkDocs and Zensical print all pages of a site in the list of every page, so their cost
    grows with the square of the pages; more units would only take longer."""


# A fleet of 12 editions or fewer has sheets of differences too, which cost more than its pages.
QUICK = Sizes(own_edition=(14, 14), growth=((14, 14), (60, 14)), changed=(60, 14), plain_units=14)
USUAL = Sizes(
    own_edition=(1000, 1000), growth=((100, 6), (1000, 60)), changed=(1000, 60), plain_units=60
)
LARGE = Sizes(
    own_edition=(300, 300),
    growth=((100, 6), (1000, 60), (10_000, 600)),
    changed=(10_000, 600),
    plain_units=60,
)
