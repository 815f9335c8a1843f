"""From guides to their editions.

Takes in guides, their fleet and the page templates; gives out every page of each edition without
its frame, and its search index. Refuses to draw anything twice that reads the same: a procedure's
section, a stop, a section of the data page and a whole page are drawn once for all editions.
"""

from collections.abc import Hashable, Iterator, Sequence

from jinja2 import Template
from markupsafe import Markup

from guidegen.decks.model import CardKind
from guidegen.guide.model import Guide
from guidegen.procedures.words import LABELS
from guidegen.round.draw_svg import round_svg
from guidegen.round.model import Round
from guidegen.site.draw_procedures import ProcedureDrawer
from guidegen.site.frame import SEARCH_FRAME, UNIT_FRAME
from guidegen.site.lamp_views import LampFinderView
from guidegen.site.lay_out import Layout
from guidegen.site.lay_out_lamps import lay_out_lamps
from guidegen.site.lay_out_quiz import lay_out_quiz
from guidegen.site.lay_out_round import lay_out_round, lay_out_stops
from guidegen.site.model import Edition, FleetView, PageText
from guidegen.site.page_drawer import PageDrawer
from guidegen.site.quiz_views import QuizView
from guidegen.site.round_views import RoundView
from guidegen.site.search_index import entry_at, page_entry, search_index
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import value_token
from guidegen.site.views import ChapterView, DataView, IndexView, StartView
from guidegen.site.ways import (
    DATA_PAGE,
    LAMPS_PAGE,
    QUIZ_PAGE,
    ROUND_PAGE,
    SEARCH_PAGE,
    START_PAGE,
    Ways,
    chapter_page,
    leaf_words,
)
from guidegen.training.model import Quiz

View = StartView | ChapterView | DataView | IndexView | RoundView | LampFinderView | QuizView


def draw_edition(  # noqa: PLR0913, PLR0917 -- what goes with a guide is this much
    guide: Guide,
    tour: Round | None,
    fleet: FleetView,
    templates: PageTemplates,
    quiz: Quiz | None = None,
    cards: Sequence[CardKind] = (),
) -> Edition:
    """Return the edition of *guide* alone; see `EditionDrawer.draw`."""
    return EditionDrawer(fleet, templates).draw(guide, tour, quiz, cards)


class EditionDrawer:
    """Draws the editions of a fleet one after another, and keeps what they may share."""

    def __init__(self, fleet: FleetView, templates: PageTemplates) -> None:
        """Keep what all editions share.

        Args:
            fleet: What the site says of the fleet.
            templates: The page templates.
        """
        self._templates = templates
        self._drawer = PageDrawer(fleet, templates)
        self._procedures = ProcedureDrawer(templates)

    def draw(
        self,
        guide: Guide,
        tour: Round | None = None,
        quiz: Quiz | None = None,
        cards: Sequence[CardKind] = (),
    ) -> Edition:
        """Return the edition of *guide*, in which number, VIN, plate and yard are tokens.

        Every guide with the same fingerprint gives the same edition. Pages that are equal in two
        editions are the very same value as long as they are kept.

        Args:
            guide: The guide of any of its units.
            tour: Its inspection round; without one there is no page of it and no link to one.
            quiz: Its quiz; without one there is no page of it and no link to one.
            cards: Its printed cards, to which the start page leads.

        Raises:
            ReservedCharacter: If a text or a value holds a character that tokens are made of.
        """
        ways = Ways(guide, has_round=tour is not None, has_quiz=quiz is not None)
        layout = Layout(guide, ways, self._procedures)
        drawn = self._templates

        def page(
            path: str, heading: str, template: Template, view: View, frame: str = UNIT_FRAME
        ) -> PageText:
            return self._drawer.page(ways, (path, heading, frame), template, view)

        pages = [page(START_PAGE, "", drawn.start, layout.start(cards))]
        if tour is not None:
            stops = [self._part(drawn.stop, view) for view in lay_out_stops(layout, tour)]
            plan = self._drawer.part(tour, lambda: round_svg(tour))
            toured = lay_out_round(layout, tour, plan, stops)
            pages.append(page(ROUND_PAGE, LABELS["round"], drawn.round, toured))
        if ways.colors:
            finder = lay_out_lamps(layout)
            pages.append(page(LAMPS_PAGE, LABELS["lamp_finder"], drawn.lamps, finder))
        pages += [
            page(chapter_page(view.head.page), view.chapter.words, drawn.chapter, view)
            for chapter in guide.chapters
            for view in layout.chapter(chapter)
        ]
        found = layout.index()
        pages.append(page(SEARCH_PAGE, LABELS["search"], drawn.search, found, SEARCH_FRAME))
        sections = [self._part(drawn.data_section, view) for view in layout.data_sections()]
        pages.append(page(DATA_PAGE, LABELS["data"], drawn.data, layout.data(sections)))
        if quiz is not None:
            asked = lay_out_quiz(layout, quiz)
            pages.append(page(QUIZ_PAGE, LABELS["quiz"], drawn.quiz, asked))
        return Edition(guide.edition, tuple(pages), search_index(_entries(layout)))

    def _part(self, template: Template, view: Hashable) -> Markup:
        return self._drawer.part(view, lambda: template.render(view=view))


def _entries(layout: Layout) -> Iterator[str]:
    """Yield what the search of a truck finds: the start page, then page by page."""
    named = ("identity.make", "identity.model_name")
    words = [layout.texts.words[name] for name in named if name in layout.texts.words]
    yield page_entry(START_PAGE, " ".join([value_token("identity.number"), *words]))
    for chapter in layout.guide.chapters:
        for leaf in layout.leaves[chapter.id]:
            page = chapter_page(leaf.id)
            yield page_entry(page, leaf_words(leaf))
            for procedure in leaf.procedures:
                yield entry_at(f"{page}#{procedure.id}", layout.drawn[procedure.id].found_by)
