"""From a guide to the views of its pages.

Takes in a guide; gives out one view for each page, with the identity as tokens.
Refuses a caution that guards no step: it would stand on no page.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from markupsafe import Markup

from guidegen.decks.model import CardKind
from guidegen.figures.compose import figure_of
from guidegen.figures.draw_svg import draw_svg
from guidegen.figures.lamp_color import mark_of_color
from guidegen.guide.leaves import Leaf, leaf_of_procedures, leaves_of
from guidegen.guide.model import STAMPED, Block, Caution, Chapter, Guide, Procedure, Step
from guidegen.procedures.model import LampSign, Signal
from guidegen.procedures.script_words import BACK_WORDS, TIMER_WORDS
from guidegen.procedures.words import (
    CHAPTERS,
    LABELS,
    LAMP_ACTS,
    LAMP_COLORS,
    SIGNAL_DEFINITIONS,
    STATES,
    STATIONS,
)
from guidegen.site.key_numbers import KEY_NUMBERS, needs_section
from guidegen.site.texts import Texts
from guidegen.site.timer_views import TimerLayout
from guidegen.site.tokens import plain, revisions_token, source_token, value_token
from guidegen.site.views import (
    CautionView,
    ChapterView,
    DataView,
    FactView,
    FigureView,
    IndexView,
    LampView,
    Link,
    PageHead,
    PickView,
    ProcedureView,
    SectionView,
    StartView,
    StepView,
    Worded,
)
from guidegen.specs.equipment import EQUIPMENT_SECTIONS, goes_without_saying
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.units.model import Presence
from guidegen.wording import source_words

START_PAGE = "index.html"
DATA_PAGE = "data.html"
ROUND_PAGE = "round.html"
LAMPS_PAGE = "lamp-finder.html"
QUIZ_PAGE = "quiz.html"
DIFFERENCES_PAGE = "differences.html"
SEARCH_PAGE = "search.html"
FLEET_PAGE = "../index.html"
_NO_CHAPTERS = (START_PAGE, ROUND_PAGE, LAMPS_PAGE, SEARCH_PAGE, FLEET_PAGE)
"""What the start page does not list with the chapters."""

_CHAPTER_LIST = Link("#chapters", "data-label", "chapters", LABELS["chapters"])
_TOOLS = (
    ("search", SEARCH_PAGE),
    ("to_round", ROUND_PAGE),
    ("to_lamps", LAMPS_PAGE),
)
"""What the bar leads to, in its order, as far as the truck has it."""

TITLE_FACTS = ("identity.year", "identity.make", "identity.model_name", "identity.body")
_IDENTITY_FACTS = ("identity.plate", "identity.yard", "identity.vin")


class StrayCaution(ValueError):
    """A caution stands behind the last step, so it warns of nothing."""


def chapter_page(leaf: str) -> str:
    """Return the path of the page of a chapter's leaf with the id *leaf*."""
    return f"{leaf}.html"


def leaf_words(leaf: Leaf) -> str:
    """Return what a page of a chapter is called."""
    words = CHAPTERS[leaf.chapter]
    return words if leaf.number == 1 else f"{words}, {leaf.number} {LABELS['of']} {leaf.count}"


def card_file(card: CardKind) -> str:
    """Return the path of the PDF of a card, from the unit's folder."""
    return f"cards/{card.id}.pdf"


def worded(words: Mapping[str, str]) -> tuple[Worded, ...]:
    """Return the words of a closed table, each with its key."""
    return tuple(Worded(key, text) for key, text in words.items())


