"""From a guide to the views of its pages.

Takes in a guide, its ways and its procedures as they are drawn; gives out one view for each page,
with edition and identity as tokens.
Refuses nothing: what cannot be drawn was refused while the procedures were.
"""

from collections.abc import Iterable, Iterator, Mapping

from markupsafe import Markup

from guidegen.decks.model import CardKind
from guidegen.figures.draw_svg import draw_svg
from guidegen.figures.lamp_color import mark_of_color
from guidegen.guide.leaves import Leaf, leaves_of
from guidegen.guide.model import STAMPED, Chapter, Guide
from guidegen.procedures.model import Signal
from guidegen.procedures.script_words import BACK_WORDS, TIMER_WORDS
from guidegen.procedures.words import LAMP_COLORS, SIGNAL_DEFINITIONS
from guidegen.site.draw_procedures import DrawnProcedure, ProcedureDrawer
from guidegen.site.key_numbers import KEY_NUMBERS, needs_section
from guidegen.site.texts import Texts, put_into_words
from guidegen.site.tokens import plain, revisions_token, source_token, value_token
from guidegen.site.views import (
    ChapterView,
    DataView,
    FactView,
    IndexView,
    Link,
    PickView,
    SectionView,
    StartView,
    Worded,
)
from guidegen.site.ways import (
    DATA_PAGE,
    FLEET_PAGE,
    LAMPS_PAGE,
    ROUND_PAGE,
    SEARCH_PAGE,
    START_PAGE,
    Ways,
    chapter_page,
    leaf_link,
    leaf_words,
    page_head,
)
from guidegen.specs.equipment import EQUIPMENT_SECTIONS, goes_without_saying
from guidegen.specs.profile import HOLDER_LABELS
from guidegen.units.model import Presence
from guidegen.wording import source_words

_NO_CHAPTERS = (START_PAGE, ROUND_PAGE, LAMPS_PAGE, SEARCH_PAGE, FLEET_PAGE)
"""What the start page does not list with the chapters."""

TITLE_FACTS = ("identity.year", "identity.make", "identity.model_name", "identity.body")
_IDENTITY_FACTS = ("identity.plate", "identity.yard", "identity.vin")


def card_file(card: CardKind) -> str:
    """Return the path of the PDF of a card, from the unit's folder."""
    return f"cards/{card.id}.pdf"


def worded(words: Mapping[str, str]) -> tuple[Worded, ...]:
    """Return the words of a closed table, each with its key."""
    return tuple(Worded(key, text) for key, text in words.items())


_TIMER_WORDS, _BACK_WORDS = worded(TIMER_WORDS), worded(BACK_WORDS)
_SIGNALS = tuple(
    (signal.value, SIGNAL_DEFINITIONS[signal.value], signal is not Signal.NOTICE)
    for signal in Signal
)


