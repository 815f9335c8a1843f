"""From a guide to its edition.

Takes in a guide, its fleet and the page templates; gives out every page of the edition without
its frame, and the search index. Refuses nothing of its own: what cannot be drawn raises.
"""

from collections.abc import Sequence
from dataclasses import replace
from html import escape

from jinja2 import Template

from guidegen.decks.model import CardKind
from guidegen.guide.model import Guide
from guidegen.procedures.words import LABELS
from guidegen.round.model import Round
from guidegen.site.frame import SEARCH_FRAME
from guidegen.site.lamp_views import LampFinderView
from guidegen.site.lay_out import (
    DATA_PAGE,
    LAMPS_PAGE,
    QUIZ_PAGE,
    ROUND_PAGE,
    SEARCH_PAGE,
    START_PAGE,
    Layout,
    chapter_page,
    lamp_colors,
)
from guidegen.site.lay_out_lamps import lay_out_lamps
from guidegen.site.lay_out_quiz import lay_out_quiz
from guidegen.site.lay_out_round import lay_out_round
from guidegen.site.model import Edition, FleetView, PageText
from guidegen.site.quiz_views import QuizView
from guidegen.site.round_views import RoundView
from guidegen.site.search_index import search_index
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import plain, value_token
from guidegen.site.views import ChapterView, DataView, IndexView, NavView, StartView
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
    """Return the edition of *guide*, in which number, VIN, plate and yard are tokens.

    Every guide with the same fingerprint gives the same edition.

    Args:
        guide: The guide of any of its units.
        tour: Its inspection round; without one there is no page of it and no link to one.
        fleet: What the site says of the fleet.
        templates: The page templates.
        quiz: Its quiz; without one there is no page of it and no link to one.
        cards: Its printed cards, to which the start page leads.
    """
    layout = Layout(guide, has_round=tour is not None, has_quiz=quiz is not None)
    drawing = _Drawing(layout, plain(fleet.name), templates)
    chapters = [view for chapter in guide.chapters for view in layout.chapter(chapter)]
    pages = [drawing.page(START_PAGE, "", templates.start, drawing.layout.start(cards))]
    if tour is not None:
        view = lay_out_round(layout, tour)
        pages.append(drawing.page(ROUND_PAGE, LABELS["round"], templates.round, view))
    if lamp_colors(guide):
        finder = lay_out_lamps(layout)
        pages.append(drawing.page(LAMPS_PAGE, LABELS["lamp_finder"], templates.lamps, finder))
    pages += [
        drawing.page(chapter_page(view.head.page), view.chapter.words, templates.chapter, view)
        for view in chapters
    ]
    index = drawing.page(SEARCH_PAGE, LABELS["search"], templates.search, layout.index())
    pages.append(replace(index, frame=SEARCH_FRAME))
    pages.append(drawing.page(DATA_PAGE, LABELS["data"], templates.data, drawing.layout.data()))
    if quiz is not None:
        asked = lay_out_quiz(layout, quiz)
        pages.append(drawing.page(QUIZ_PAGE, LABELS["quiz"], templates.quiz, asked))
    return Edition(guide.edition, tuple(pages), search_index(_start_title(guide), chapters))


class _Drawing:
    """What all pages of one edition share while they are drawn."""

    def __init__(self, layout: Layout, fleet_name: str, templates: PageTemplates) -> None:
        self.layout = layout
        self.fleet_name = fleet_name
        self.templates = templates

    def page(self, path: str, heading: str, template: Template, view: View) -> PageText:
        title = (value_token("identity.number"), heading, self.fleet_name)
        return PageText(
            path=path,
            title=escape(" · ".join(part for part in title if part), quote=False),
            nav=self.templates.nav.render(view=NavView(self.layout.nav(path))),
            tools=self.templates.tools.render(view=NavView(self.layout.tools(path))),
            body=template.render(view=view),
        )


def _start_title(guide: Guide) -> str:
    """Number, make and model, as far as they are on record."""
    named = ("identity.make", "identity.model_name")
    words = [plain(str(guide.facts[name].value)) for name in named if name in guide.facts]
    return " ".join([value_token("identity.number"), *words])
