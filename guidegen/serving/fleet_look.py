"""What is known of the whole fleet: slower than a page can wait for, and in a process of its own.

Takes in a project; gives out what pages of single trucks need to know of all others, with the
pages of no truck. Refuses to make any truck's page.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.build.publication import Publication
from guidegen.build.published import Published
from guidegen.proof.fleet_claims import FleetClaims
from guidegen.proof.unit_record import record_of
from guidegen.site.shell import Shell
from guidegen.site.truck_line import truck_line


@dataclass(frozen=True, slots=True, eq=False)
class FleetLook:
    """The fleet as it was at one time; can be sent to other processes."""

    published: Published
    frames: Mapping[str, str]
    root: Mapping[str, bytes]
    """All files that belong to no truck, by path."""

    claims: FleetClaims
    """What the proof needs to know of the site."""


def look_at_fleet(publication: Publication, shell: Shell) -> FleetLook:
    """Return what is known of the fleet of *publication*.

    Args:
        publication: The fleet.
        shell: What the site engine has drawn of it.

    Raises:
        FaultyInput: If the theme lacks what makes the site an app.
    """
    loaded = publication.loaded
    published = Published(publication.project, loaded, publication.quizzes, has_cards=False)
    lines, records = [], []
    for guide in loaded.guides.values():
        lines.append(truck_line(guide))
        records.append(record_of(guide))
    root = published.root_files(shell, lines, ())
    claims = published.claims(records, root, shell.frames, published.held_back)
    return FleetLook(published.sent(), shell.frames, root, claims)
