"""From a difference sheet to the view of its page.

Takes in two guides and their sheet; gives out one view, in which the identity of either truck
is a token. Refuses to show a value of the known truck as the given one's: each side has marks
of its own.
"""

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import assert_never

from guidegen.differences.compare_procedures import ProcedureDifference
from guidegen.differences.model import (
    ControlChanged,
    Difference,
    DifferenceSheet,
    LampGained,
    LampLost,
    OrderChanged,
    PartChange,
    ProcedureChanged,
    ProcedureGained,
    ProcedureLost,
    ProcedureReplaced,
    ThingGained,
    ThingInDoubt,
    ThingLost,
    ValueChanged,
    ValueGained,
    ValueLost,
)
from guidegen.differences.offer import Choice
from guidegen.differences.standing import RANKS, REASONS
from guidegen.guide.leaves import leaf_of_procedures
from guidegen.guide.model import Guide, Procedure
from guidegen.procedures.words import LABELS
from guidegen.site.difference_views import (
    AnswerView,
    ChoiceView,
    PickerView,
    RankView,
    RowView,
    RunView,
    SheetHead,
    SheetView,
)
from guidegen.site.lay_out import TITLE_FACTS
from guidegen.site.lay_out_parts import PartsLayout
from guidegen.site.texts import Texts, put_into_words
from guidegen.site.tokens import (
    edition_token,
    known_edition_token,
    known_token,
    plain,
    value_token,
)
from guidegen.site.views import FactView, Link, Worded
from guidegen.site.ways import DIFFERENCES_PAGE, START_PAGE, Ways, chapter_page, page_head
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.specs.topics.lamps import LAMPS
from guidegen.units.model import Fact, Presence
from guidegen.wording import value_words

_NUMBER = "identity.number"
_WHOLE = "identity"
_BACK = Link(DIFFERENCES_PAGE, "data-label", "differences", LABELS["differences"])
_START = Link(START_PAGE, "data-label", "start", LABELS["start"])


def sheet_page(known: str) -> str:
    """Return the path of the sheet for drivers who know the unit *known*."""
    return f"from-{known}.html"


def lay_out_picker(ways: Ways, choice: Choice, *, stands_for_edition: bool) -> PickerView:
    """Return the view of the page on which a driver picks the truck that he knows.

    Args:
        ways: Of the truck whose page it is.
        choice: What the driver may choose from.
        stands_for_edition: Whether each truck stands for others that are not named.
    """
    return PickerView(
        head=page_head("differences"),
        choices=tuple(
            ChoiceView(
                truck.guide.number,
                sheet_page(truck.guide.number),
                tuple(_name(truck.guide)),
                truck.alike,
            )
            for truck in choice.others
        ),
        same_guide=choice.same_guide,
        stands_for_edition=stands_for_edition,
        onward=ways.onward(DIFFERENCES_PAGE),
    )


def _name(guide: Guide) -> Iterable[FactView]:
    for name in TITLE_FACTS:
        fact = guide.facts.get(name)
        if fact is not None:
            yield FactView(name, fact.field.label, plain(value_words(fact)), "")


def lay_out_sheet(known: Guide, given: Guide, sheet: DifferenceSheet) -> SheetView:
    """Return the view of the page for a driver who knows *known* and is given *given*."""
    rows = _Rows(
        Texts(put_into_words(known.facts, known_token)),
        Texts(put_into_words(given.facts, value_token)),
        leaf_of_procedures(given),
    )
    return SheetView(
        head=SheetHead(
            value_token(_NUMBER), edition_token(), known_token(_NUMBER), known_edition_token()
        ),
        ranks=tuple(
            RankView(Worded(rank, RANKS[rank]), tuple(rows.runs(differences)))
            for rank, differences in itertools.groupby(
                sheet.differences, key=lambda each: each.standing.rank.value
            )
        ),
        onward=(_BACK, _START),
    )


