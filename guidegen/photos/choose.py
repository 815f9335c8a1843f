"""From the list of photos and the pictures beside it to the photos of each truck.

Takes in what is stated, the names of the files that there are, and what the fleet has of trucks,
models and procedures; gives out the photos by truck and by model. Refuses a photo of which
anything is in doubt: it is left out and reported, and every other one stays.
"""

import re
import unicodedata
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.finding import Finding, Findings, Rule, nearest
from guidegen.photos import rules
from guidegen.photos.model import FleetPhotos, Photo
from guidegen.photos.no_picture import NoPicture
from guidegen.photos.prepare import Prepared
from guidegen.specs.fields import Stated
from guidegen.specs.photos import PhotoSection

PICTURE_ENDINGS = frozenset(
    {
        *(".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".avif", ".gif", ".tif", ".tiff"),
        *(".bmp", ".dng"),
    }
)
"""Of files that somebody took for the driver. What else lies in the folder is left alone."""

_LEAST_WORDS = 3
"""Of a text alternative: two name a thing, and do not say where it is. Common practice, no
source."""

_WORD = re.compile(r"[^\W_]+")
_NUMBER = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")
_SHORTEST = 3
"""Characters of a truck's number that can be told from a word; as of the proof."""

Prepare = Callable[[str], Prepared]
"""Gives out the picture in the file of a name; raises `NoPicture`."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a photo can be of."""

    units: Collection[str]
    """Numbers of all trucks that have a file."""

    models: Collection[str]
    """Ids of all models."""

    procedures: Mapping[str, Collection[str]]
    """Ids of the steps of each procedure of the library, by its id."""


def choose_photos(
    stated: Sequence[PhotoSection],
    names: Collection[str],
    prepare: Prepare,
    known: Known,
    findings: Findings,
) -> FleetPhotos:
    """Return the photos of every truck; those with a fault are left out and reported.

    Args:
        stated: The list.
        names: Of all plain files in its folder, as they are written there.
        prepare: Reads one of them.
        known: What a photo can be of.
        findings: Takes the faults.
    """
    choosing = _Choosing(names, prepare, known, findings)
    for section in stated:
        choosing.take(section)
    return FleetPhotos(choosing.by_units(), choosing.by_models())


def unlisted(stated: Iterable[PhotoSection], names: Iterable[str], folder: str) -> list[Finding]:
    """Return a finding for each picture that the list does not name.

    Args:
        stated: The list.
        names: Of all files in its folder.
        folder: As findings show it.
    """
    listed = {_alike(str(each.file.value)) for each in stated}
    return [
        Finding(
            rules.PHOTO_NOT_LISTED,
            None,
            f"`{name}` is not in the list of photos",
            f"add it to `{folder}/photos.yml`: `- {{file: {name}, units: […], procedure: …, "
            "alt: …}`; or take it out of the folder",
            place=f"{folder}/{name}",
        )
        for name in sorted(names)
        if PurePosixPath(name).suffix.lower() in PICTURE_ENDINGS and _alike(name) not in listed
    ]


@dataclass(frozen=True, slots=True)
class _Choosing:
    names: Collection[str]
    prepare: Prepare
    known: Known
    findings: Findings
    units: dict[str, list[Photo]] = field(default_factory=dict)
    models: dict[str, list[Photo]] = field(default_factory=dict)

    def by_units(self) -> Mapping[str, tuple[Photo, ...]]:
        return MappingProxyType({key: tuple(each) for key, each in self.units.items()})

    def by_models(self) -> Mapping[str, tuple[Photo, ...]]:
        return MappingProxyType({key: tuple(each) for key, each in self.models.items()})

    def take(self, section: PhotoSection) -> None:
        """Keep the photo of *section* for its trucks, or report all that is wrong with it."""
        before = len(self.findings.errors)
        holders = self.holders(section)
        self.check_place(section)
        self.check_words(section)
        name = self.name_of(section.file)
        if name is None or not holders or len(self.findings.errors) > before:
            return
        try:
            prepared = self.prepare(name)
        except NoPicture as fault:
            self.add(fault.rule, section.file, f"`{name}` {fault.what}", fault.fix)
            return
        photo = _photo(section, prepared)
        for kept in holders:
            if any(photo.id == other.id for other in kept):
                what = f"`{name}` is shown twice in `{photo.procedure}`"
                self.add(rules.PHOTO_TWICE, section.file, what, "delete one of the two entries")
                return
        for kept in holders:
            kept.append(photo)

    def holders(self, section: PhotoSection) -> Sequence[list[Photo]]:
        """Return the lists of the trucks or of the model that the photo is of."""
        units: Sequence[Stated] = section.units.numbers if section.units is not None else ()
        model = section.model
        if (model is None) == (not units):
            what = f"`{section.file.value}` is of " + (
                "trucks and of a model" if units else "no truck and of no model"
            )
            fix = "write either `units: [T-17]`, with all trucks that look like this, or `model:`"
            self.add(rules.PHOTO_WITHOUT_TRUCK, section.file, what, fix)
            return ()
        if model is not None:
            models = [each for each in (model,) if self.is_known(each, self.known.models, "model")]
            return [self.models.setdefault(str(each.value), []) for each in models]
        found = [each for each in units if self.is_known(each, self.known.units, "truck")]
        return [self.units.setdefault(str(each.value), []) for each in found]

    def is_known(self, stated: Stated, known: Collection[str], what: str) -> bool:
        """Whether there is such a truck or model; one that is gone takes its photo along."""
        if stated.value in known:
            return True
        near = nearest(str(stated.value), known)
        fix = f"did you mean `{near}`?" if near else "correct it, or take it out of the list"
        says = f"there is no {what} `{stated.value}`"
        self.add(rules.PHOTO_OF_UNKNOWN_TRUCK, stated, says, fix)
        return False

    def check_place(self, section: PhotoSection) -> None:
        id_, step = str(section.procedure.value), section.step
        steps = self.known.procedures.get(id_)
        if steps is None:
            near = nearest(id_, self.known.procedures)
            fix = f"did you mean `{near}`?" if near else "see `docs/reference` for where ids stand"
            what = f"there is no procedure `{id_}`"
            self.add(rules.PHOTO_OF_UNKNOWN_PROCEDURE, section.procedure, what, fix)
        elif step is not None and step.value not in steps:
            near = nearest(str(step.value), steps)
            listed = ", ".join(f"`{each}`" for each in steps)
            fix = f"did you mean `{near}`?" if near else f"its steps are {listed}"
            what = f"`{id_}` has no step `{step.value}`"
            self.add(rules.PHOTO_OF_UNKNOWN_PROCEDURE, step, what, fix)

    def check_words(self, section: PhotoSection) -> None:
        alt = section.alt
        words = _WORD.findall(str(alt.value))
        is_name = _alike(str(section.file.value)) in _alike(str(alt.value))
        if len(words) < _LEAST_WORDS or is_name:
            what = f"`alt: {alt.value}` does not say what is on the picture"
            fix = "say where the thing is and what it looks like, in a sentence"
            self.add(rules.PHOTO_TEXT_SAYS_NOTHING, alt, what, fix)
        for text in (alt, *([section.caption] if section.caption else [])):
            named = _named(str(text.value), self.known.units)
            if named:
                what = f"it names `{named}`, and the page says itself whose it is"
                fix = "say `this truck`, or nothing: trucks can share the picture then"
                self.add(rules.PHOTO_NAMES_TRUCK, text, what, fix)

    def name_of(self, file: Stated) -> str | None:
        """Return the name of the file as it is written in the folder."""
        name = str(file.value)
        normal = unicodedata.normalize("NFC", name)
        # One system writes an accent with its letter, and another behind it: both mean one name.
        exact = [each for each in self.names if unicodedata.normalize("NFC", each) == normal]
        alike = [each for each in self.names if _alike(each) == _alike(name)]
        if len(alike) > 1:
            listed = " and ".join(f"`{each}`" for each in sorted(alike))
            what = f"{listed} are one file on Windows and two elsewhere"
            self.add(rules.PHOTO_NAME_DIFFERS, file, what, "rename one of them")
        elif exact:
            return exact[0]
        elif alike:
            what = f"the file is named `{alike[0]}`, with other capitals"
            fix = f"write `file: {alike[0]}`: only Windows takes the two for one"
            self.add(rules.PHOTO_NAME_DIFFERS, file, what, fix)
        else:
            near = nearest(name, self.names)
            fix = f"did you mean `{near}`?" if near else "put it beside this list"
            self.add(rules.PHOTO_MISSING, file, f"there is no picture `{name}`", fix)
        return None

    def add(self, rule: Rule, stated: Stated, what: str, fix: str) -> None:
        self.findings.add(rule, stated.span, what=what, fix=fix)


def _photo(section: PhotoSection, prepared: Prepared) -> Photo:
    return Photo(
        procedure=str(section.procedure.value),
        step=str(section.step.value) if section.step else "",
        alt=str(section.alt.value),
        caption=str(section.caption.value) if section.caption else "",
        width=prepared.width,
        height=prepared.height,
        sha256=prepared.sha256,
        span=section.file.span,
        raw=prepared.raw,
    )


def _alike(name: str) -> str:
    """Return what the names of one file have in common on every system."""
    return unicodedata.normalize("NFC", name).casefold()


def _named(text: str, numbers: Collection[str]) -> str:
    """Return a truck's number that *text* holds, if it holds any; ``17`` could be an amount."""
    words = (word.upper() for word in _NUMBER.findall(text))
    told = (word for word in words if not word.isdigit() and len(word) >= _SHORTEST)
    return next((word for word in told if word in numbers), "")
