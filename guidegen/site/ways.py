"""The ways around a truck's pages.

Takes in a guide; gives out the addresses of its pages and the links between them.
Refuses a link to a page that the truck does not have.
"""

from collections.abc import Iterable, Sequence

from guidegen.guide.leaves import Leaf
from guidegen.guide.model import Guide
from guidegen.procedures.words import CHAPTERS, LABELS, LAMP_COLORS
from guidegen.site.tokens import edition_token, value_token
from guidegen.site.views import Link, PageHead

START_PAGE = "index.html"
DATA_PAGE = "data.html"
ROUND_PAGE = "round.html"
LAMPS_PAGE = "lamp-finder.html"
QUIZ_PAGE = "quiz.html"
DIFFERENCES_PAGE = "differences.html"
SEARCH_PAGE = "search.html"
FLEET_PAGE = "../index.html"

_CHAPTER_LIST = Link("#chapters", "data-label", "chapters", LABELS["chapters"])
_TOOLS = (
    ("search", SEARCH_PAGE),
    ("to_round", ROUND_PAGE),
    ("to_lamps", LAMPS_PAGE),
)
"""What the bar leads to, in its order, as far as the truck has it."""


def chapter_page(leaf: str) -> str:
    """Return the path of the page of a chapter's leaf with the id *leaf*."""
    return f"{leaf}.html"


def leaf_words(leaf: Leaf) -> str:
    """Return what a page of a chapter is called."""
    words = CHAPTERS[leaf.chapter]
    return words if leaf.number == 1 else f"{words}, {leaf.number} {LABELS['of']} {leaf.count}"


def leaf_link(leaf: Leaf) -> Link:
    """Return the link to a page of a chapter."""
    return Link(chapter_page(leaf.id), "data-chapter", leaf.id, leaf_words(leaf))


def page_head(page: str) -> PageHead:
    """Return what the container of the page named *page* carries; of any truck."""
    return PageHead(value_token("identity.number"), edition_token(), page)


def lamp_colors(guide: Guide) -> Sequence[str]:
    """Return the colors of the lamps that the truck has, gravest first."""
    fitted = {
        procedure.lamp.color
        for chapter in guide.chapters
        for procedure in chapter.procedures
        if procedure.lamp is not None
    }
    return [color for color in LAMP_COLORS if color in fitted]


class Ways:
    """The links of one guide."""

    def __init__(self, guide: Guide, *, has_round: bool, has_quiz: bool = False) -> None:
        self.has_round = has_round
        self.colors = tuple(lamp_colors(guide))
        self.links = tuple(self._links(guide, has_quiz=has_quiz))
        self._places = {link.href: place for place, link in enumerate(self.links)}

    def link_to(self, page: str) -> Link | None:
        """Return the link to *page*, or nothing if the truck does not have it."""
        place = self._places.get(page)
        return None if place is None else self.links[place]

    def nav(self, current: str) -> tuple[Link, ...]:
        """Return the links of the unit's navigation on the page *current*."""
        return tuple(
            Link(link.href, link.mark, link.key, link.words, is_current=link.href == current)
            for link in self.links
        )

    def tools(self, current: str) -> tuple[Link, ...]:
        """Return the links of the bar on the page *current*."""
        return (
            _CHAPTER_LIST,
            *(
                Link(href, "data-label", key, LABELS[key], is_current=href == current)
                for key, href in _TOOLS
                if href in self._places
            ),
        )

    def onward(self, current: str) -> tuple[Link, ...]:
        """Return the links to the page after *current*, and to the start page."""
        following = self.links[self._places[current] + 1 :][:1]
        return (*following, self.links[self._places[START_PAGE]])

    def _links(self, guide: Guide, *, has_quiz: bool) -> Iterable[Link]:
        yield Link(START_PAGE, "data-label", "start", LABELS["start"])
        if self.has_round:
            yield Link(ROUND_PAGE, "data-label", "round", LABELS["round"])
        if self.colors:
            yield Link(LAMPS_PAGE, "data-label", "lamp_finder", LABELS["lamp_finder"])
        for chapter in guide.chapters:
            yield Link(chapter_page(chapter.id), "data-chapter", chapter.id, CHAPTERS[chapter.id])
        yield Link(SEARCH_PAGE, "data-label", "search", LABELS["search"])
        yield Link(DATA_PAGE, "data-label", "data", LABELS["data"])
        if has_quiz:
            yield Link(QUIZ_PAGE, "data-label", "quiz", LABELS["quiz"])
        yield Link(DIFFERENCES_PAGE, "data-label", "differences", LABELS["differences"])
        yield Link(FLEET_PAGE, "data-label", "all_trucks", LABELS["all_trucks"])
