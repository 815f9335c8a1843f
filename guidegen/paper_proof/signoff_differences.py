"""What a sign-off sheet must say for a driver who knows another truck.

Takes in the guides of both trucks; gives out every difference in the order in which a sheet tells
it, each with what is on record of either truck under that truck's number.
Refuses to ask the comparison that the sheet was drawn from: what differs is read from both guides.
"""

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from guidegen.differences.standing import RANKS, REASONS
from guidegen.guide.model import FactRef, Guide, Text
from guidegen.guide.revision import REVISION_DIGITS
from guidegen.paper_proof.model import Group, Part, Piece
from guidegen.paper_proof.pieces import LEAST_SMALL, slot
from guidegen.paper_proof.sheet_claims import SheetOrder, piece_of_words
from guidegen.procedures.words import LABELS
from guidegen.proof.differ import LAMPS, Differing, differ
from guidegen.proof.read_text import fold, pattern_of
from guidegen.source import Span
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.specs.topics import lamps
from guidegen.training.words import SIGNOFF_WORDS
from guidegen.units.model import Fact, Presence

_COLUMNS = ("other_shows", "done", "more", "initials")
_WHOLE = "identity"
"""The section whose values need no name before them: they are of the truck as a whole."""

_KNOWN = "known:"
_FITTINGS = {
    Presence.GIVEN: "fitted",
    Presence.NOT_FITTED: "not_fitted",
    Presence.NOT_ON_RECORD: "not_on_record",
}


def facts_of_known(known: Guide) -> Mapping[str, Fact]:
    """Return the values of the truck that the driver knows, by names that are not this truck's."""
    return {f"{_KNOWN}{name}": fact for name, fact in known.facts.items()}


def groups_of_differences(known: Guide, order: SheetOrder) -> Iterator[Group]:
    """Yield all that the sheet must say of what differs.

    Args:
        known: Guide of the truck that the driver is signed off on.
        order: Of which truck, on which paper.
    """
    return _Telling(known, order.guide, order).groups()