class Layout:
    """The views of one guide; every fact is put into words once."""

    def __init__(self, guide: Guide, *, has_round: bool, has_quiz: bool = False) -> None:
        self.guide = guide
        self.texts = Texts(guide.facts, value_token)
        self.leaf_of = leaf_of_procedures(guide)
        self.timers = TimerLayout(guide.facts, self.texts.words)
        self.has_round = has_round
        self.links = tuple(_links(guide, has_round=has_round, has_quiz=has_quiz))

    def start(self, cards: Iterable[CardKind] = ()) -> StartView:
        """Return the view of the start page; *cards* are those that stand beside it."""
        return StartView(
            head=self.head("start"),
            title_facts=self._facts(TITLE_FACTS),
            identity=self._facts(_IDENTITY_FACTS),
            key_numbers=self._facts(KEY_NUMBERS),
            round=self._link_to(ROUND_PAGE),
            finder=self._link_to(LAMPS_PAGE),
            picks=tuple(pick_of(color, LAMPS_PAGE) for color in lamp_colors(self.guide)),
            links=tuple(link for link in self.links if link.href not in _NO_CHAPTERS),
            cards=tuple(
                Link(card_file(card), "data-card", card.id, plain(card.title)) for card in cards
            ),
            revisions=revisions_token(),
            signals=tuple(
                (signal.value, SIGNAL_DEFINITIONS[signal.value], signal is not Signal.NOTICE)
                for signal in Signal
            ),
        )

    def chapter(self, chapter: Chapter) -> Iterable[ChapterView]:
        """Yield the views of the pages of *chapter*; each has the contents of the whole."""
        leaves = leaves_of(chapter)
        finder = self._link_to(LAMPS_PAGE)
        contents = tuple(self._procedure_link(each) for each in chapter.procedures)
        for leaf, following in zip(leaves, (*leaves[1:], None), strict=True):
            onward = self.onward(chapter_page(chapter.id))
            if following is not None:
                onward = (_leaf_link(following), onward[-1])
            yield ChapterView(
                head=self.head(leaf.id),
                chapter=Worded(leaf.id, leaf_words(leaf)),
                contents=contents,
                procedures=tuple(self._procedure(each) for each in leaf.procedures),
                finder=finder if any(each.lamp for each in leaf.procedures) else None,
                onward=onward,
                script_words=tuple(self._script_words(leaf)),
            )

    def procedure_page(self, procedure: str) -> str:
        """Return the path of the page and the place on it of the procedure with the id given."""
        return f"{chapter_page(self.leaf_of[procedure])}#{procedure}"

    def _procedure_link(self, procedure: Procedure) -> Link:
        words = self.texts.text(procedure.title).words
        href = self.procedure_page(procedure.id)
        return Link(href, "data-procedure-link", procedure.id, words)

    def data(self) -> DataView:
        """Return the view of the data page."""
        by_section: dict[str, list[str]] = {}
        for name, fact in self.guide.facts.items():
            by_section.setdefault(fact.field.section, []).append(name)
        sections = (
            SectionView(section, HOLDER_LABELS[section], self._facts(names))
            for section, names in by_section.items()
        )
        absent = (
            Worded(name, EQUIPMENT_SECTIONS[name].label)
            for name in self.guide.sections
            if self._not_fitted(name) and not self._not_fitted(goes_without_saying(name))
        )
        return DataView(self.head("data"), tuple(sections), tuple(absent), self.onward(DATA_PAGE))

    def nav(self, current: str) -> tuple[Link, ...]:
        """Return the links of the unit's navigation on the page *current*."""
        return tuple(
            Link(link.href, link.mark, link.key, link.words, is_current=link.href == current)
            for link in self.links
        )

    def _link_to(self, page: str) -> Link | None:
        return next((link for link in self.links if link.href == page), None)

    def tools(self, current: str) -> tuple[Link, ...]:
        """Return the links of the bar on the page *current*."""
        there = {link.href for link in self.links}
        return (
            _CHAPTER_LIST,
            *(
                Link(href, "data-label", key, LABELS[key], is_current=href == current)
                for key, href in _TOOLS
                if href in there
            ),
        )

    def index(self) -> IndexView:
        """Return the view of the search page."""
        titled = [
            (self.texts.text(procedure.title).words_alone.casefold(), procedure.id, procedure)
            for chapter in self.guide.chapters
            for procedure in chapter.procedures
        ]
        # Values are left out: those of the identity are not known here.
        titled.sort(key=lambda each: each[:2])
        links = (self._procedure_link(procedure) for _, _, procedure in titled)
        return IndexView(self.head("search"), tuple(links), self.onward(SEARCH_PAGE))

    def _not_fitted(self, section: str) -> bool:
        state = self.guide.sections.get(section)
        return state is not None and state.presence is Presence.NOT_FITTED

    def head(self, page: str) -> PageHead:
        """Return what the container of the page named *page* carries."""
        return PageHead(value_token("identity.number"), self.guide.edition, page)

    def onward(self, current: str) -> tuple[Link, ...]:
        """Return the links to the page after *current*, and to the start page."""
        paths = [link.href for link in self.links]
        following = self.links[paths.index(current) + 1 :][:1]
        start = self.links[paths.index(START_PAGE)]
        return (*following, start)

    def _facts(self, names: Iterable[str]) -> tuple[FactView, ...]:
        return tuple(self._fact(name) for name in names if name in self.guide.facts)

    def _fact(self, name: str) -> FactView:
        fact = self.guide.facts[name]
        source = source_token(name) if name in STAMPED else plain(source_words(fact))
        section = fact.field.section
        worded = Worded(section, HOLDER_LABELS[section]) if needs_section(name) else None
        return FactView(name, fact.field.label, self.texts.words[name], source, worded)

    def _procedure(self, procedure: Procedure) -> ProcedureView:
        return ProcedureView(
            id=procedure.id,
            title=self.texts.text(procedure.title),
            station=Worded(procedure.station, STATIONS[procedure.station]),
            states=tuple(
                Worded(f"{aspect}.{state}", STATES[aspect][state])
                for aspect, state in procedure.state
            ),
            steps=tuple(self._steps(procedure.blocks)),
            expect=tuple(self.texts.text(text) for text in procedure.expect),
            if_not=tuple(self.texts.text(text) for text in procedure.if_not),
            lamp=_lamp(procedure.lamp),
            figure=self._figure(procedure),
        )

    def _script_words(self, leaf: Leaf) -> Iterator[Worded]:
        """Yield what scripts show on the page *leaf*: the way back, and of its timers."""
        blocks = (block for each in leaf.procedures for block in each.blocks)
        if any(isinstance(block, Step) and block.timer for block in blocks):
            yield from worded(TIMER_WORDS)
        if self.has_round:
            yield from worded(BACK_WORDS)

    def _figure(self, procedure: Procedure) -> FigureView | None:
        figure = figure_of(procedure, self.guide.facts)
        if figure is None:
            return None
        drawing = Markup(draw_svg(figure, self.texts.words))  # noqa: S704 -- it escapes all words itself
        return FigureView(figure.kind, drawing, self.texts.text(figure.alt))

    def _steps(self, blocks: Iterable[Block]) -> Iterable[StepView]:
        waiting: list[CautionView] = []
        for block in blocks:
            match block:
                case Caution():
                    waiting.append(self.texts.caution(block))
                case Step():
                    text = self.texts.text(block.text)
                    timer = self.timers.view(block.timer)
                    yield StepView(block.id, block.number, text, tuple(waiting), timer)
                    waiting = []
        if waiting:
            raise StrayCaution(waiting[0].id)


