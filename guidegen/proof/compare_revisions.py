"""Whether a start page tells the revisions of its truck, all of them, in order, and no others.

Takes in what was read of the page and what it must say; records revisions and changes that are
missing, made up or out of order, and digits by which a card would be judged wrongly.
Refuses any word of a revision outside of its own element.
"""

from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder, Mark
from guidegen.proof.model import Claim
from guidegen.proof.read_html import Body
from guidegen.proof.revision_claims import RevisionClaims

HOLDERS = frozenset({Holder.REVISION, Holder.DIGITS})
"""Elements that stand in this section only."""

_MARKS = frozenset({Mark.REVISION_NAME, Mark.REVISION_DATE, Mark.CHANGE})
_LABELS = frozenset({"revisions", "page_is", "first_revision"})
_SEE_TEMPLATE = "repair the page template that draws the revisions"


@dataclass(frozen=True, slots=True)
class Revisions:
    """The revisions on one start page, held against the record."""

    claims: RevisionClaims
    faults: Faults

    def compare(self, body: Body) -> int:
        """Hold what was read against the record; return how many revisions are as they must be."""
        before = len(self.faults.found)
        read = tuple(reading.claim for reading in body.readings if _is_told_here(reading.claim))
        if read != self.claims.claims:
            self._report(read)
        opened = tuple(
            (each.holder, each.key, each.within) for each in body.openings if each.holder in HOLDERS
        )
        if opened != self.claims.openings:
            what = "the revisions or the digits of their cards are others than the record has"
            self.faults.add(rules.REVISION_DIFFERS, what, fix=_SEE_TEMPLATE)
        proved = len(self.claims.openings) // 2
        return proved if len(self.faults.found) == before else 0

    def _report(self, read: tuple[Claim, ...]) -> None:
        wanted = self.claims.claims
        missing = [claim for claim in wanted if claim not in read]
        extra = [claim for claim in read if claim not in wanted]
        for claim in missing:
            self._add(rules.REVISION_DIFFERS, "is not there", claim)
        for claim in extra:
            self._add(rules.REVISION_DIFFERS, "does not belong there", claim)
        if not missing and not extra:
            what = "what is told of the revisions stands twice, or in another order"
            self.faults.add(rules.REVISION_DIFFERS, what, fix=_SEE_TEMPLATE)

    def _add(self, rule: Rule, what: str, claim: Claim) -> None:
        mark = f'{claim.mark.value}="{claim.key}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, mark=mark)


def _is_told_here(claim: Claim) -> bool:
    if claim.mark is Mark.LABEL:
        return claim.key in _LABELS or bool(claim.within.revision)
    return claim.mark in _MARKS or bool(claim.within.revision)
