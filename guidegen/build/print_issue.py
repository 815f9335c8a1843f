"""What printed sides say of the guide that they come from.

Takes in a fleet, with the record of what was released if it keeps one; gives out number and date
of each truck's revision. Refuses to number what nobody has released: it is called a draft.
"""

from guidegen.build.load import Loaded
from guidegen.decks import rules
from guidegen.decks.deal import issue_of
from guidegen.decks.model import Issue
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.procedures.words import LABELS


def issue_in(loaded: Loaded, guide: Guide) -> Issue:
    """Return what every side of the truck of *guide* says of its origin."""
    fleet = loaded.fleet
    if loaded.history is None:
        return issue_of(guide, fleet.issued, fleet.address)
    told = loaded.history.of(guide.number)
    if told.issued is not None:
        return issue_of(guide, told.issued.date, fleet.address, str(told.issued.number))
    digits = told.draft.digits if told.draft else ""
    revision = f"{LABELS['draft']} {digits}"
    made = dated(loaded)
    return issue_of(guide, LABELS["not_released"], fleet.address, revision, made)


def dated(loaded: Loaded) -> str:
    """Return the date of what is printed for all trucks together: that of the last release."""
    return loaded.fleet.issued if loaded.history is None else loaded.history.last_date


def check_issue(loaded: Loaded, findings: Findings) -> None:
    """Report what a printed side must say of its origin and the fleet does not state."""
    fleet = loaded.fleet
    if not fleet.address:
        findings.add(
            rules.CARD_WITHOUT_ADDRESS,
            fleet.span,
            what="the fleet does not state its `address`",
            fix="add where the site is hosted, as in `address: https://guides.example.org/`",
        )
    if loaded.history is None and not fleet.issued:
        findings.add(
            rules.CARD_WITHOUT_DATE,
            fleet.span,
            what="the fleet does not state when its guides were `issued`",
            fix="release them with `guidegen release --by NAME`, or add the date of this issue, "
            "as in `issued: 2026-11-20`",
        )