def lamp_colors(guide: Guide) -> Sequence[str]:
    """Return the colors of the lamps that the truck has, gravest first."""
    fitted = {
        procedure.lamp.color
        for chapter in guide.chapters
        for procedure in chapter.procedures
        if procedure.lamp is not None
    }
    return [color for color in LAMP_COLORS if color in fitted]


def pick_of(color: str, page: str = "") -> PickView:
    """Return the way to the lamps of *color* in the lamp finder; *page* is empty on it itself."""
    mark = Markup(draw_svg(mark_of_color(color), {}))  # noqa: S704 -- it escapes all words itself
    return PickView(Worded(color, LAMP_COLORS[color]), f"{page}#{color}", mark)


def _lamp(sign: LampSign | None) -> LampView | None:
    if sign is None:
        return None
    color = Worded(sign.color, LAMP_COLORS[sign.color])
    return LampView(color, Worded(sign.act, LAMP_ACTS[sign.act]))


def _leaf_link(leaf: Leaf) -> Link:
    return Link(chapter_page(leaf.id), "data-chapter", leaf.id, leaf_words(leaf))


def _links(guide: Guide, *, has_round: bool, has_quiz: bool) -> Iterable[Link]:
    yield Link(START_PAGE, "data-label", "start", LABELS["start"])
    if has_round:
        yield Link(ROUND_PAGE, "data-label", "round", LABELS["round"])
    if lamp_colors(guide):
        yield Link(LAMPS_PAGE, "data-label", "lamp_finder", LABELS["lamp_finder"])
    for chapter in guide.chapters:
        yield Link(chapter_page(chapter.id), "data-chapter", chapter.id, CHAPTERS[chapter.id])
    yield Link(SEARCH_PAGE, "data-label", "search", LABELS["search"])
    yield Link(DATA_PAGE, "data-label", "data", LABELS["data"])
    if has_quiz:
        yield Link(QUIZ_PAGE, "data-label", "quiz", LABELS["quiz"])
    yield Link(DIFFERENCES_PAGE, "data-label", "differences", LABELS["differences"])
    yield Link(FLEET_PAGE, "data-label", "all_trucks", LABELS["all_trucks"])
