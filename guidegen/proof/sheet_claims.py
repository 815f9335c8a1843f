"""What a difference sheet must say.

Takes in the guide of the truck that the driver knows and of the one that the driver is given;
gives out, difference by difference and in order, every text that must be read and whose it is.
Refuses to leave a value of the known truck without that truck's number before it.
"""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.differences.standing import RANKS, REASONS
from guidegen.guide.leaves import leaf_of_procedures
from guidegen.guide.model import STAMPED, Caution, Guide
from guidegen.proof.differ import Differing, carrier_of, differ, procedure_of_lamp
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim
from guidegen.proof.sheet_model import GIVEN, KNOWN, Heading, Row, RowClaims, SheetClaims
from guidegen.proof.sheet_parts import Parts
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.specs.topics.lamps import LAMPS
from guidegen.units.model import Presence

_WHOLE = "identity"
"""The section whose values need no heading: they are of the truck as a whole."""

SHEET_WORDS = {
    **{(Mark.RANK, key): words for key, words in RANKS.items()},
    **{(Mark.REASON, key): words for key, words in REASONS.items()},
    **{(Mark.LAMP, key): lamp.name for key, lamp in LAMPS.items()},
    **{(Mark.FACT_LABEL, name): fact.label for name, fact in FACTS.items()},
    **{(Mark.SECTION, name): words for name, words in HOLDER_LABELS.items()},
}
"""Fixed words of sheets by mark and key, whichever of the two trucks has the thing."""


def sheet_claims_of(known: Guide, given: Guide) -> SheetClaims:
    """Return what the sheet for drivers who know *known* and are given *given* must say."""
    rows: list[RowClaims] = []
    outline: list[Heading | str] = []
    differences = differ(known, given)
    rows_of = _Rows(known, given, leaf_of_procedures(given))
    for rank, graver in itertools.groupby(differences, key=lambda each: each.standing.rank):
        outline.append(Heading(Mark.RANK, rank.value))
        for reason, alike in itertools.groupby(graver, key=lambda each: each.standing.reason):
            outline.append(Heading(Mark.REASON, reason.value))
            for difference in alike:
                row = rows_of.of(difference)
                rows.append(row)
                outline.append(row.id)
    return SheetClaims(tuple(rows), tuple(outline))


@dataclass(frozen=True, slots=True)
class _Rows:
    known: Guide
    given: Guide
    leaf_of: Mapping[str, str]
    """Of the procedures of the given truck."""

    def of(self, difference: Differing) -> RowClaims:
        row = Row(f"{difference.kind}.{difference.key}")
        match difference.kind:
            case "thing":
                return self.of_thing(row, difference.key)
            case "value":
                return self.of_value(row, difference.key)
            case "lamp":
                return self.of_lamp(row, difference.key)
            case _:
                return self.of_work(row, difference)

    def of_value(self, row: Row, name: str) -> RowClaims:
        claims: list[Claim] = []
        if FACTS[name].section != _WHOLE:
            claims.append(row.claim(Mark.SECTION, FACTS[name].section))
        claims.append(row.claim(Mark.FACT_LABEL, name))
        for side, guide in ((KNOWN, self.known), (GIVEN, self.given)):
            claims.extend(row.side(side))
            if name in guide.facts:
                claims.append(row.claim(side.fact, name))
            else:
                claims.append(row.claim(Mark.LABEL, "not_on_record"))
        fact = self.given.facts.get(name) or self.known.facts[name]
        return RowClaims(row.id, tuple(claims), span=fact.provenance.span)

    def of_thing(self, row: Row, section: str) -> RowClaims:
        claims = [row.claim(Mark.SECTION, section)]
        for side, guide in ((KNOWN, self.known), (GIVEN, self.given)):
            claims.extend(row.side(side))
            claims.append(row.claim(Mark.LABEL, _fitting(guide, section)))
        if _fitting(self.given, section) == "fitted":
            for name in self.given.facts:
                if carrier_of(name) == section and name not in STAMPED:
                    claims += [row.claim(Mark.FACT_LABEL, name), row.claim(Mark.FACT, name)]
        state = self.given.sections.get(section)
        return RowClaims(row.id, tuple(claims), span=state.span if state else None)

    def of_lamp(self, row: Row, lamp: str) -> RowClaims:
        lamps = self.given.facts["lamps.fitted"]
        is_gained = isinstance(lamps.value, tuple) and lamp in lamps.value
        about = procedure_of_lamp(lamp, self.given) if is_gained else ""
        claims = (
            row.claim(Mark.SECTION, "lamps"),
            row.claim(Mark.LAMP, lamp),
            *row.side(GIVEN if is_gained else KNOWN, "only_on"),
        )
        links = {Mark.LAMP: self._page_of(about)} if about else {}
        return RowClaims(row.id, claims, links, span=lamps.provenance.span)

    def of_work(self, row: Row, difference: Differing) -> RowClaims:
        known, given = difference.known, difference.given
        if given is None:
            assert known is not None  # noqa: S101 -- a difference is of one truck at least
            title = row.claim(Mark.KNOWN_TEXT, known.title.id)
            return RowClaims(row.id, (title, *row.side(KNOWN, "only_on")), span=known.span)
        claims = [row.claim(Mark.PROCEDURE_LINK, given.id)]
        cautions: tuple[Caution, ...] = ()
        if known is None:
            claims.extend(row.side(GIVEN, "only_on"))
        else:
            claims.append(row.claim(Mark.LABEL, "done_otherwise"))
        if known is not None and known.id == given.id:
            parts = Parts(row, known, given)
            claims.extend(parts.claims())
            cautions = parts.cautions()
        links = {Mark.PROCEDURE_LINK: self._page_of(given.id)}
        return RowClaims(row.id, tuple(claims), links, cautions, given.span)

    def _page_of(self, procedure: str) -> str:
        return f"{self.leaf_of.get(procedure, '')}.html#{procedure}"


def _fitting(guide: Guide, section: str) -> str:
    state = guide.sections.get(section)
    match state.presence if state else Presence.NOT_ON_RECORD:
        case Presence.GIVEN:
            return "fitted"
        case Presence.NOT_FITTED:
            return "not_fitted"
        case Presence.NOT_ON_RECORD:
            return "not_on_record"
