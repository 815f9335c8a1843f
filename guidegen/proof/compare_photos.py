"""Whether the pictures that the office took are there, and are what they must be.

Takes in the pictures read of a page, or the files beside the pages, and the photos of the guide;
records each that is missing, another, hidden, at another step, or silent for those who do not see
it. Refuses a file of which one byte is not that of the photo, and one that holds more than its
picture: where and when it was taken is nobody's business.
"""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.finding import Rule
from guidegen.photos.model import Photo
from guidegen.proof import rules
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Holder
from guidegen.proof.model import Drawn, Failure, PictureRead
from guidegen.proof.read_jpeg import NotReadable, read_jpeg

_SEE_TEMPLATE = "repair the page template that shows photos"
_SEE_STYLE = "take what hides it out of the stylesheet or page template, or narrow its selector"
_BUILD = "build the site anew; if it comes back, guidegen writes the wrong files"


@dataclass(frozen=True, slots=True)
class Photos:
    """The pictures of one page held against those that must be there."""

    wanted: Sequence[Photo]
    """In the order of the page."""

    faults: Faults

    def compare(self, pictures: Sequence[PictureRead]) -> None:
        """Hold every picture against its photo, and look for those that are not there."""
        by_id = {photo.id: photo for photo in self.wanted}
        seen: list[str] = []
        for picture in pictures:
            photo = by_id.get(picture.within.photo)
            if photo is None or photo.id in seen:
                what = "there is a picture where the guide has none"
                self._add(rules.PICTURE_DIFFERS, what, picture.within.photo)
                continue
            seen.append(photo.id)
            for rule, what, fix in _faults_of(picture, photo):
                self._add(rule, what, photo.id, fix)
        for photo in self.wanted:
            if photo.id not in seen:
                self._add(rules.PICTURE_MISSING, "there is no picture", photo.id)
        order = [photo.id for photo in self.wanted if photo.id in seen]
        if order != seen:
            self._add(rules.PICTURE_DIFFERS, "the pictures stand in another order", seen[0])

    def _add(self, rule: Rule, what: str, id_: str, fix: str = _SEE_TEMPLATE) -> None:
        span = next((photo.span for photo in self.wanted if photo.id == id_), None)
        self.faults.add(rule, what, fix=fix, span=span, mark=f'{Holder.PHOTO.value}="{id_}"')


def compare_photo_files(
    number: str, photos: Mapping[str, Photo], files: Mapping[str, bytes]
) -> Iterator[Failure]:
    """Yield a failure for each file of a photo that is another; that one is missing is told apart.

    Args:
        number: Of the unit.
        photos: Of its guide, by path from the unit's folder.
        files: All files in that folder, by path from the root of the site.
    """
    for name, photo in photos.items():
        path = f"{number}/{name}"
        raw = files.get(path)
        what = "" if raw is None else _fault_of_file(raw, photo)
        if what:
            yield Failure(rules.PICTURE_DIFFERS, number, path, what, _BUILD, photo.span)


def _faults_of(picture: PictureRead, photo: Photo) -> Iterator[tuple[Rule, str, str]]:
    if picture.within.procedure != photo.procedure or picture.step != photo.step_id:
        place = photo.step_id or photo.procedure
        yield rules.PICTURE_DIFFERS, f"stands elsewhere than at `{place}`", _SEE_TEMPLATE
    wanted = _element(photo)
    if picture.drawn != wanted:
        stray = sorted(set(picture.drawn.attributes) ^ set(wanted.attributes))
        told = ", ".join(f'`{name}="{value}"`' for name, value in stray)
        yield rules.PICTURE_DIFFERS, f"is not shown as it must be: {told}", _SEE_TEMPLATE
    if picture.hidden:
        yield (
            rules.PICTURE_HIDDEN,
            f"cannot be seen as it stands there, by {picture.hidden}",
            (_SEE_STYLE),
        )


def _element(photo: Photo) -> Drawn:
    """Return the element that shows *photo*, with every attribute."""
    attributes = {
        "src": photo.path,
        "alt": photo.alt,
        "width": str(photo.width),
        "height": str(photo.height),
        "loading": "lazy",
        "decoding": "async",
    }
    return Drawn("img", tuple(sorted(attributes.items())))


def _fault_of_file(raw: bytes, photo: Photo) -> str:
    """Return what is wrong with the file *raw* of *photo*; nothing if it is as it must be."""
    if hashlib.sha256(raw).hexdigest() != photo.sha256:
        return "is another file than was made of the photo"
    try:
        read = read_jpeg(raw)
    except NotReadable as fault:
        return f"is no JPEG that every tablet shows: {fault}"
    if read.more_than_picture:
        return f"holds more than its picture: {', '.join(read.more_than_picture)}"
    if (read.width, read.height) != (photo.width, photo.height):
        return f"is {read.width} by {read.height} pixels and not {photo.width} by {photo.height}"
    return ""
