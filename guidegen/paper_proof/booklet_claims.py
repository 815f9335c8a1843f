"""What a booklet must say.

Takes in the guide of a truck, its inspection round and its issue; gives out every piece from the
cover to the heading of the index, and what the index lists.
Refuses to go by how a booklet is made: it goes by the guide alone.
"""

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from guidegen.decks.model import Issue
from guidegen.decks.sizes import Side
from guidegen.figures.compose import figure_of
from guidegen.figures.model import Figure
from guidegen.guide.model import Caution, Guide, Procedure, Step
from guidegen.paper_proof.model import (
    CHAPTER,
    SIDE_COUNT,
    SIDE_NUMBER,
    CodePlace,
    Expected,
    Group,
    Listed,
    PaperCounts,
    Part,
    Piece,
    page_of,
)
from guidegen.paper_proof.pieces import (
    LEAST_SMALL,
    LEAST_TEXT,
    LEAST_UNIT,
    group_of_lamp,
    piece_of_label,
    piece_of_value,
    pieces_of_figure,
    pieces_of_procedure,
    slot,
)
from guidegen.photos.model import Photo
from guidegen.procedures.model import Signal
from guidegen.procedures.words import CHAPTERS, LABELS, SIGNAL_DEFINITIONS, STATIONS
from guidegen.proof.claims import source_words
from guidegen.proof.read_text import fold, pattern_of
from guidegen.round.acts import ACTS
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.units.model import Presence

HOLES = Decimal(12)
"""Millimeters on all sides that stay free: of a binder's holes. Common practice, no source."""

_CALLED = ("identity.year", "identity.make", "identity.model_name", "identity.body")
"""Facts that the cover calls a truck by, beside its number."""

_NOTES = ("park_first", "handbook_first")


@dataclass(frozen=True, slots=True)
class BookletOrder:
    """Which booklet is asked for."""

    guide: Guide
    tour: Round | None
    """The guide's inspection round, if it has one."""

    side: Side
    fleet: str
    """Its name."""

    issue: Issue
    span: Span
    """Of what asks for the booklet."""


def claims_of_booklet(order: BookletOrder) -> Expected:
    """Return all that the PDF of the booklet must say."""
    guide, issue = order.guide, order.issue
    chapters = [(title, tuple(groups)) for title, groups in _chapters(order)]
    headings = [heading for _, groups in chapters for heading in _headings(groups)]
    index = replace(_heading(LABELS["index"], order.span), anchor="index")
    contents = replace(_heading(LABELS["table_of_contents"], order.span), anchor="contents")
    drawn = [group.figure for _, groups in chapters for group in groups if group.figure]
    photos = [photo for _, groups in chapters for group in groups for photo in group.photos]
    listed = (*headings, index)
    return Expected(
        file=f"{guide.number}/booklet.pdf",
        guide=guide,
        document=f"{guide.number}: {LABELS['quick_guide']}",
        side=order.side,
        head=_head(guide, issue),
        groups=(
            Group(tuple(_cover(order))),
            Group((contents,), chapter=contents.pattern),
            *(Group((_line(heading),)) for heading in listed),
            *(group for _, groups in chapters for group in groups),
            Group((index,), chapter=index.pattern),
        ),
        continued=LABELS["continued"],
        link=issue.link,
        bleed=Decimal(0),
        safe=HOLES,
        spoken=frozenset(
            {
                issue.link,
                *(pattern_of(figure.alt) for figure in drawn),
                *(photo.alt for photo in photos),
            }
        ),
        span=order.span,
        counts=_counts(guide),
        bookmarks=(contents, *listed),
        index=tuple(_listed(guide)),
        is_bound=True,
        code=CodePlace.FIRST_BODY,
    )


def _head(guide: Guide, issue: Issue) -> tuple[Piece, ...]:
    side = f"{LABELS['page']} {SIDE_NUMBER} {LABELS['of']} {SIDE_COUNT}"
    revision = f"{LABELS['revision']} {issue.revision}"
    notes = (Piece(Part.TEXT, fold(LABELS[n]), f"note `{n}`", None, LEAST_SMALL) for n in _NOTES)
    return (
        Piece(Part.UNIT, fold(guide.number), "number of the truck", None, LEAST_TEXT),
        Piece(Part.TEXT, CHAPTER, "title of the chapter", None, LEAST_SMALL),
        Piece(Part.SIDE, side, "number of the page", None, LEAST_SMALL),
        Piece(Part.REVISION, revision, "revision", None, LEAST_SMALL),
        Piece(Part.REVISION, issue.date, "date", None, LEAST_SMALL),
        *notes,
    )


