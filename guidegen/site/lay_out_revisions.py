"""From the history of a truck to the section of its start page that tells it.

Takes in the truck's history; gives out a view, the newest revision first.
Refuses to word a change anew: the record's words are what was approved.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.procedures.words import LABELS
from guidegen.quantity.express import NO_BREAK_SPACE
from guidegen.revisions.model import Draft, Revision, UnitHistory
from guidegen.site.tokens import plain

DRAFT = "draft"
"""What stands for the number of a guide that was not released."""

_AFTER_A_NUMBER = re.compile(r"(?<=\d) (?=[A-Za-z°%])")
"""Where a line must not break: ``120`` at its end says nothing."""


@dataclass(frozen=True, slots=True)
class RevisionView:
    """One revision, or the guide as it stands."""

    key: str
    """Its number, or `DRAFT`."""

    name: str
    date: str
    digits: str
    """What the code on a card of it says."""

    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RevisionsView:
    """For ``revisions.html.j2``."""

    entries: tuple[RevisionView, ...]
    """The newest first; the guide as it stands is the first."""


def lay_out_revisions(told: UnitHistory) -> RevisionsView:
    """Return the view of the section; *told* has a revision or a draft."""
    return RevisionsView(tuple(_entries(told)))


def _entries(told: UnitHistory) -> Iterator[RevisionView]:
    if told.draft is not None:
        yield _draft(told.draft)
    for revision in reversed(told.revisions):
        yield _revision(revision)


def _draft(draft: Draft) -> RevisionView:
    name = f"{LABELS['revision']} {LABELS['draft']} {draft.digits}"
    changes = tuple(map(_unbroken, draft.changes))
    return RevisionView(DRAFT, name, LABELS["not_released"], draft.digits, changes)


def _revision(revision: Revision) -> RevisionView:
    name = f"{LABELS['revision']} {revision.number}"
    changes = tuple(map(_unbroken, revision.changes))
    return RevisionView(str(revision.number), name, revision.date, revision.digits, changes)


def _unbroken(change: str) -> str:
    return _AFTER_A_NUMBER.sub(NO_BREAK_SPACE, plain(change))
