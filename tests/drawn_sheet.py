"""A difference sheet as it is drawn, in the frame of the hand-made site, for the proof to read."""

from dataclasses import dataclass
from pathlib import Path

from hand_made_site import FOLDER
from jinja2 import FileSystemLoader
from sample_fleet import FLEET

from guidegen.differences.offer import KnownTruck, Offer
from guidegen.guide.model import Guide
from guidegen.proof.fleet_claims import claims_of_fleet
from guidegen.proof.model import FileVerdict
from guidegen.proof.prove_differences import prove_picker, prove_sheet
from guidegen.proof.prove_page import Subject
from guidegen.site.draw_differences import DifferencePages
from guidegen.site.frame import Frame, split_frame
from guidegen.site.templates import PageTemplates

ROOT = Path(__file__).resolve().parent.parent
TEMPLATES = PageTemplates.load(FileSystemLoader(ROOT / "site_templates" / "pages"))
_ASSETS = {"assets/site.css": b"", "assets/site.js": b"", "index.html": b""}


def hand_made_frame() -> Frame:
    """Return the frame of the hand-made site, with the slots that pages are filled into."""
    text = (FOLDER / "frame.html").read_text(encoding="utf-8")
    for slot in ("title", "number", "revision", "tools", "nav", "body"):
        text = text.replace(f"@{slot}@", f"@@guidegen-slot-{slot}@@")
    return split_frame("unit", text)


@dataclass(frozen=True)
class DrawnSheet:
    """The difference pages of one truck, for drivers who know one other."""

    known: Guide
    given: Guide

    @property
    def offer(self) -> Offer:
        return Offer((KnownTruck(self.known),))

    @property
    def files(self) -> dict[str, bytes]:
        """Sheet and picker by path."""
        pages = DifferencePages(self.offer, (), FLEET, TEMPLATES, hand_made_frame())
        return dict(pages.files_of(self.given))

    @property
    def sheet(self) -> bytes:
        return self.files[f"{self.given.number}/from-{self.known.number}.html"]

    def prove(self, sheet: bytes | None = None) -> FileVerdict:
        """Return what the proof finds in the sheet, or in another in its place."""
        return prove_sheet(self._subject(), self.known, self.sheet if sheet is None else sheet)[0]

    def prove_picker(self) -> FileVerdict:
        """Return what the proof finds in the page on which the driver picks the known truck."""
        return prove_picker(self._subject(), self.files[f"{self.given.number}/differences.html"])

    def _subject(self) -> Subject:
        fleet = claims_of_fleet(
            (self.known, self.given), _ASSETS.get, [*_ASSETS, *self.files], offer=self.offer
        )
        return Subject(self.given, fleet.edition_of(self.given), fleet)
