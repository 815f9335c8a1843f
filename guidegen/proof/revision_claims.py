"""What the start page of a truck must say of its revisions.

Takes in the truck's history; gives out every text in order, the elements that hold them, and
their words. Refuses nothing: it believes the record, whose seals were looked at when it was read.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from guidegen.procedures.words import LABELS
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim, Within
from guidegen.revisions.model import Draft, Revision, UnitHistory

_DRAFT = "draft"


@dataclass(frozen=True, slots=True)
class RevisionClaims:
    """What one start page must say of the revisions of its truck."""

    claims: tuple[Claim, ...] = ()
    """In order: heading, the guide's own revision, then every revision, the newest first."""

    openings: tuple[tuple[Holder, str, Within], ...] = ()
    """Elements that hold revisions, with the digits of their cards, in order."""

    words: Mapping[tuple[Mark, str], str] = field(default_factory=dict)
    """By mark and key."""

    @property
    def texts(self) -> tuple[str, ...]:
        """All words that come from the record."""
        return tuple(self.words.values())


NO_REVISIONS = RevisionClaims()
"""Of a page that must not speak of any: no record is kept."""


def revision_claims_of(told: UnitHistory | None) -> RevisionClaims:
    """Return what the start page must say; *told* is none where no record is kept."""
    if told is None:
        return NO_REVISIONS
    entries = [_draft(told.draft)] if told.draft else []
    entries += [_revision(each) for each in told.revisions[::-1]]
    now = entries[0].key
    claims = [
        Claim(Mark.LABEL, "revisions", Within()),
        Claim(Mark.LABEL, "page_is", Within()),
        Claim(Mark.REVISION_NAME, now, Within()),
        Claim(Mark.REVISION_DATE, now, Within()),
    ]
    openings: list[tuple[Holder, str, Within]] = []
    words: dict[tuple[Mark, str], str] = {}
    for entry in entries:
        within = Within(revision=entry.key)
        openings.append((Holder.REVISION, entry.key, within))
        openings.append((Holder.DIGITS, entry.digits, within))
        words[Mark.REVISION_NAME, entry.key] = entry.name
        words[Mark.REVISION_DATE, entry.key] = entry.date
        claims.append(Claim(Mark.REVISION_NAME, entry.key, within))
        claims.append(Claim(Mark.REVISION_DATE, entry.key, within))
        claims.extend(entry.changed(within))
        for place, change in enumerate(entry.changes, start=1):
            words[Mark.CHANGE, f"{entry.key}.{place}"] = change
    return RevisionClaims(tuple(claims), tuple(openings), words)


@dataclass(frozen=True, slots=True)
class _Entry:
    key: str
    name: str
    date: str
    digits: str
    changes: tuple[str, ...]

    def changed(self, within: Within) -> Iterator[Claim]:
        for place, _ in enumerate(self.changes, start=1):
            yield Claim(Mark.CHANGE, f"{self.key}.{place}", within)
        if not self.changes:
            yield Claim(Mark.LABEL, "first_revision", within)


def _draft(draft: Draft) -> _Entry:
    name = f"{LABELS['revision']} {LABELS['draft']} {draft.digits}"
    return _Entry(_DRAFT, name, LABELS["not_released"], draft.digits, draft.changes)


def _revision(revision: Revision) -> _Entry:
    number = str(revision.number)
    name = f"{LABELS['revision']} {number}"
    return _Entry(number, name, revision.date, revision.digits, revision.changes)
