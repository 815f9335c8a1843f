"""What was released of the trucks of a site, made by hand: revisions, and a draft."""

from collections.abc import Iterable

from guidegen.guide.model import Guide
from guidegen.revisions.model import Draft, FleetHistory, Revision, UnitHistory

DATES = ("2026-10-01", "2026-11-30")
KEPT = "0" * 64
CHANGES = (
    "Governed (cut-out) pressure 130 psi → 135 psi",
    "New: power take-off",
    "Changed: procedure “Build up the air” (steps, cautions)",
)


def revision(unit: str, number: int, edition: str, changes: tuple[str, ...] = ()) -> Revision:
    return Revision(unit, number, DATES[number - 1], "R. Aldous", edition, KEPT, changes)


def history_of_trucks(guides: Iterable[Guide]) -> FleetHistory:
    """Return a second revision for every truck but the last, which has a draft."""
    units = {}
    *others, last = guides
    for guide in others:
        first = revision(guide.number, 1, "aaaa1111aaaa")
        units[guide.number] = UnitHistory(
            (first, revision(guide.number, 2, guide.edition, CHANGES))
        )
    draft = Draft(last.edition, CHANGES[:1])
    units[last.number] = UnitHistory((revision(last.number, 1, "bbbb2222bbbb"),), draft)
    return FleetHistory(units, DATES[-1])
