"""From editions to the finished and proved folders of their units.

Takes in what all units of a site share and a batch of editions; gives out the files of each unit,
written and read back, with what the proof found in them. Refuses to let one unit stop the others:
what breaks is told and held back.
"""

import gc
import shutil
import traceback
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from guidegen.build.card_proof import CardProof
from guidegen.build.folder_state import folder_state
from guidegen.build.manifest import joined_lines, lines_of
from guidegen.build.off_card import off_card
from guidegen.build.print_shop import PrintedCard
from guidegen.build.published import Published
from guidegen.build.unit_made import UnitBroken, UnitMade
from guidegen.collector import paused
from guidegen.decks.model import Card, CardKind
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper_proof.model import PaperCounts, PaperVerdict
from guidegen.proof.claims import card_path
from guidegen.proof.fleet_claims import FleetClaims
from guidegen.proof.prove import prove_unit
from guidegen.proof.unit_record import record_of
from guidegen.revisions.model import UnitHistory
from guidegen.site.draw import EditionDrawer
from guidegen.site.draw_differences import DifferencePages
from guidegen.site.frame import Frames
from guidegen.site.framing import FramedEdition, Framer
from guidegen.site.lay_out import card_file
from guidegen.site.lay_out_revisions import lay_out_revisions
from guidegen.site.pack import PACK_FILE, PackedFile, packed_hashes, unit_pack
from guidegen.site.photo_files import photo_files
from guidegen.site.revision import revision_words
from guidegen.site.stamp import stamp
from guidegen.site.templates import PageTemplates
from guidegen.site.truck_line import truck_line

NOTHING_PRINTED = PaperVerdict(PaperCounts(), (), ())
_TRACED = -3
"""Calls of a trace that are told: the last ones."""


@dataclass(frozen=True, slots=True, eq=False)
class SitePlan:
    """What all units of a site share; can be sent to other processes."""

    published: Published
    frames: Mapping[str, str]
    shared: Sequence[PackedFile]
    """What pages of all units load."""

    claims: FleetClaims
    """What the proof needs to know of the site."""

    folder: Path
    """In which the units' folders are made."""


Batch = tuple[str, ...]
"""Numbers of units, those of one edition next to one another."""

Result = tuple[UnitMade | UnitBroken, ...]


def make_units(plan: SitePlan, batch: Batch) -> Result:
    """Return what came of each unit of *batch*; its files are then in the folder of *plan*."""
    with paused():
        return tuple(_made(plan, number) for number in batch)


def _made(plan: SitePlan, number: str) -> UnitMade | UnitBroken:
    try:
        return _press_of(plan).make(plan.published.loaded.guides[number])
    except Exception:  # noqa: BLE001 -- a fault of the program in one unit must not stop the others
        return UnitBroken(number, traceback.format_exc(limit=_TRACED))


@lru_cache(maxsize=1)
def _press_of(plan: SitePlan) -> "_Press":
    press = _Press(plan)
    gc.freeze()
    return press