@dataclass(frozen=True, slots=True)
class _Telling:
    known: Guide
    given: Guide
    order: SheetOrder

    def groups(self) -> Iterator[Group]:
        opening = [*self._opening()]
        differences = differ(self.known, self.given)
        if not differences:
            none = self._words(LABELS["no_differences"], "the sentence `no_differences`")
            yield Group((*opening, none))
        columns = fold(" ".join(SIGNOFF_WORDS[column] for column in _COLUMNS))
        for rank, graver in itertools.groupby(differences, lambda each: each.standing.rank):
            title = RANKS[rank.value]
            opening.append(self._words(title, f"heading `{title}`"))
            opening.append(self._words(columns, f"columns of `{title}`", LEAST_SMALL))
            is_first = True
            for reason, alike in itertools.groupby(graver, lambda each: each.standing.reason):
                why = REASONS[reason.value]
                opening.append(self._words(why, f"reason `{reason.value}`"))
                for difference in alike:
                    running = columns if opening else f"{columns} {fold(why)}"
                    pieces = (*opening, *self._row(difference))
                    yield Group(pieces, opens=is_first, running=running)
                    opening.clear()
                    is_first = False

    def _opening(self) -> Iterator[Piece]:
        number = self.known.number
        title = f"{SIGNOFF_WORDS['other_here']}: {number}"
        yield self._words(title, "heading of what is other")
        revision = self.order.known_revision or self.known.edition[:REVISION_DIGITS]
        revision = f"{number}: {LABELS['revision']} {revision}"
        yield self._words(revision, "revision of the known truck's guide")

    def _row(self, difference: Differing) -> Iterator[Piece]:
        what, *sides = self._told(difference)
        yield replace(what, after=sides[0].pattern)
        yield from sides

    def _told(self, difference: Differing) -> Iterator[Piece]:
        of = f"difference `{difference.kind}.{difference.key}`"
        match difference.kind:
            case "thing":
                return self._thing(difference.key, of)
            case "value":
                return self._value(difference.key, of)
            case "lamp":
                return self._lamp(difference.key, of)
            case _:
                return self._work(difference, of)

    def _thing(self, section: str, of: str) -> Iterator[Piece]:
        state = self.given.sections.get(section)
        span = state.span if state else None
        yield _what(HOLDER_LABELS[section], of, span)
        for guide in (self.known, self.given):
            held = guide.sections.get(section)
            fitting = _FITTINGS[held.presence if held else Presence.NOT_ON_RECORD]
            yield _side(guide, fold(LABELS[fitting]), of, span)

    def _value(self, name: str, of: str) -> Iterator[Piece]:
        label, section = FACTS[name].label, FACTS[name].section
        facts = [guide.facts.get(name) for guide in (self.known, self.given)]
        span = next(fact.provenance.span for fact in reversed(facts) if fact is not None)
        yield _what(label if section == _WHOLE else f"{HOLDER_LABELS[section]}: {label}", of, span)
        for guide, fact, prefix in zip((self.known, self.given), facts, (_KNOWN, ""), strict=True):
            missing = fold(LABELS["not_on_record"])
            says = missing if fact is None else slot(f"{prefix}{name}", fact.provenance.span)
            yield _side(guide, says, of, fact.provenance.span if fact else span)

    def _lamp(self, lamp: str, of: str) -> Iterator[Piece]:
        fitted = self.given.facts[LAMPS]
        span = fitted.provenance.span
        yield _what(f"{HOLDER_LABELS['lamps']}: {lamps.LAMPS[lamp].name}", of, span)
        is_gained = isinstance(fitted.value, tuple) and lamp in fitted.value
        yield self._only(of, span, is_gained=is_gained)

    def _work(self, difference: Differing, of: str) -> Iterator[Piece]:
        known, given = difference.known, difference.given
        if given is not None:
            yield Piece(Part.DIFFERENCE, pattern_of(given.title), of, given.span)
            if known is not None:
                yield Piece(Part.TEXT, fold(LABELS["done_otherwise"]), of, given.span)
            else:
                yield self._only(of, given.span, is_gained=True)
        elif known is not None:
            title = pattern_of(_on_known(known.title))
            yield Piece(Part.DIFFERENCE, title, of, known.span)
            yield self._only(of, known.span, is_gained=False)

    def _only(self, of: str, span: Span | None, *, is_gained: bool) -> Piece:
        only, absent = LABELS["only_on"], SIGNOFF_WORDS["not_on"]
        known, given = fold(self.known.number), fold(self.given.number)
        says = f"{only} {given}" if is_gained else f"{only} {known}, {absent} {given}"
        trucks = (given,) if is_gained else (known, given)
        return Piece(Part.SIDE_OF_TWO, says, f"truck of {of}", span, trucks=trucks)

    def _words(self, words: str, of: str, points: float | None = None) -> Piece:
        if points is None:
            return piece_of_words(words, of, self.order.span)
        return piece_of_words(words, of, self.order.span, points)


def _what(words: str, of: str, span: Span | None) -> Piece:
    return Piece(Part.DIFFERENCE, fold(words), of, span)


def _side(guide: Guide, says: str, of: str, span: Span | None) -> Piece:
    """Return the piece that says what is on record of one of the two trucks."""
    number = fold(guide.number)
    told = f"{guide.number} in {of}"
    return Piece(Part.SIDE_OF_TWO, f"{number}: {says}", told, span, trucks=(number,))


def _on_known(text: Text) -> Text:
    """Return *text* with its values those of the truck that the driver knows."""
    parts = (
        FactRef(f"{_KNOWN}{part.name}") if isinstance(part, FactRef) else part
        for part in text.parts
    )
    return Text(text.id, tuple(parts), text.span)
