"""Which guides a release would issue anew, and as what.

Takes in guides, the record so far and the editions that it names; gives out the history of the
fleet with drafts, and the revisions that would make them final. Refuses to issue a guide that is
the same as its last revision: every number on a card stands for a change.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.revisions import rules
from guidegen.revisions.model import Draft, FleetHistory, Record, Revision, UnitHistory
from guidegen.revisions.snapshot import Snapshot
from guidegen.revisions.tell import tell_changes

Kept = Callable[[Revision], Snapshot | None]
"""Returns the edition of a revision as it was released; nothing if its file is damaged."""

_MOST_NAMED = 5


def history_of(guides: Iterable[Guide], record: Record, kept: Kept) -> FleetHistory:
    """Return the history of every truck, with a draft where a guide is not its last revision.

    Args:
        guides: As they stand.
        record: Of what was released; empty if nothing ever was.
        kept: Gives the editions that the record names.
    """
    released = record.by_unit()
    units = {unit: UnitHistory(revisions) for unit, revisions in released.items()}
    for guide in guides:
        known = UnitHistory(released.get(guide.number, ()))
        last = known.last
        if last is None:
            known = replace(known, draft=Draft(guide.edition, ()))
        elif last.edition != guide.edition:
            before = kept(last)
            changes = () if before is None else tell_changes(before, Snapshot.of(guide))
            known = replace(known, draft=Draft(guide.edition, changes))
        units[guide.number] = known
    return FleetHistory(MappingProxyType(units), record.last_date)


def revisions_of(
    history: FleetHistory, editions: Mapping[str, str], *, date: str, by: str
) -> tuple[Revision, ...]:
    """Return the revisions that make the drafts of *history* final, by number of the truck.

    Args:
        history: With drafts.
        editions: SHA-256 of the file that keeps each edition, by number of the truck; a truck that
            is not among them is not released.
        date: Of the release, as ``2026-11-30``.
        by: Who approved it.
    """
    issued = []
    for unit in sorted(editions):
        told = history.of(unit)
        if told.draft is None:
            continue
        number = 1 if told.last is None else told.last.number + 1
        draft = told.draft
        kept = editions[unit]
        issued.append(Revision(unit, number, date, by, draft.edition, kept, draft.changes))
    return tuple(issued)


def with_revisions(history: FleetHistory, issued: Iterable[Revision]) -> FleetHistory:
    """Return *history* as it is once *issued* are in the record."""
    units = dict(history.units)
    last_date = history.last_date
    for revision in issued:
        before = history.of(revision.unit)
        units[revision.unit] = UnitHistory((*before.revisions, revision))
        last_date = revision.date
    return FleetHistory(MappingProxyType(units), last_date)


def check_released(history: FleetHistory, place: str, findings: Findings) -> None:
    """Warn of guides that are no revision, once for all of them.

    Args:
        history: Of a fleet that has released before.
        place: Path of the record.
        findings: Takes the warning.
    """
    drafts = history.drafts
    if not drafts:
        return
    more = len(drafts) - _MOST_NAMED
    named = ", ".join(drafts[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    subject = "the guide" if len(drafts) == 1 else "the guides"
    findings.add(
        rules.GUIDE_NOT_RELEASED,
        None,
        what=f"{subject} of {named} changed since the last revision",
        fix="run `guidegen release --by NAME` before printing cards",
        place=place,
    )