class Layout:
    """The views of one guide; every fact is put into words once."""

    def __init__(self, guide: Guide, ways: Ways, procedures: ProcedureDrawer) -> None:
        self.guide = guide
        self.ways = ways
        self.texts = Texts(put_into_words(guide.facts, value_token))
        self.leaves: Mapping[str, tuple[Leaf, ...]] = {
            chapter.id: leaves_of(chapter) for chapter in guide.chapters
        }
        self.placed: Mapping[str, str] = {
            procedure.id: leaf.id
            for leaves in self.leaves.values()
            for leaf in leaves
            for procedure in leaf.procedures
        }
        """Id of the leaf on which each procedure stands, by its id."""
        self.drawn: Mapping[str, DrawnProcedure] = {
            procedure.id: procedures.draw(procedure, guide.facts, self.texts.words)
            for leaves in self.leaves.values()
            for leaf in leaves
            for procedure in leaf.procedures
        }
        self._procedure_links = {
            id_: Link(self.procedure_page(id_), "data-procedure-link", id_, drawn.title)
            for id_, drawn in self.drawn.items()
        }

    def start(self, cards: Iterable[CardKind] = ()) -> StartView:
        """Return the view of the start page; *cards* are those that stand beside it."""
        return StartView(
            head=page_head("start"),
            title_facts=self._facts(TITLE_FACTS),
            identity=self._facts(_IDENTITY_FACTS),
            key_numbers=self._facts(KEY_NUMBERS),
            round=self.ways.link_to(ROUND_PAGE),
            finder=self.ways.link_to(LAMPS_PAGE),
            picks=tuple(pick_of(color, LAMPS_PAGE) for color in self.ways.colors),
            links=tuple(link for link in self.ways.links if link.href not in _NO_CHAPTERS),
            cards=tuple(
                Link(card_file(card), "data-card", card.id, plain(card.title)) for card in cards
            ),
            revisions=revisions_token(),
            signals=_SIGNALS,
        )

    def chapter(self, chapter: Chapter) -> Iterator[ChapterView]:
        """Yield the views of the pages of *chapter*; each has the contents of the whole."""
        leaves = self.leaves[chapter.id]
        finder = self.ways.link_to(LAMPS_PAGE)
        contents = tuple(self._procedure_links[each.id] for each in chapter.procedures)
        for leaf, following in zip(leaves, (*leaves[1:], None), strict=True):
            onward = self.ways.onward(chapter_page(chapter.id))
            if following is not None:
                onward = (leaf_link(following), onward[-1])
            yield ChapterView(
                head=page_head(leaf.id),
                chapter=Worded(leaf.id, leaf_words(leaf)),
                contents=contents,
                procedures=tuple(self.drawn[each.id].section for each in leaf.procedures),
                finder=finder if any(each.lamp for each in leaf.procedures) else None,
                onward=onward,
                script_words=self._script_words(leaf),
            )

    def procedure_page(self, procedure: str) -> str:
        """Return the path of the page and the place on it of the procedure with the id given."""
        return f"{chapter_page(self.placed[procedure])}#{procedure}"

    def procedure_link(self, procedure: str) -> Link:
        """Return the link to the procedure with the id given, by its title."""
        return self._procedure_links[procedure]

    def data_sections(self) -> Iterator[SectionView]:
        """Yield the sections of the data page."""
        by_section: dict[str, list[str]] = {}
        for name, fact in self.guide.facts.items():
            by_section.setdefault(fact.field.section, []).append(name)
        for place, (section, names) in enumerate(by_section.items()):
            yield SectionView(section, HOLDER_LABELS[section], self._facts(names), place == 0)

    def data(self, sections: Iterable[Markup]) -> DataView:
        """Return the view of the data page with its *sections* as they are drawn."""
        absent = (
            Worded(name, EQUIPMENT_SECTIONS[name].label)
            for name in self.guide.sections
            if self._not_fitted(name) and not self._not_fitted(goes_without_saying(name))
        )
        onward = self.ways.onward(DATA_PAGE)
        return DataView(page_head("data"), tuple(sections), tuple(absent), onward)

    def index(self) -> IndexView:
        """Return the view of the search page."""
        # Values are left out: those of the identity are not known here.
        titled = sorted((drawn.title_alone, id_) for id_, drawn in self.drawn.items())
        links = (self._procedure_links[id_] for _, id_ in titled)
        return IndexView(page_head("search"), tuple(links), self.ways.onward(SEARCH_PAGE))

    def _not_fitted(self, section: str) -> bool:
        state = self.guide.sections.get(section)
        return state is not None and state.presence is Presence.NOT_FITTED

    def _facts(self, names: Iterable[str]) -> tuple[FactView, ...]:
        return tuple(self._fact(name) for name in names if name in self.guide.facts)

    def _fact(self, name: str) -> FactView:
        fact = self.guide.facts[name]
        source = source_token(name) if name in STAMPED else plain(source_words(fact))
        section = fact.field.section
        worded = Worded(section, HOLDER_LABELS[section]) if needs_section(name) else None
        return FactView(name, fact.field.label, self.texts.words[name], source, worded)

    def _script_words(self, leaf: Leaf) -> tuple[Worded, ...]:
        """Return what scripts show on the page *leaf*: the way back, and of its timers."""
        has_timer = any(self.drawn[each.id].has_timer for each in leaf.procedures)
        timer_words = _TIMER_WORDS if has_timer else ()
        return (*timer_words, *(_BACK_WORDS if self.ways.has_round else ()))


def pick_of(color: str, page: str = "") -> PickView:
    """Return the way to the lamps of *color* in the lamp finder; *page* is empty on it itself."""
    return PickView(Worded(color, LAMP_COLORS[color]), f"{page}#{color}", _MARKS[color])


_MARKS: Mapping[str, Markup] = {
    color: Markup(draw_svg(mark_of_color(color), {}))  # noqa: S704 -- it escapes all words itself
    for color in LAMP_COLORS
}