def _cover(order: BookletOrder) -> Iterator[Piece]:
    guide, issue, span = order.guide, order.issue, order.span
    called = " ".join(slot(name, span) for name in _CALLED if name in guide.facts)
    origin = f"{LABELS['revision']} {issue.revision}, {issue.date}"
    yield piece_of_label("quick_guide", span)
    yield Piece(Part.UNIT, fold(guide.number), "number of the truck", span, LEAST_UNIT)
    yield Piece(Part.TEXT, called, "what the truck is called", span)
    yield Piece(Part.TEXT, fold(order.fleet), "name of the fleet", span)
    yield Piece(Part.REVISION, origin, "revision and date", span)
    for label in (*_NOTES, "signal_words"):
        yield piece_of_label(label, span)
    for signal in Signal:
        word = signal.value
        says = fold(f"{word} {SIGNAL_DEFINITIONS[word]}")
        yield Piece(Part.CAUTION, says, f"meaning of `{word}`", span, LEAST_TEXT, word)


def _heading(words: str, span: Span | None) -> Piece:
    return Piece(Part.TEXT, fold(words), f"heading `{words}`", span)


def _line(heading: Piece) -> Piece:
    """Return the line of the contents for *heading*."""
    says = f"{heading.pattern} {page_of(heading.anchor)}"
    return Piece(Part.TEXT, says, f"line of the contents for {heading.of}", heading.span)


def _headings(groups: tuple[Group, ...]) -> Iterator[Piece]:
    """Yield the headings in *groups*: pieces that contents lead to."""
    return (piece for group in groups for piece in group.pieces if piece.is_heading)


def _chapters(order: BookletOrder) -> Iterator[tuple[str, Iterator[Group]]]:
    """Yield titles and groups of chapters; the first group begins with the title."""
    guide, span = order.guide, order.span
    for chapter in guide.chapters:
        title = CHAPTERS[chapter.id]
        yield title, _under(title, span, _chapter(guide, chapter.procedures, span))
    if order.tour is not None:
        title = LABELS["inspection_round"]
        yield title, _under(title, span, _tour(order.tour, guide, span))
    yield LABELS["data"], _under(LABELS["data"], span, _data(guide, span))


def _under(title: str, span: Span, groups: Iterator[Group]) -> Iterator[Group]:
    first = next(groups)
    anchor = f"chapter.{title}"
    heading = replace(_heading(title, span), anchor=anchor, is_heading=True)
    yield replace(first, pieces=(heading, *first.pieces), chapter=heading.pattern)
    yield from groups


def _chapter(guide: Guide, procedures: tuple[Procedure, ...], span: Span) -> Iterator[Group]:
    if any(procedure.lamp for procedure in procedures):
        yield Group((piece_of_label("symbols_differ", span),))
    for procedure in procedures:
        if procedure.lamp is not None:
            group = group_of_lamp(procedure, guide)
            yield replace(group, pieces=_anchored(group.pieces, procedure))
        else:
            yield from _procedure(procedure, guide)


def _procedure(procedure: Procedure, guide: Guide) -> Iterator[Group]:
    """Yield the groups of *procedure*; what shows all of it stays with its title."""
    figure = figure_of(procedure, guide.facts)
    whole = tuple(photo for photo in procedure.photos if not photo.step)
    steps = [block.id for block in procedure.blocks if isinstance(block, Step)]
    for step, group in itertools.zip_longest(steps, pieces_of_procedure(procedure)):
        photos = tuple(photo for photo in procedure.photos if photo.step and photo.step_id == step)
        pieces = (*_anchored(group.pieces, procedure), *_captions(photos))
        if not group.opens or (figure is None and not whole):
            yield replace(group, pieces=pieces, photos=photos)
            continue
        rest = next(place for place, piece in enumerate(pieces) if not piece.is_opening)
        drawn = (*_of_figure(figure), *_captions(whole))
        yield replace(group, pieces=(*pieces[:rest], *drawn), figure=figure, photos=whole)
        yield replace(group, pieces=pieces[rest:], opens=False, photos=photos)


