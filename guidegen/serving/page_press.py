"""One page of one truck, drawn and proved by itself.

Takes in what is known of the fleet and what came of a truck; gives out the bytes of a page, with
what the proof found in it. Refuses to draw what nobody has asked for.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from guidegen.build.load_group import LoadedGroup
from guidegen.build.store import hash_of
from guidegen.differences.offer import KnownTruck, Offer
from guidegen.guide.model import Guide
from guidegen.proof.claims import DIFFERENCES_PATH
from guidegen.proof.compare_photos import compare_photo_files
from guidegen.proof.fleet_claims import FleetClaims, ids_of_library
from guidegen.proof.model import Failure
from guidegen.proof.prove_file import FileProving
from guidegen.proof.prove_page import Subject
from guidegen.revisions.model import UnitHistory
from guidegen.serving.fleet_look import FleetLook
from guidegen.serving.sources import Stated
from guidegen.site.draw import EditionDrawer
from guidegen.site.draw_differences import DifferencePages
from guidegen.site.frame import Frames
from guidegen.site.framing import Framer
from guidegen.site.lay_out_differences import sheet_page
from guidegen.site.lay_out_revisions import lay_out_revisions
from guidegen.site.photo_files import photo_files
from guidegen.site.stamp import stamp
from guidegen.site.templates import PageTemplates
from guidegen.training.write_quiz import write_quiz


@dataclass(frozen=True, slots=True)
class ProvedPage:
    """A file of a truck, and what the proof found in it."""

    raw: bytes
    failures: tuple[Failure, ...]


@dataclass(slots=True)
class PagePress:
    """What is kept from page to page, and from one saved file to the next."""

    look: FleetLook
    _made_of: str = ""
    _templates: PageTemplates = field(init=False)
    _drawer: EditionDrawer = field(init=False)
    _framer: Framer = field(init=False)

    def __post_init__(self) -> None:
        """Load the templates."""
        self.renew(self.look)

    def renew(self, look: FleetLook) -> None:
        """Go by *look* from now on; what was drawn is kept if it would be drawn alike."""
        parts = hash_of(
            *look.published.template_parts(),
            repr(look.published.fleet),
            repr(sorted(look.frames.items())),
        )
        self.look = look
        if parts != self._made_of:
            self._made_of = parts
            self._templates = look.published.page_templates()
            self._drawer = EditionDrawer(look.published.fleet, self._templates)
            self._framer = Framer(Frames.split(look.frames).of_units)

    def open(self, loaded: LoadedGroup, stated: Stated) -> "TruckPages | None":
        """Return the pages of the truck of *loaded*; none if it has no guide."""
        guide = loaded.guide
        if guide is None:
            return None
        published = self.look.published
        quiz = write_quiz(guide, published.quizzes.knowledge)
        tour = loaded.planned.tour if loaded.planned else None
        history = published.loaded.history
        told = history.of(guide.number) if history else None
        edition = self._framer.fill(self._drawer.draw(guide, tour, quiz))
        revisions = "" if told is None else self._revisions(told)
        claims = replace(
            self.look.claims.for_batch(
                rounds={} if tour is None else {guide.edition: tour},
                quizzes={guide.edition: quiz},
                history=history,
            ),
            # An identity that the truck had before is no other truck's.
            numbers=self.look.claims.numbers | {guide.number},
            offer=_offer_with(self.look.claims.offer, guide),
            ids=ids_of_library(stated.base.library.values()),
            shared_editions=frozenset(),
            contents={},
        )
        return TruckPages(
            guide,
            {**stamp(edition, guide, revisions, told), **dict(photo_files(guide))},
            claims,
            self,
            told,
        )

    def differences(self, truck: "TruckPages", offer: Offer) -> Iterator[tuple[str, bytes]]:
        """Yield picker and sheets of *truck* for the trucks of *offer*."""
        claims = truck.claims
        pages = DifferencePages(
            offer,
            claims.rounds,
            self.look.published.fleet,
            self._templates,
            Frames.split(self.look.frames).unit,
            with_quiz=claims.quizzes,
        )
        return pages.files_of(truck.guide, truck.told)

    def _revisions(self, told: UnitHistory) -> str:
        return self._templates.revisions.render(view=lay_out_revisions(told))


@dataclass(slots=True)
class TruckPages:
    """The pages of one truck as its files state it now."""

    guide: Guide
    files: dict[str, bytes]
    """Those that are drawn, by path from the root of the site."""

    claims: FleetClaims
    press: PagePress
    told: UnitHistory | None
    _proved: dict[str, ProvedPage] = field(default_factory=dict)

    def page(self, path: str) -> ProvedPage | None:
        """Return the file at *path* in the truck's folder, drawn and proved; none if it has none.

        Whether links lead to a place, and what holds between pages, is for the whole site.
        """
        if path not in self._proved:
            raw = self._drawn(path)
            if raw is None:
                return None
            self._proved[path] = ProvedPage(raw, self._failures(path, raw))
        return self._proved[path]

    def _failures(self, path: str, raw: bytes) -> tuple[Failure, ...]:
        subject = Subject(self.guide, self.claims.edition_of(self.guide), self.claims)
        photo = subject.claims.photos.get(path)
        if photo is not None:
            files = {subject.path(path): raw}
            return tuple(compare_photo_files(self.guide.number, {path: photo}, files))
        return FileProving(subject).prove(path, raw).failures

    def _drawn(self, path: str) -> bytes | None:
        whole = f"{self.guide.number}/{path}"
        if whole not in self.files:
            offer = self.claims.offer
            if path == DIFFERENCES_PATH:
                first = next(self.press.differences(self, offer))
                self.files[first[0]] = first[1]
            for truck in offer.trucks:
                if (
                    path == sheet_page(truck.guide.number)
                    and truck.guide.number != self.guide.number
                ):
                    # An offer of one draws one sheet.
                    only = Offer((truck,), stands_for_edition=offer.stands_for_edition)
                    self.files.update(self.press.differences(self, only))
                    self.files.pop(f"{self.guide.number}/{DIFFERENCES_PATH}", None)
        return self.files.get(whole)


def _offer_with(offer: Offer, guide: Guide) -> Offer:
    """Return *offer* with *guide* in the place of an older one of its truck."""
    return replace(
        offer,
        trucks=tuple(
            KnownTruck(guide, each.alike) if each.guide.number == guide.number else each
            for each in offer.trucks
        ),
    )
