"""What the published files of one edition must say.

Takes in a guide; gives out, page by page and in order, every text that must be read, and the
closed list of all that may stand beside them. Refuses nothing: it believes the guide, and
whether the guide is right is for the stages before it.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from guidegen.decks.model import CardKind
from guidegen.figures.compose import figure_of
from guidegen.figures.model import Figure
from guidegen.finding import Rule
from guidegen.guide.leaves import Leaf, leaves_of
from guidegen.guide.model import (
    STAMPED,
    Caution,
    FactRef,
    Guide,
    Procedure,
    Step,
    Text,
    Timer,
    caption_of,
)
from guidegen.guide.once import once_for_each
from guidegen.photos.model import Photo
from guidegen.procedures.figure_kinds import FIGURE_WORDS
from guidegen.procedures.script_words import TIMER_LINES
from guidegen.procedures.words import (
    CHAPTERS,
    LABELS,
    LAMP_ACTS,
    LAMP_COLORS,
    SIGNAL_DEFINITIONS,
    STATES,
    STATIONS,
)
from guidegen.proof.claims_search import SearchClaim, search_claims_of
from guidegen.proof.lamp_claims import LampClaims, lamp_claims_of
from guidegen.proof.marks import Mark
from guidegen.proof.model import Claim, Within
from guidegen.proof.quiz_claims import QuizClaims, quiz_claims_of
from guidegen.proof.read_text import pattern_of, plain
from guidegen.proof.round_claims import RoundClaims, round_claims_of
from guidegen.revisions.model import UnitHistory
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs.equipment import goes_without_saying
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.training.model import Quiz
from guidegen.units.model import Fact, Layer, Presence, StatedIn

START = "start"
DATA = "data"
ROUND = "round"
LAMP_FINDER = "lamp_finder"
QUIZ = "quiz"
START_PATH = "index.html"
LAMPS_PATH = "lamp-finder.html"
SEARCH = "search"
SEARCH_DATA_PATH = "search-data.js"
DIFFERENCES_PATH = "differences.html"
"""Where a driver picks the truck that he knows."""

HEADINGS = frozenset(
    {"state", "station", "steps", "meaning", "expect", "if_not", "hazard", "consequence", "avoid"}
)
"""Labels that say what the texts after them are."""

_LAYER_LABELS = {
    Layer.UNIT: "own",
    Layer.MODEL: "inherited",
    Layer.FLEET: "fleet",
    Layer.PROFILE: "profile",
    Layer.LIBRARY: "library",
}


class PageClaims(NamedTuple):
    """What one page must show."""

    name: str
    """``start``, ``round``, ``lamp_finder``, the id of a chapter, ``search``, ``data`` or
    ``quiz``."""

    path: str
    """From the unit's folder."""

    kind: str
    """``start``, ``round``, ``lamp_finder``, ``chapter``, ``search``, ``data`` or ``quiz``: pages
    of one kind have one frame."""

    sequence: tuple[Claim, ...]
    """Texts that must be there once each, in this order."""

    loose: tuple[Claim, ...]
    """Texts that must be there once each, anywhere in their procedure before its steps; on the
    start page, the colors of lamps to choose."""

    needed: tuple[tuple[Mark, str], ...]
    """Texts that must be there at least once."""

    photos: tuple[Photo, ...] = ()
    """Pictures that must be there once each, in this order."""


@dataclass(frozen=True, slots=True)
class TextClaim:
    """One text of the guide, ready for comparing."""

    pattern: str
    span: Span
    part: str
    """``title``, ``step``, ``hazard``, ``consequence``, ``avoid``, ``expect``, ``if_not`` or
    ``figure`` or ``photo``."""


