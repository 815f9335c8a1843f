"""The pages that say what is other about a truck for a driver who knows another one.

Takes in guides, the trucks on offer, the page templates and the frame; gives out the pages of
one unit after another, as bytes. Refuses to draw a pair of editions twice while the units come
by edition: each pair is drawn once and stamped with the identities of both trucks.
"""

from collections.abc import Collection, Iterator, Mapping

from guidegen.differences.compare import compare_guides
from guidegen.differences.offer import Choice, Offer, choice_for
from guidegen.guide.model import STAMPED, Guide
from guidegen.procedures.words import LABELS
from guidegen.revisions.model import UnitHistory
from guidegen.site.frame import UNIT_FRAME, Frame
from guidegen.site.framing import UNIT_SLOTS, FramedFile, Framer
from guidegen.site.lay_out_differences import lay_out_picker, lay_out_sheet, sheet_page
from guidegen.site.model import FleetView
from guidegen.site.page_drawer import PageDrawer
from guidegen.site.stamp import identity_in_html, revision_in_html
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import EDITION_SLOT, KNOWN_PREFIX, REVISION_SLOT, known_token
from guidegen.site.ways import DIFFERENCES_PAGE, Ways

_PAIR_SLOTS = UNIT_SLOTS | {KNOWN_PREFIX + name for name in (*STAMPED, EDITION_SLOT)}


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
        self._drawer = PageDrawer(fleet, templates)
        self._framer = Framer({UNIT_FRAME: frame}, _PAIR_SLOTS)
        self._given: Guide | None = None
        self._ways: Ways | None = None
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
        ways = self._ways_of(given)
        choice = choice_for(given.number, self._offer)
        own = {
            **identity_in_html(given),
            REVISION_SLOT: revision_in_html(given, told),
            EDITION_SLOT: given.edition.encode(),
        }
        if choice.key not in self._pickers:
            self._pickers[choice.key] = self._draw_picker(ways, choice)
        yield f"{given.number}/{DIFFERENCES_PAGE}", self._pickers[choice.key].stamped(own)
        for truck in choice.others:
            known = truck.guide
            if known.edition not in self._sheets:
                self._sheets[known.edition] = self._draw_sheet(known, given, ways)
            page = self._sheets[known.edition].stamped({**_known_in_html(known), **own})
            yield f"{given.number}/{sheet_page(known.number)}", page

    def _ways_of(self, given: Guide) -> Ways:
        if self._ways is None or self._given is None or self._given.edition != given.edition:
            has_round, has_quiz = (
                given.edition in editions for editions in (self._with_round, self._with_quiz)
            )
            self._given = given
            self._ways = Ways(given, has_round=has_round, has_quiz=has_quiz)
            self._pickers, self._sheets = {}, {}
        return self._ways

    def _draw_picker(self, ways: Ways, choice: Choice) -> FramedFile:
        view = lay_out_picker(ways, choice, stands_for_edition=self._offer.stands_for_edition)
        head = (DIFFERENCES_PAGE, LABELS["differences"], UNIT_FRAME)
        template = self._drawer.templates.differences
        return self._framer.frame(self._drawer.page(ways, head, template, view))

    def _draw_sheet(self, known: Guide, given: Guide, ways: Ways) -> FramedFile:
        view = lay_out_sheet(known, given, compare_guides(known, given))
        heading = f"{LABELS['known_truck']} {known_token('identity.number')}"
        head = (DIFFERENCES_PAGE, heading, UNIT_FRAME)
        template = self._drawer.templates.sheet
        return self._framer.frame(self._drawer.page(ways, head, template, view))


def _known_in_html(known: Guide) -> Mapping[str, bytes]:
    identity = {KNOWN_PREFIX + slot: text for slot, text in identity_in_html(known).items()}
    return {**identity, KNOWN_PREFIX + EDITION_SLOT: known.edition.encode()}