def _of_figure(figure: Figure | None) -> Iterator[Piece]:
    if figure is not None:
        alt = figure.alt
        yield from pieces_of_figure(figure)
        yield Piece(Part.TEXT, pattern_of(alt), f"caption of `{figure.id}`", alt.span)


def _captions(photos: Iterable[Photo]) -> Iterator[Piece]:
    for photo in photos:
        if photo.caption:
            yield Piece(Part.TEXT, fold(photo.caption), f"caption of `{photo.id}`", photo.span)


def _anchored(pieces: tuple[Piece, ...], procedure: Procedure) -> tuple[Piece, ...]:
    title = pattern_of(procedure.title)
    return tuple(
        replace(piece, anchor=_anchor(procedure.id), is_heading=True)
        if piece.pattern == title and piece.part is Part.TEXT
        else piece
        for piece in pieces
    )


def _anchor(procedure: str) -> str:
    return f"procedure.{procedure}"


def _tour(tour: Round, guide: Guide, span: Span) -> Iterator[Group]:
    titles = {e.id: e.title for chapter in guide.chapters for e in chapter.procedures}
    yield Group((piece_of_label("checks_on_pages", span),))
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        title, of = titles[stop.procedure], f"stop {stop.number} of the round"
        place = fold(f"{STATIONS[stop.station]}, {LABELS['page']}")
        acts = [
            Piece(Part.STEP, fold(ACTS[change.act]), f"act before {of}", title.span)
            for change in leg.changes
        ]
        yield from (Group((act,), opens=False) for act in acts[:-1])
        yield Group(
            (
                *acts[-1:],
                Piece(Part.STEP, f"{stop.number} {pattern_of(title)}", of, title.span),
                Piece(
                    Part.TEXT,
                    f"{place} {page_of(_anchor(stop.procedure))}",
                    f"place and page of {of}",
                    title.span,
                ),
            ),
            opens=False,
        )


def _data(guide: Guide, span: Span) -> Iterator[Group]:
    by_section: dict[str, list[str]] = {}
    for name, fact in guide.facts.items():
        by_section.setdefault(fact.field.section, []).append(name)
    for section, names in by_section.items():
        heading = _section(HOLDER_LABELS[section], guide.facts[names[0]].provenance.span)
        for name in names:
            fact = guide.facts[name]
            value = replace(piece_of_value(name, guide), anchor=f"fact.{name}")
            source = Piece(
                Part.TEXT,
                fold(source_words(fact)),
                f"source of value `{name}`",
                fact.provenance.span,
                LEAST_SMALL,
            )
            opens = name == names[0]
            pieces = (heading, value, source) if opens else (value, source)
            yield Group(pieces, opens=opens, running=heading.pattern)
    yield from _absent(guide, span)


def _absent(guide: Guide, span: Span) -> Iterator[Group]:
    """Yield what the truck does not have; a part of an absent thing is not named."""
    absent = {n for n, each in guide.sections.items() if each.presence is Presence.NOT_FITTED}
    named = [n for n in guide.sections if n in absent and n.rpartition(".")[0] not in absent]
    heading = _section(LABELS["not_fitted"], span)
    for place, name in enumerate(named):
        stated = guide.sections[name].span or span
        thing = Piece(Part.TEXT, fold(EQUIPMENT_SECTIONS[name].label), f"`{name}`", stated)
        pieces = (thing,) if place else (heading, thing)
        yield Group(pieces, opens=not place, running=heading.pattern)


def _section(words: str, span: Span) -> Piece:
    return replace(_heading(words, span), anchor=f"section.{words}", is_heading=True)


def _listed(guide: Guide) -> Iterator[Listed]:
    for chapter in guide.chapters:
        for procedure in chapter.procedures:
            title = procedure.title
            pattern = pattern_of(title)
            yield Listed(pattern, pattern, _anchor(procedure.id), title.span)
    for name, fact in guide.facts.items():
        label = fold(fact.field.label)
        words = f"{label} ({fold(HOLDER_LABELS[fact.field.section])})"
        yield Listed(words, label, f"fact.{name}", fact.provenance.span)


def _counts(guide: Guide) -> PaperCounts:
    procedures = [each for chapter in guide.chapters for each in chapter.procedures]
    blocks = [block for each in procedures for block in each.blocks]
    return PaperCounts(
        procedures=len(procedures),
        steps=sum(isinstance(block, Step) for block in blocks),
        cautions=sum(isinstance(block, Caution) for block in blocks),
    )
