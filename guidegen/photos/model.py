"""A photo of a thing at one truck, or at all trucks of a model.

Takes in nothing; gives out photos as frozen values, and which of them are of a truck.
Refuses to mix: where a truck has a photo of its own, that of its model is not shown.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from guidegen.source import Span

PHOTOS_FOLDER = "photos"
"""Folder of a unit's pages in which its photos stand."""

_ID_DIGITS = 12
"""Of the SHA-256: as many as of an edition's fingerprint."""


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo, ready to be shown."""

    procedure: str
    """Id of the procedure that it belongs to."""

    step: str
    """Id of the step in it, without the procedure's; empty if it is of the procedure as a whole."""

    alt: str
    """What is on it, in words, for those who do not see it."""

    caption: str
    """Printed below it; empty if nothing is."""

    width: int
    """In pixels, upright."""

    height: int
    sha256: str
    """Of `raw`."""

    span: Span
    """Of the file's name in the list of photos."""

    raw: bytes = field(default=b"", compare=False, repr=False)
    """A JPEG without metadata; its hash stands for it. Empty where only the record tells of it."""

    @property
    def id(self) -> str:
        """Unique in a guide: ``washer-fluid.photos.0f3a…``."""
        return f"{self.procedure}.photos.{self.sha256[:_ID_DIGITS]}"

    @property
    def path(self) -> str:
        """Of the file, from the unit's own folder: another picture never has the same."""
        return f"{PHOTOS_FOLDER}/{self.procedure}-{self.sha256[:_ID_DIGITS]}.jpg"

    @property
    def step_id(self) -> str:
        """Id of the step as the guide has it; empty if it is of the procedure as a whole."""
        return f"{self.procedure}.steps.{self.step}" if self.step else ""

    @property
    def says(self) -> tuple[str | int, ...]:
        """All that a reader has of it, without the place where it is stated."""
        size = self.width, self.height
        return (self.procedure, self.step, self.alt, self.caption, *size, self.sha256)

    def without_picture(self) -> "Photo":
        """Return it without its bytes."""
        return replace(self, raw=b"")


@dataclass(frozen=True, slots=True)
class FleetPhotos:
    """All photos of a fleet."""

    of_units: Mapping[str, tuple[Photo, ...]] = field(default_factory=lambda: MappingProxyType({}))
    """Those of single trucks, by number, in the order of the list."""

    of_models: Mapping[str, tuple[Photo, ...]] = field(default_factory=lambda: MappingProxyType({}))
    """Those of all trucks of a model, by its id."""

    def own(self, number: str) -> tuple[Photo, ...]:
        """Return those that are of the unit *number* itself."""
        return self.of_units.get(number, ())

    def inherited(self, number: str, model: str) -> Iterator[Photo]:
        """Yield those that the unit *number* has from its model."""
        own = {(photo.procedure, photo.step) for photo in self.own(number)}
        for photo in self.of_models.get(model, ()):
            if (photo.procedure, photo.step) not in own:
                yield photo

    def parts(self, number: str, model: str) -> Iterator[str]:
        """Yield all that the photos of a unit say, for a hash of what its pages are made of."""
        for photo in (*self.own(number), *self.inherited(number, model)):
            yield repr(photo.says)


NO_PHOTOS = FleetPhotos()