@dataclass(frozen=True, slots=True)
class _Rows:
    """The words of both trucks."""

    known: Texts
    given: Texts
    leaf_of: Mapping[str, str]
    """Of the procedures of the given truck."""

    def runs(self, differences: Iterable[Difference]) -> Iterable[RunView]:
        for reason, alike in itertools.groupby(
            differences, key=lambda each: each.standing.reason.value
        ):
            rows = tuple(self.row(difference) for difference in alike)
            yield RunView(Worded(reason, REASONS[reason]), rows)

    def row(self, difference: Difference) -> RowView:
        match difference:
            case ValueChanged() | ControlChanged():
                known, given = self._knows(difference.known), self._gives(difference.given)
                return _value_row(difference.given, known, given)
            case ValueGained(given=fact):
                return _value_row(fact, AnswerView("not_on_record"), self._gives(fact))
            case ValueLost(known=fact):
                return _value_row(fact, self._knows(fact), AnswerView("not_on_record"))
            case ThingGained() | ThingLost() | ThingInDoubt():
                return self._thing_row(difference)
            case LampGained() | LampLost():
                return self._lamp_row(difference)
            case _:
                return self._work_row(difference)

    def _knows(self, fact: Fact) -> AnswerView:
        return AnswerView(fact=fact.name, words=self.known.words[fact.name])

    def _gives(self, fact: Fact) -> AnswerView:
        return AnswerView(fact=fact.name, words=self.given.words[fact.name])

    def _thing_row(self, difference: ThingGained | ThingLost | ThingInDoubt) -> RowView:
        facts: tuple[FactView, ...] = ()
        known = given = AnswerView("fitted")
        match difference:
            case ThingGained(known=presence):
                known = _presence(presence)
                facts = tuple(
                    FactView(fact.name, fact.field.label, self.given.words[fact.name], "")
                    for fact in difference.facts
                )
            case ThingLost(given=presence):
                given = _presence(presence)
            case ThingInDoubt(known=before, given=after):
                known, given = _presence(before), _presence(after)
            case _:
                assert_never(difference)
        section = difference.section
        return RowView(f"thing.{section}", _section(section), known=known, given=given, facts=facts)

    def _work_row(self, difference: ProcedureDifference) -> RowView:
        changes: tuple[PartChange, ...] = ()
        note = "done_otherwise"
        only = ""
        match difference:
            case ProcedureLost(procedure=procedure):
                title = self.known.text(procedure.title)
                return RowView(f"work.{procedure.id}", title=title, only="known")
            case ProcedureGained(procedure=procedure):
                note, only = "", "given"
            case ProcedureChanged(given=procedure):
                changes = difference.changes
            case ProcedureReplaced(given=procedure):
                pass
            case _:
                assert_never(difference)
        href = self._page(procedure)
        words = self.given.text(procedure.title).words
        return RowView(
            f"work.{procedure.id}",
            link=Link(href, "data-procedure-link", procedure.id, words),
            only=only,
            note=note,
            is_reordered=any(isinstance(change, OrderChanged) for change in changes),
            sides=PartsLayout(self.known, self.given).sides(changes),
        )

    def _lamp_row(self, difference: LampGained | LampLost) -> RowView:
        lamp, procedure = difference.lamp, difference.procedure
        is_gained = isinstance(difference, LampGained)
        href = self._page(procedure) if is_gained and procedure else ""
        return RowView(
            f"lamp.{lamp}",
            _section("lamps"),
            lamp=Link(href, "data-lamp", lamp, LAMPS[lamp].name),
            only="given" if is_gained else "known",
        )

    def _page(self, procedure: Procedure) -> str:
        return f"{chapter_page(self.leaf_of[procedure.id])}#{procedure.id}"


def _value_row(fact: Fact, known: AnswerView, given: AnswerView) -> RowView:
    label = Worded(fact.name, fact.field.label)
    section = fact.field.section
    # What is said of the truck as a whole needs no other heading.
    worded = None if section == _WHOLE else _section(section)
    return RowView(f"value.{fact.name}", worded, label, known=known, given=given)


def _section(section: str) -> Worded:
    return Worded(section, HOLDER_LABELS[section])


def _presence(presence: Presence) -> AnswerView:
    return AnswerView("not_fitted" if presence is Presence.NOT_FITTED else "not_on_record")
