"""From a guide to the views of its pages.

Takes in a guide; gives out one view for each page, with the identity as tokens.
Refuses a caution that guards no step: it would stand on no page.
"""

from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from guidegen.decks.model import CardKind
from guidegen.figures.compose import figure_of
from guidegen.figures.draw_svg import draw_svg
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
from guidegen.site.tokens import plain, source_token, value_token
from guidegen.site.views import (
    CautionView,
    ChapterView,
    DataView,
    FactView,
    FigureView,
    LampView,
    Link,
    PageHead,
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
QUIZ_PAGE = "quiz.html"
DIFFERENCES_PAGE = "differences.html"
FLEET_PAGE = "../index.html"
_NO_CHAPTERS = (START_PAGE, ROUND_PAGE, FLEET_PAGE)
"""What the start page does not list with the chapters."""

TITLE_FACTS = ("identity.year", "identity.make", "identity.model_name", "identity.body")
_IDENTITY_FACTS = ("identity.plate", "identity.yard", "identity.vin")


class StrayCaution(ValueError):
    """A caution stands behind the last step, so it warns of nothing."""


def chapter_page(chapter: str) -> str:
    """Return the path of the page of the chapter with the id *chapter*."""
    return f"{chapter}.html"


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
            round=next((link for link in self.links if link.href == ROUND_PAGE), None),
            links=tuple(link for link in self.links if link.href not in _NO_CHAPTERS),
            cards=tuple(
                Link(card_file(card), "data-card", card.id, plain(card.title)) for card in cards
            ),
            signals=tuple(
                (signal.value, SIGNAL_DEFINITIONS[signal.value], signal is not Signal.NOTICE)
                for signal in Signal
            ),
        )

    def chapter(self, chapter: Chapter) -> ChapterView:
        """Return the view of the page of *chapter*."""
        return ChapterView(
            head=self.head(chapter.id),
            chapter=Worded(chapter.id, CHAPTERS[chapter.id]),
            procedures=tuple(self._procedure(procedure) for procedure in chapter.procedures),
            onward=self.onward(chapter_page(chapter.id)),
            script_words=tuple(self._script_words(chapter)),
        )

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

    def _script_words(self, chapter: Chapter) -> Iterator[Worded]:
        """Yield what scripts show on the page of *chapter*: the way back, and of its timers."""
        blocks = (block for each in chapter.procedures for block in each.blocks)
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


def _lamp(sign: LampSign | None) -> LampView | None:
    if sign is None:
        return None
    color = Worded(sign.color, LAMP_COLORS[sign.color])
    return LampView(color, Worded(sign.act, LAMP_ACTS[sign.act]))


def _links(guide: Guide, *, has_round: bool, has_quiz: bool) -> Iterable[Link]:
    yield Link(START_PAGE, "data-label", "start", LABELS["start"])
    if has_round:
        yield Link(ROUND_PAGE, "data-label", "round", LABELS["round"])
    for chapter in guide.chapters:
        yield Link(chapter_page(chapter.id), "data-chapter", chapter.id, CHAPTERS[chapter.id])
    yield Link(DATA_PAGE, "data-label", "data", LABELS["data"])
    if has_quiz:
        yield Link(QUIZ_PAGE, "data-label", "quiz", LABELS["quiz"])
    yield Link(DIFFERENCES_PAGE, "data-label", "differences", LABELS["differences"])
    yield Link(FLEET_PAGE, "data-label", "all_trucks", LABELS["all_trucks"])
