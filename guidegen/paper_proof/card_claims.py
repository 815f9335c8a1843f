"""What a card must say.

Takes in a card, the guide of its truck and its issue; gives out every piece in the order of the
card, and the head of each side. Refuses to leave out any text of what stands on the card.
"""

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import replace

from guidegen.decks.model import Card, Issue
from guidegen.guide.model import Caution, Guide, Procedure, Step
from guidegen.paper_proof.model import (
    SIDE_COUNT,
    SIDE_NUMBER,
    Expected,
    Group,
    PaperCounts,
    Part,
    Piece,
)
from guidegen.paper_proof.pieces import (
    LEAST_SMALL,
    LEAST_UNIT,
    group_of_lamp,
    groups_of_facts,
    piece_of_label,
    pieces_of_procedure,
)
from guidegen.photos.model import Photo
from guidegen.procedures.words import LABELS, STATIONS
from guidegen.proof.read_text import fold, pattern_of
from guidegen.round.acts import ACTS
from guidegen.round.model import Round, Stop


def claims_of_card(card: Card, guide: Guide, issue: Issue) -> Expected:
    """Return all that the PDF of *card* must say.

    Args:
        card: Of the truck of *guide*.
        guide: What it was dealt from.
        issue: What each side says of its origin.
    """
    groups = tuple(_groups(card, guide))
    figures = (group.figure for group in groups)
    photos = (photo for group in groups for photo in group.photos)
    return Expected(
        file=f"{guide.number}/cards/{card.kind.id}.pdf",
        guide=guide,
        document=f"{guide.number}: {card.kind.title}",
        side=card.kind.side,
        head=head_of(card.kind.title, guide, issue),
        groups=groups,
        continued=LABELS["continued"],
        link=issue.link,
        safe=card.kind.side.free,
        spoken=frozenset(
            {
                issue.link,
                *(pattern_of(figure.alt) for figure in figures if figure is not None),
                *(photo.alt for photo in photos),
            }
        ),
        span=card.kind.span,
        counts=_counts(card),
        are_photos_resized=True,
    )


def head_of(title: str, guide: Guide, issue: Issue) -> tuple[Piece, ...]:
    """Return what stands on each side of a card, around the body."""
    revision = f"{LABELS['revision']} {issue.revision}"
    sides = f"{SIDE_NUMBER} {LABELS['of']} {SIDE_COUNT}"
    return (
        Piece(Part.UNIT, fold(guide.number), "number of the truck", None, LEAST_UNIT),
        Piece(Part.TEXT, fold(title), "title", None, LEAST_SMALL),
        Piece(Part.SIDE, sides, "number of the side", None, LEAST_SMALL),
        Piece(Part.REVISION, revision, "revision", None, LEAST_SMALL),
        Piece(Part.REVISION, issue.date, "date", None, LEAST_SMALL),
        *(
            Piece(Part.TEXT, fold(LABELS[note]), f"note `{note}`", None, LEAST_SMALL)
            for note in ("park_first", "handbook_first")
        ),
    )


def _groups(card: Card, guide: Guide) -> Iterator[Group]:
    if card.tour is not None:
        yield from _tour(card.tour, guide)
    shown = frozenset(each.photo.id for each in card.photos)
    for procedure in card.procedures:
        yield from _procedure(procedure, shown)
    yield from groups_of_facts(card.facts, guide, large=card.kind.is_large)
    if card.lamps:
        yield Group((piece_of_label("symbols_differ", card.kind.span),))
    for lamp in card.lamps:
        yield group_of_lamp(lamp, guide)


def _procedure(procedure: Procedure, shown: frozenset[str]) -> Iterator[Group]:
    """Yield the groups of *procedure* with those of its photos whose ids are *shown*.

    A photo of a step comes after it, and one of all of it after what it opens with.
    """
    steps = [block.id for block in procedure.blocks if isinstance(block, Step)]
    for step, group in itertools.zip_longest(steps, pieces_of_procedure(procedure)):
        whole = [each for each in procedure.photos if group.opens and not each.step]
        own = [each for each in procedure.photos if each.step and each.step_id == step]
        opening = sum(piece.is_opening for piece in group.pieces)
        parts = ((group.pieces[:opening], whole), (group.pieces[opening:], own))
        pieces, photos, after = list[Piece](), list[Photo](), list[int]()
        for words, pictures in parts:
            pieces += words
            for photo in (each for each in pictures if each.id in shown):
                photos.append(photo)
                after.append(len(pieces) - 1)
                pieces += _caption(photo)
        yield replace(
            group,
            pieces=tuple(pieces),
            photos=tuple(photos),
            photos_after=tuple(after),
            left_out=tuple(each for each in (*whole, *own) if each.id not in shown),
        )


def _caption(photo: Photo) -> Iterable[Piece]:
    if photo.caption:
        of = f"caption of `{photo.id}`"
        yield Piece(Part.TEXT, fold(photo.caption), of, photo.span, is_caption=True)


def _tour(tour: Round, guide: Guide) -> Iterator[Group]:
    procedures = {each.id: each for chapter in guide.chapters for each in chapter.procedures}
    first = procedures[tour.stops[0].procedure] if tour.stops else None
    yield Group((piece_of_label("checks_in_guide", first.title.span if first else None),))
    for stop, leg in zip(tour.stops, tour.legs, strict=True):
        procedure = procedures[stop.procedure]
        acts = [
            Piece(Part.STEP, fold(ACTS[change.act]), f"act before stop {stop.number}", None)
            for change in leg.changes
        ]
        yield from (Group((act,), opens=False) for act in acts[:-1])
        yield Group((*acts[-1:], *_stop(stop, procedure)), opens=False)


def _stop(stop: Stop, procedure: Procedure) -> Iterator[Piece]:
    title, of = procedure.title, f"stop {stop.number} of the round"
    yield Piece(Part.STEP, f"{stop.number} {pattern_of(title)}", of, title.span)
    yield Piece(Part.TEXT, fold(STATIONS[stop.station]), f"place of {of}", title.span)


def _counts(card: Card) -> PaperCounts:
    blocks = [block for each in (*card.procedures, *card.lamps) for block in each.blocks]
    return PaperCounts(
        procedures=len(card.procedures) + len(card.lamps),
        steps=sum(isinstance(block, Step) for block in blocks),
        cautions=sum(isinstance(block, Caution) for block in blocks),
    )