@dataclass(frozen=True, slots=True)
class EditionClaims:
    """What the files of every unit of one edition must say."""

    pages: tuple[PageClaims, ...]
    texts: Mapping[str, TextClaim]
    procedures: Mapping[str, Procedure]
    chapter_of: Mapping[str, str]
    """Id of its chapter, by id of the procedure."""

    leaf_of: Mapping[str, str]
    """Name of the page that it stands on, likewise."""

    contents: Mapping[str, tuple[str, ...]]
    """Ids of the procedures that a page lists if it lists any, in order, by name of the page."""

    by_alphabet: tuple[str, ...]
    """Ids of all procedures by the words of their titles, values left out."""

    tools: tuple[str, ...]
    """Labels of what the bar of each page leads to, in order."""

    cautions: Mapping[str, Caution]
    steps: Mapping[str, Step]
    figures: Mapping[str, Figure]
    """By id of the procedure."""

    absent: Mapping[str, bool]
    """Sections that are not fitted; true for those that must be listed."""

    fixed: Mapping[tuple[Mark, str], str]
    """Fixed words by mark and key."""

    round: RoundClaims | None
    """What the page of the inspection round must say; none if the truck has no round."""

    lamps: LampClaims | None
    """What the lamp finder must say; none if the truck has no lamps on record."""

    quiz: QuizClaims | None
    """What the page of the quiz must say; none if the edition has no quiz."""

    cards: tuple[str, ...]
    """Ids of the printed cards, in order."""

    search: tuple[SearchClaim, ...]
    spoken: Collection[str]
    """All that an attribute may say aloud."""

    titles_name_truck: bool
    """Whether the title of any procedure shows what only one truck of the edition has."""

    proved_values: dict[tuple[str, str], tuple[Rule, str]] = field(
        default_factory=dict, compare=False
    )
    """What was found of a value that all units of the edition share, by fact and text."""

    texts_of_values: dict[str, list[str]] = field(default_factory=dict, compare=False)
    """Texts that were found to say a fact, by its name."""

    accepted: set[tuple[str, str, str | None]] = field(default_factory=set, compare=False)
    """Attributes that were looked at and found harmless: tag, name and value."""

    @property
    def photos(self) -> Mapping[str, Photo]:
        """The pictures that stand beside the pages, by path from the unit's folder."""
        return {photo.path: photo for page in self.pages for photo in page.photos}

    def page_at(self, path: str) -> PageClaims | None:
        """Return what the page at *path*, from the unit's folder, must show; None if nothing."""
        return next((page for page in self.pages if page.path == path), None)


def claims_of(
    guide: Guide,
    tour: Round | None = None,
    quiz: Quiz | None = None,
    cards: Sequence[CardKind] = (),
) -> EditionClaims:
    """Return what the files of *guide*, and of all others of its edition, must say.

    Args:
        guide: The guide of one of its units.
        tour: Their inspection round; without one there must be no page of it.
        quiz: Their quiz; likewise.
        cards: Their printed cards; others must not stand beside their pages.
    """
    procedures = {each.id: each for chapter in guide.chapters for each in chapter.procedures}
    figures = dict(_figures_of(procedures.values(), guide.facts))
    texts: dict[str, TextClaim] = {}
    for each in procedures.values():
        texts.update(_texts_of(each))
    texts.update(_claimed(figure.alt, "figure") for figure in figures.values())
    captions = (caption_of(photo) for each in procedures.values() for photo in each.photos)
    texts.update(_claimed(caption, "photo") for caption in captions if caption is not None)
    # Where a long chapter is parted is reckoned once: it weighs every text.
    leaves = tuple(leaf for chapter in guide.chapters for leaf in leaves_of(chapter))
    leaf_of = {each.id: leaf.id for leaf in leaves for each in leaf.procedures}
    fixed = dict(_fixed_words(guide, leaves, procedures.values(), texts))
    fixed.update({(Mark.CARD, card.id): card.title for card in cards})
    blocks = [block for each in procedures.values() for block in each.blocks]
    lamps = lamp_claims_of(guide, figures)
    return EditionClaims(
        pages=(
            _start_page(lamps),
            *([_ROUND_PAGE] if tour is not None else []),
            *([_LAMPS_PAGE] if lamps is not None else []),
            *(_chapter_page(leaf, figures) for leaf in leaves),
            _SEARCH_PAGE,
            _data_page(guide),
            *([_QUIZ_PAGE] if quiz is not None else []),
        ),
        texts=texts,
        procedures=procedures,
        chapter_of={e.id: chapter.id for chapter in guide.chapters for e in chapter.procedures},
        contents=dict(_contents_of(guide, leaves)),
        by_alphabet=tuple(sorted(procedures, key=lambda id_: (_title_key(procedures[id_]), id_))),
        tools=_tools(has_round=tour is not None, has_lamps=lamps is not None),
        leaf_of=leaf_of,
        cautions={block.id: block for block in blocks if isinstance(block, Caution)},
        steps={block.id: block for block in blocks if isinstance(block, Step)},
        figures=figures,
        absent=dict(_absent_sections(guide)),
        fixed=fixed,
        round=None if tour is None else round_claims_of(procedures, leaf_of, tour),
        lamps=lamps,
        quiz=None if quiz is None else quiz_claims_of(guide, quiz),
        cards=tuple(card.id for card in cards),
        search=search_claims_of(leaves),
        spoken=frozenset({*_spoken(fixed), *LABELS.values(), ""}),
        titles_name_truck=any(map(_title_names_truck, procedures.values())),
    )