class _Press:
    """What one process keeps from unit to unit."""

    def __init__(self, plan: SitePlan) -> None:
        published = plan.published
        frames = Frames.split(plan.frames)
        self.folder = plan.folder
        self.loaded, self.quizzes = published.loaded, published.quizzes
        self.shop = published.open_shop()
        self.claims = replace(
            plan.claims,
            rounds=self.loaded.rounds,
            quizzes=self.quizzes,
            history=self.loaded.history,
        )
        self.shared = plan.shared
        self.templates = published.page_templates()
        self.differences = DifferencePages(
            self.loaded.offer,
            self.loaded.rounds,
            published.fleet,
            self.templates,
            frames.unit,
            with_quiz=self.quizzes,
        )
        self.drawer = EditionDrawer(published.fleet, self.templates)
        self.framer = Framer(frames.of_units)
        self.card_proof = CardProof()
        self.framed: FramedEdition | None = None
        self.framed_cards: tuple[CardKind, ...] = ()

    def make(self, guide: Guide) -> UnitMade:
        """Draw, write, read back and prove the folder of one unit."""
        number, findings = guide.number, Findings()
        shop = self.shop
        printed = tuple(shop.cards(number, shop.kinds, findings)) if shop else ()
        files = self.files_of(guide, printed)
        folder = self.folder / number
        _write(folder, files)
        read = {f"{number}/{name}": _bytes_of(f"{folder}/{name}") for name in files}
        dealt = shop.dealt(guide) if shop else ()
        kinds = tuple(each.card.kind for each in printed)
        claims = replace(self.claims, cards={number: kinds}) if shop else self.claims
        verdict = prove_unit(guide, read, claims)
        # A pack that is proved states the hashes of the files as they were read back.
        is_packed = verdict.is_proved and claims.shell is not None
        known = packed_hashes(read[f"{number}/{PACK_FILE}"]) if is_packed else {}
        return UnitMade(
            number,
            truck_line(guide),
            record_of(guide),
            verdict,
            self.prove_cards(guide, [each.card for each in printed], read),
            tuple(card.kind for card in dealt if card.kind not in kinds),
            tuple(findings),
            joined_lines(lines_of(read, known)),
            folder_state(folder),
            self.quizzes.asked_by(guide.edition) | {""},
            self.quizzes.digest_of(guide.edition),
            tuple(off for each in printed for off in off_card(each.card)),
        )

    def files_of(self, guide: Guide, printed: Sequence[PrintedCard]) -> Mapping[str, bytes]:
        """Return the files of the folder of the unit of *guide*, by path in it."""
        history = self.loaded.history
        told = history.of(guide.number) if history else None
        framed = self.framed_for(guide, tuple(each.card.kind for each in printed))
        pages = {
            **stamp(framed, guide, _revisions_of(told, self.templates), told),
            **dict(self.differences.files_of(guide, told)),
            **dict(photo_files(guide)),
        }
        pack = unit_pack(guide.number, revision_words(guide, told), pages, self.shared)
        start = len(guide.number) + 1
        return {
            **{path[start:]: raw for path, raw in pages.items()},
            **{card_file(each.card.kind): each.pdf for each in printed},
            PACK_FILE: pack,
        }

    def framed_for(self, guide: Guide, cards: tuple[CardKind, ...]) -> FramedEdition:
        """Return the edition of *guide* in its frames; drawn once while its units come together."""
        framed = self.framed
        if framed is None or framed.id != guide.edition or self.framed_cards != cards:
            tour = self.loaded.rounds.get(guide.edition)
            quiz = self.quizzes.get(guide.edition)
            framed = self.framed = self.framer.fill(self.drawer.draw(guide, tour, quiz, cards))
            self.framed_cards = cards
        return framed

    def prove_cards(
        self, guide: Guide, cards: Iterable[Card], read: Mapping[str, bytes]
    ) -> PaperVerdict:
        """Return what the proof finds of *cards* of the unit, each read back from its PDF."""
        shop = self.shop
        if shop is None:
            return NOTHING_PRINTED
        files = ((card, read.get(f"{guide.number}/{card_path(card.kind.id)}")) for card in cards)
        found = ((card, pdf) for card, pdf in files if pdf is not None)
        return self.card_proof.prove(found, guide, shop.issue(guide), shop.logo)


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write *files* into *folder*, by path in it."""
    if folder.exists():  # from a process that ended before it could tell of it
        shutil.rmtree(folder)
    for below in {name.rpartition("/")[0] for name in files}:
        (folder / below).mkdir(parents=True, exist_ok=True)
    for name, raw in files.items():
        with open(f"{folder}/{name}", "wb") as file:  # noqa: PTH123 -- see `_bytes_of`
            file.write(raw)


def _bytes_of(path: str) -> bytes:
    # Files are many, and a path as an object costs as much as to read one.
    with open(path, "rb") as file:  # noqa: PTH123 -- see above
        return file.read()


def _revisions_of(told: UnitHistory | None, templates: PageTemplates) -> str:
    """Return the section of the revisions *told* as HTML; empty where no record is kept."""
    return "" if told is None else templates.revisions.render(view=lay_out_revisions(told))
