"""The chapters of a booklet.

Takes in the matter of one guide and its inspection round; gives out chapters of groups, each
group to stay on one page, with the places that contents and index lead to.
Refuses to leave anything of the guide out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from guidegen.guide.model import Procedure
from guidegen.paper.keywords import fact_anchor, procedure_anchor
from guidegen.paper.matter import Group, Matter, Piece
from guidegen.paper.photo_matter import OPENING, behind_steps, photo_piece
from guidegen.procedures.words import CHAPTERS, LABELS
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.units.model import Presence
from guidegen.wording import source_words


@dataclass(frozen=True, slots=True)
class BookletChapter:
    """What begins on a page of its own."""

    title: str
    groups: tuple[Group, ...]


def chapters_of(matter: Matter, tour: Round | None, span: Span) -> Iterator[BookletChapter]:
    """Yield all chapters of the guide, the inspection round and the data, in that order.

    Args:
        matter: Of the guide.
        tour: The guide's round, if it has one.
        span: Of what asks for the booklet, for sentences that stand in no file.
    """
    for chapter in matter.guide.chapters:
        yield BookletChapter(
            CHAPTERS[chapter.id], tuple(_chapter(matter, chapter.procedures, span))
        )
    if tour is not None:
        groups = (_with_place(group) for group in matter.tour(tour, "checks_on_pages"))
        yield BookletChapter(LABELS["inspection_round"], tuple(groups))
    yield BookletChapter(LABELS["data"], (*_facts(matter), *_absent(matter, span)))


def _chapter(matter: Matter, procedures: tuple[Procedure, ...], span: Span) -> Iterator[Group]:
    if any(procedure.lamp for procedure in procedures):
        yield matter.note("symbols_differ", span)
    for procedure in procedures:
        if procedure.lamp is None:
            yield from _procedure(matter, procedure)
        else:
            yield _anchored(matter.lamp(procedure), procedure)


def _procedure(matter: Matter, procedure: Procedure) -> Iterator[Group]:
    """Yield the groups of *procedure*; figure and photos of all of it stay with its title."""
    shown = tuple(_shown(matter, procedure))
    photos = [(photo, photo_piece(photo)) for photo in procedure.photos]
    for plain in matter.procedure(procedure):
        group = behind_steps(_anchored(plain, procedure), procedure, photos)
        if not group.opens or not shown:
            yield group
            continue
        opening = tuple(piece for piece in group.pieces if piece["kind"] in OPENING)
        rest = tuple(piece for piece in group.pieces if piece not in opening)
        says = f"the figure or photo of `{procedure.id}`"
        yield replace(group, pieces=(*opening, *shown), says=says)
        yield replace(group, pieces=rest, opens=False)


def _shown(matter: Matter, procedure: Procedure) -> Iterator[Piece]:
    """Yield the figure of *procedure* and the photos that are of no one step."""
    drawing = matter.drawing(procedure)
    if drawing is not None:
        yield {"kind": "figure", "drawing": drawing, "caption": drawing["caption"]}
    yield from (photo_piece(photo) for photo in procedure.photos if not photo.step)


def _anchored(group: Group, procedure: Procedure) -> Group:
    anchor = procedure_anchor(procedure.id)
    pieces = (
        {**piece, "anchor": anchor, "level": 2} if piece["kind"] in {"title", "lamp"} else piece
        for piece in group.pieces
    )
    return replace(group, pieces=tuple(pieces))


def _with_place(group: Group) -> Group:
    pieces = (
        {**piece, "anchor": procedure_anchor(piece["procedure"])} if "procedure" in piece else piece
        for piece in group.pieces
    )
    return replace(group, pieces=tuple(pieces))


def _facts(matter: Matter) -> Iterator[Group]:
    facts = matter.guide.facts
    by_section: dict[str, list[str]] = {}
    for name, fact in facts.items():
        by_section.setdefault(fact.field.section, []).append(name)
    for section, names in by_section.items():
        heading: Piece = {"kind": "section", "words": HOLDER_LABELS[section], "level": 2}
        for name in names:
            row: Piece = {
                "kind": "datum",
                "label": facts[name].field.label,
                "value": matter.value(name),
                "source": source_words(facts[name]),
                "anchor": fact_anchor(name),
            }
            opens = name == names[0]
            pieces = (heading, row) if opens else (row,)
            span = facts[name].provenance.span
            yield Group(pieces, opens, HOLDER_LABELS[section], span, f"value `{name}`")


def _absent(matter: Matter, span: Span) -> Iterator[Group]:
    """Yield what the truck does not have, one group a thing."""
    sections = matter.guide.sections
    missing = [name for name in sections if sections[name].presence is Presence.NOT_FITTED]
    # That a device is not there says the same of its parts.
    whole = [name for name in missing if name.rpartition(".")[0] not in missing]
    heading: Piece = {"kind": "section", "words": LABELS["not_fitted"], "level": 2}
    for name in whole:
        opens = name == whole[0]
        line: Piece = {"kind": "note", "words": EQUIPMENT_SECTIONS[name].label}
        pieces = (heading, line) if opens else (line,)
        yield Group(pieces, opens, LABELS["not_fitted"], sections[name].span or span, f"`{name}`")