def _title_names_truck(procedure: Procedure) -> bool:
    parts = procedure.title.parts
    return any(isinstance(part, FactRef) and part.name in STAMPED for part in parts)


def _contents_of(guide: Guide, leaves: Iterable[Leaf]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what each page may list: the start page all procedures, a leaf its chapter's."""
    listed = {
        chapter.id: tuple(each.id for each in chapter.procedures) for chapter in guide.chapters
    }
    yield START, tuple(id_ for ids in listed.values() for id_ in ids)
    yield from ((leaf.id, listed[leaf.chapter]) for leaf in leaves if leaf.procedures)


def _title_key(procedure: Procedure) -> str:
    parts = procedure.title.parts
    return "".join(part.text for part in parts if not isinstance(part, FactRef)).casefold()


def _tools(*, has_round: bool, has_lamps: bool) -> tuple[str, ...]:
    found = {"chapters": True, SEARCH: True, "to_round": has_round, "to_lamps": has_lamps}
    return tuple(key for key, is_there in found.items() if is_there)


def revision_words(guide: Guide, told: UnitHistory | None) -> str:
    """Return what must stand in the bar as the revision of *guide*.

    Args:
        guide: Of the truck.
        told: What was released of it; none where no record is kept.
    """
    digits = guide.edition[:8]
    if told is None:
        return digits
    return f"{LABELS['draft']} {digits}" if told.issued is None else str(told.issued.number)


def card_path(card: str) -> str:
    """Return the path of the PDF of the card with the id *card*, from the unit's folder."""
    return f"cards/{card}.pdf"


def source_words(fact: Fact) -> str:
    """Return the words for where *fact* comes from."""
    provenance = fact.provenance
    if isinstance(provenance, StatedIn):
        source = provenance.source or LABELS["no_source"]
        words = [f"{LABELS[_LAYER_LABELS[provenance.layer]]} \u2014 {source}"]
        if provenance.recorded is not None:
            name = [LABELS["recorded_by"], provenance.recorded.by] if provenance.recorded.by else []
            words.append(" ".join((LABELS["recorded"], provenance.recorded.on, *name)))
        return "; ".join(words)
    return f"{LABELS['worked_out']} {', '.join(FACTS[name].label for name in provenance.of)}"


def title_words(name: str, fixed: Mapping[tuple[Mark, str], str]) -> str:
    """Return what a page is called: the words of its part of a chapter, or of its label."""
    return fixed.get((Mark.CHAPTER, name)) or LABELS[name]


_ON_EVERY_PAGE = ((Mark.LABEL, "park_first"), (Mark.LABEL, "handbook_first"))
"""What a page is not."""

_ROUND_PAGE = PageClaims(ROUND, "round.html", ROUND, (), (), ())
"""What it must say stands in `RoundClaims`."""

_LAMPS_PAGE = PageClaims(LAMP_FINDER, LAMPS_PATH, LAMP_FINDER, (), (), ())
"""What it must say stands in `LampClaims`."""

_QUIZ_PAGE = PageClaims(QUIZ, "quiz.html", QUIZ, (), (), ())
"""What it must say stands in `QuizClaims`."""


_SEARCH_PAGE = PageClaims(
    SEARCH, "search.html", SEARCH, (), (), (*_ON_EVERY_PAGE, (Mark.LABEL, "all_procedures"))
)
"""Which procedures it must lead to, and in which order, `EditionClaims.by_alphabet` says."""


def _start_page(lamps: LampClaims | None) -> PageClaims:
    needed = [
        *_ON_EVERY_PAGE,
        (Mark.FACT, "identity.number"),
        *((Mark.SIGNAL_DEFINITION, signal) for signal in SIGNAL_DEFINITIONS),
    ]
    picks = lamps.picks if lamps is not None else ()
    return PageClaims(START, START_PATH, START, (), picks, tuple(needed))


def _chapter_page(leaf: Leaf, figures: Mapping[str, Figure]) -> PageClaims:
    has_lamps = any(each.lamp is not None for each in leaf.procedures)
    finder = [(Mark.LABEL, LAMP_FINDER)] if has_lamps else []
    return PageClaims(
        leaf.id,
        f"{leaf.id}.html",
        "chapter",
        tuple(
            claim
            for each in leaf.procedures
            for claim in _procedure_sequence(each, figures.get(each.id))
        ),
        tuple(claim for each in leaf.procedures for claim in _stance(each)),
        (*_ON_EVERY_PAGE, (Mark.CHAPTER, leaf.id), *finder),
        tuple(photo for each in leaf.procedures for photo in _photos_in_order(each)),
    )


def _data_page(guide: Guide) -> PageClaims:
    rows: list[Claim] = []
    for section, names in _facts_by_section(guide).items():
        rows.append(Claim(Mark.SECTION, section, Within()))
        for name in names:
            within = Within(row=name)
            marks = (Mark.FACT_LABEL, Mark.FACT, Mark.SOURCE)
            rows.extend(Claim(mark, name, within) for mark in marks)
    needed = *_ON_EVERY_PAGE, (Mark.LABEL, "value"), (Mark.LABEL, "source")
    return PageClaims(DATA, "data.html", DATA, tuple(rows), (), needed)


def _facts_by_section(guide: Guide) -> Mapping[str, list[str]]:
    sections: dict[str, list[str]] = {}
    for name, fact in guide.facts.items():
        sections.setdefault(fact.field.section, []).append(name)
    return sections


def _procedure_sequence(procedure: Procedure, figure: Figure | None) -> Iterator[Claim]:
    within = Within(procedure.id)
    yield Claim(Mark.TEXT, procedure.title.id, within)
    if figure is not None:
        yield from _figure_sequence(figure, within._replace(figure=figure.kind))
    yield from _below_figure(procedure)


@once_for_each
def _below_figure(procedure: Procedure) -> tuple[Claim, ...]:
    return tuple(_rest_of_sequence(procedure))


def _rest_of_sequence(procedure: Procedure) -> Iterator[Claim]:
    within = Within(procedure.id)
    yield from _photo_sequence(procedure, "", within)
    for block in procedure.blocks:
        if isinstance(block, Caution):
            inner = Within(procedure.id, block.id)
            yield Claim(Mark.SIGNAL_WORD, block.signal.value, inner)
            for text in (block.hazard, block.consequence, block.avoid):
                yield Claim(Mark.TEXT, text.id, inner)
        else:
            yield Claim(Mark.NUMBER, str(block.number), within)
            yield Claim(Mark.TEXT, block.text.id, within)
            yield from _photo_sequence(procedure, block.id, within)
            if block.timer is not None:
                yield from _timer_sequence(block.timer, within._replace(timer=block.id))
    for text in (*procedure.expect, *procedure.if_not):
        yield Claim(Mark.TEXT, text.id, within)


def _photo_sequence(procedure: Procedure, step: str, within: Within) -> Iterator[Claim]:
    """Yield the captions of the photos at a step; of the whole procedure, if *step* is empty."""
    for photo in procedure.photos:
        if photo.step_id == step and photo.caption:
            yield Claim(Mark.TEXT, photo.id, within._replace(photo=photo.id))


def _photos_in_order(procedure: Procedure) -> Iterator[Photo]:
    steps = ["", *(block.id for block in procedure.blocks if isinstance(block, Step))]
    yield from sorted(procedure.photos, key=lambda photo: steps.index(photo.step_id))


def _timer_sequence(timer: Timer, within: Within) -> Iterator[Claim]:
    if timer.time is not None:
        inner = within._replace(line="time")
        yield Claim(Mark.TIMER_WORD, "time", inner)
        yield Claim(Mark.FACT, timer.time, inner)
    for limit in timer.limits:
        inner = within._replace(line=limit.key)
        if limit.rig is not None:
            yield Claim(Mark.TIMER_WORD, limit.rig.value, inner)
        yield Claim(Mark.TIMER_WORD, f"{timer.kind.value}.{limit.bound.value}", inner)
        yield Claim(Mark.FACT, limit.fact, inner)
    if timer.only_measures:
        yield Claim(Mark.TIMER_WORD, "no_limit", within._replace(line="no_limit"))


def _figure_sequence(figure: Figure, within: Within) -> Iterator[Claim]:
    for written in figure.writing:
        if isinstance(written.says, FactRef):
            yield Claim(Mark.FACT, written.says.name, within)
        else:
            yield Claim(Mark.FIGURE_WORD, written.says, within)
    yield Claim(Mark.TEXT, figure.alt.id, within)


def _figures_of(
    procedures: Iterable[Procedure], facts: Mapping[str, Fact]
) -> Iterator[tuple[str, Figure]]:
    for procedure in procedures:
        figure = figure_of(procedure, facts)
        if figure is not None:
            yield procedure.id, figure


def _spoken(fixed: Mapping[tuple[Mark, str], str]) -> Iterator[str]:
    """Words of drawings are read in their drawings only: alone, a number says anything."""
    return (words for (mark, _), words in fixed.items() if mark is not Mark.FIGURE_WORD)


def _stance(procedure: Procedure) -> Iterator[Claim]:
    within = Within(procedure.id)
    if procedure.lamp is not None:
        yield Claim(Mark.LAMP_COLOR, procedure.lamp.color, within)
        yield Claim(Mark.LAMP_ACT, procedure.lamp.act, within)
        return
    if procedure.station:
        yield Claim(Mark.STATION, procedure.station, within)
    for aspect, state in procedure.state:
        yield Claim(Mark.STATE, f"{aspect}.{state}", within)


@once_for_each
def _texts_of(procedure: Procedure) -> tuple[tuple[str, TextClaim], ...]:
    return tuple(_texts_in(procedure))


def _texts_in(procedure: Procedure) -> Iterator[tuple[str, TextClaim]]:
    yield _claimed(procedure.title, "title")
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield _claimed(block.hazard, "hazard")
            yield _claimed(block.consequence, "consequence")
            yield _claimed(block.avoid, "avoid")
        else:
            yield _claimed(block.text, "step")
    shown = "meaning" if procedure.lamp else "expect"
    yield from (_claimed(text, shown) for text in procedure.expect)
    yield from (_claimed(text, "if_not") for text in procedure.if_not)


def _claimed(text: Text, part: str) -> tuple[str, TextClaim]:
    return text.id, TextClaim(pattern_of(text), text.span, part)


def _absent_sections(guide: Guide) -> Iterator[tuple[str, bool]]:
    absent = {
        name for name, state in guide.sections.items() if state.presence is Presence.NOT_FITTED
    }
    for name in guide.sections:
        if name in absent:
            # What follows from the absence of another thing may be left out.
            yield name, goes_without_saying(name) not in absent


def _fixed_words(
    guide: Guide,
    leaves: Iterable[Leaf],
    procedures: Iterable[Procedure],
    texts: Mapping[str, TextClaim],
) -> Iterator[tuple[tuple[Mark, str], str]]:
    yield from (((Mark.FIGURE_WORD, key), words) for key, words in FIGURE_WORDS.items())
    yield from (((Mark.LABEL, key), words) for key, words in LABELS.items())
    yield from (((Mark.TIMER_WORD, key), words) for key, words in TIMER_LINES.items())
    yield from (((Mark.STATION, key), words) for key, words in STATIONS.items())
    yield from (((Mark.LAMP_COLOR, key), words) for key, words in LAMP_COLORS.items())
    yield from (((Mark.LAMP_ACT, key), words) for key, words in LAMP_ACTS.items())
    for aspect, states in STATES.items():
        yield from (((Mark.STATE, f"{aspect}.{key}"), words) for key, words in states.items())
    for signal, words in SIGNAL_DEFINITIONS.items():
        yield (Mark.SIGNAL_WORD, signal), signal
        yield (Mark.SIGNAL_DEFINITION, signal), words
    for leaf in leaves:
        which = f", {leaf.number} {LABELS['of']} {leaf.count}" if leaf.number > 1 else ""
        yield (Mark.CHAPTER, leaf.id), CHAPTERS[leaf.chapter] + which
    for procedure in procedures:
        yield (Mark.PROCEDURE_LINK, procedure.id), plain(texts[procedure.title.id].pattern)
    for name, fact in guide.facts.items():
        yield (Mark.FACT_LABEL, name), fact.field.label
        section = fact.field.section
        yield (Mark.SECTION, section), HOLDER_LABELS[section]
    for section in guide.sections:
        yield (Mark.ABSENT, section), HOLDER_LABELS[section]
