"""The pages that say what is other about a truck for a driver who knows another one.

Takes in guides, the trucks on offer, the page templates and the frame; gives out the pages of
one unit after another, as bytes. Refuses to draw a pair of editions twice while the units come
by edition: each pair is drawn once and stamped with the identities of both trucks.
"""

from collections.abc import Collection, Iterator, Mapping
from html import escape

from guidegen.differences.compare import compare_guides
from guidegen.differences.offer import Choice, Offer, choice_for
from guidegen.guide.model import STAMPED, Guide
from guidegen.procedures.words import LABELS
from guidegen.revisions.model import UnitHistory
from guidegen.site.frame import Frame
from guidegen.site.lay_out import DIFFERENCES_PAGE, Layout
from guidegen.site.lay_out_differences import lay_out_picker, lay_out_sheet, sheet_page
from guidegen.site.model import FleetView, PageText
from guidegen.site.stamp import (
    UNIT_SLOTS,
    FramedFile,
    fill_frame,
    identity_in_html,
    revision_in_html,
)
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import KNOWN_PREFIX, REVISION_SLOT, known_token, plain, value_token
from guidegen.site.views import NavView

_PAIR_SLOTS = UNIT_SLOTS | {KNOWN_PREFIX + name for name in STAMPED}


class DifferencePages:
    """The difference pages of a fleet; give it the units by edition."""

    def __init__(  # noqa: PLR0913, PLR0917 -- what all pages share is this much
        self,
        offer: Offer,
        with_round: Collection[str],
        fleet: FleetView,
        templates: PageTemplates,
        frame: Frame,
        with_quiz: Collection[str] = (),
    ) -> None:
        """Keep what all pages share.

        Args:
            offer: The trucks that drivers may pick as known.
            with_round: Editions that have an inspection round, to which the navigation leads.
            fleet: What the site says of the fleet.
            templates: The page templates.
            frame: The frame of a unit's pages.
            with_quiz: Editions that have a quiz; likewise.
        """
        self._offer = offer
        self._with_round = with_round
        self._with_quiz = with_quiz
        self._fleet_name = plain(fleet.name)
        self._templates = templates
        self._frame = frame
        self._layout: Layout | None = None
        self._pickers: dict[tuple[object, ...], FramedFile] = {}
        self._sheets: dict[str, FramedFile] = {}

    def files_of(
        self, given: Guide, told: UnitHistory | None = None
    ) -> Iterator[tuple[str, bytes]]:
        """Yield the difference pages of the unit of *given* by path, relative to the site.

        Args:
            given: The unit's guide.
            told: What was released of the unit; none where no record is kept.
        """
        layout = self._layout_of(given)
        choice = choice_for(given.number, self._offer)
        own = {**identity_in_html(given), REVISION_SLOT: revision_in_html(given, told)}
        if choice.key not in self._pickers:
            self._pickers[choice.key] = self._draw_picker(layout, choice)
        yield f"{given.number}/{DIFFERENCES_PAGE}", self._pickers[choice.key].stamped(own)
        for truck in choice.others:
            known = truck.guide
            if known.edition not in self._sheets:
                self._sheets[known.edition] = self._draw_sheet(known, layout)
            page = self._sheets[known.edition].stamped({**_known_in_html(known), **own})
            yield f"{given.number}/{sheet_page(known.number)}", page

    def _layout_of(self, given: Guide) -> Layout:
        layout = self._layout
        if layout is None or layout.guide.edition != given.edition:
            has_round, has_quiz = (
                given.edition in editions for editions in (self._with_round, self._with_quiz)
            )
            layout = self._layout = Layout(given, has_round=has_round, has_quiz=has_quiz)
            self._pickers, self._sheets = {}, {}
        return layout

    def _draw_picker(self, layout: Layout, choice: Choice) -> FramedFile:
        view = lay_out_picker(layout, choice, stands_for_edition=self._offer.stands_for_edition)
        body = self._templates.differences.render(view=view)
        return self._framed(layout, LABELS["differences"], body)

    def _draw_sheet(self, known: Guide, layout: Layout) -> FramedFile:
        sheet = compare_guides(known, layout.guide)
        view = lay_out_sheet(known, layout.guide, sheet)
        heading = f"{LABELS['known_truck']} {known_token('identity.number')}"
        return self._framed(layout, heading, self._templates.sheet.render(view=view))

    def _framed(self, layout: Layout, heading: str, body: str) -> FramedFile:
        title = (value_token("identity.number"), heading, self._fleet_name)
        page = PageText(
            path=DIFFERENCES_PAGE,
            title=escape(" · ".join(title), quote=False),
            nav=self._templates.nav.render(view=NavView(layout.nav(DIFFERENCES_PAGE))),
            tools=self._templates.tools.render(view=NavView(layout.tools(DIFFERENCES_PAGE))),
            body=body,
        )
        return fill_frame(page, self._frame, _PAIR_SLOTS)


def _known_in_html(known: Guide) -> Mapping[str, bytes]:
    return {KNOWN_PREFIX + slot: text for slot, text in identity_in_html(known).items()}
