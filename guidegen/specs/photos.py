"""What the office says of the photos that it takes.

Takes in the fields of a photo as typed; gives out the stated photo.
Refuses a photo without a text for those who do not see it, and a file in another folder.
"""

from typing import Annotated

from guidegen.specs.fields import Stated, TextField
from guidegen.specs.section import Section
from guidegen.specs.unit_list import UnitList

_FILE = r'[^/\\:*?"<>|\x00-\x1f]+\.[A-Za-z0-9]+'
_FILE_SAYS = "the name of a picture in this folder, such as washer-tank.jpg"
_ID = r"[a-z0-9]+(-[a-z0-9]+)*"
_ID_SAYS = "small letters, digits and hyphens"


class PhotoSection(Section):
    """A photo: the file, the trucks that it is of, where it is shown, and what is on it."""

    file: Annotated[Stated, TextField("File", _FILE, _FILE_SAYS)]
    """Name of the picture, which lies beside this list: JPEG, PNG or WebP."""

    units: UnitList | None = None
    """Numbers of the trucks that look like this. Either these or a model."""

    model: Annotated[Stated | None, TextField("Model", _ID, _ID_SAYS)] = None
    """Id of the model whose trucks all look like this."""

    procedure: Annotated[Stated, TextField("Procedure", _ID, _ID_SAYS)]
    """Id of the procedure that it is shown with, as `guidegen explain` and the addresses of pages
    have it."""

    step: Annotated[Stated | None, TextField("Step", _ID, _ID_SAYS)] = None
    """Id of the step that it is shown at; without one it stands before the steps."""

    alt: Annotated[Stated, TextField("Text alternative")]
    """What is on it, for a driver who does not see it: where the thing is, and what it looks
    like."""

    caption: Annotated[Stated | None, TextField("Caption")] = None
    """What is printed below it, if anything must be."""


class PhotosFile(Section):
    """The photos of a fleet: lies in `specs/photos`, beside the pictures."""

    photos: tuple[PhotoSection, ...] = ()
    """Each picture with its trucks, its place in the guide and its text."""
