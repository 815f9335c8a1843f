"""Photos that are gone, exchanged, hidden, silent, or that say where they were taken."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, moved, pages_of

from guidegen.guide.show_photos import photos_in

_MISSING = frozenset({"picture-missing"})
_DIFFERS = frozenset({"picture-differs"})
_HIDDEN = frozenset({"picture-hidden"})
_TEXT = frozenset({"text-not-read-back"})
_FILE_GONE = frozenset({"page-missing"})
_COMMENT = b"\xff\xfe\x00\x0aNorth 51\xc2"
"""A segment as T.81 has it, with words in it."""


def _shown(site: Site, unit: str) -> Iterator[tuple[str, Element]]:
    for path, page in pages_of(site, unit).items():
        yield from ((path, each) for each in elements(page, "data-photo"))


def photos_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """The whole photo gone, the picture alone gone, and either there twice."""
    for path, each in _shown(site, unit):
        gone = each.with_outer("").encode()
        yield Plant(f"no {each.key}", path, gone, _MISSING, unit)
        bare = each.with_inner(_IMAGE.sub("", each.inner)).encode()
        yield Plant(f"no picture of {each.key}", path, bare, _MISSING, unit)
        twice = each.with_outer(each.outer * 2).encode()
        yield Plant(f"{each.key} twice", path, twice, _DIFFERS, unit)
        image = _IMAGE.search(each.inner)
        assert image is not None
        beside = each.with_outer(image[0] + each.outer).encode()
        rules = frozenset({"attribute-not-claimed"})
        yield Plant(f"picture of {each.key} outside too", path, beside, rules, unit)


def photos_moved(site: Site, unit: str) -> Iterator[Plant]:
    """Each photo at every other step of its page, and behind all of them."""
    for path, each in _shown(site, unit):
        for step in elements(each.page, "data-step"):
            if not step.start < each.start < step.end:
                page = moved(each, step.inner_end).encode()
                yield Plant(f"{each.key} at {step.key}", path, page, _DIFFERS, unit)


def photos_shown_otherwise(site: Site, unit: str) -> Iterator[Plant]:
    """Another text alternative, another file, another size, another time to load."""
    shown = list(_shown(site, unit))
    for path, each in shown:
        others = [other.inner for _, other in shown if other.key != each.key]
        for what, changed in _changed(each.inner, others):
            page = each.with_inner(changed).encode()
            yield Plant(f"{each.key}: {what}", path, page, _DIFFERS, unit)
        for caption in elements(each.page, "data-text", each.key):
            page = caption.with_inner(f"not {caption.inner}").encode()
            yield Plant(f"another caption of {each.key}", path, page, _TEXT, unit)


def _changed(inner: str, others: list[str]) -> Iterator[tuple[str, str]]:
    yield "silent", re.sub(r'\balt="[^"]*"', 'alt=""', inner)
    yield "says something else", re.sub(r'\balt="', 'alt="not ', inner)
    yield "has no text", re.sub(r'\salt="[^"]*"', "", inner)
    yield "another width", re.sub(r'\bwidth="\d+"', 'width="9"', inner)
    yield "no height", re.sub(r'\sheight="\d+"', "", inner)
    yield "another source beside", inner.replace("<img ", '<img srcset="photos/other.jpg 2x" ')
    yield "loaded at once", inner.replace('loading="lazy"', 'loading="eager"')
    for other in others:
        source = re.search(r'src="([^"]*)"', other)
        assert source is not None
        yield "the file of another", re.sub(r'\bsrc="[^"]*"', f'src="{source[1]}"', inner)


def photos_hidden(site: Site, unit: str) -> Iterator[Plant]:
    """Each way to keep a picture from being seen."""
    for path, each in _shown(site, unit):
        for style in (
            *("display: none", "visibility: hidden", "opacity: 0.1", "width: 1px"),
            *("filter: brightness(0.1)", "filter: blur(9px)", "filter: invert(1)"),
            *("clip-path: inset(50%)", "transform: scale(0)"),
        ):
            css = f"<style>figure img {{ {style}; }}</style>"
            page = each.page.replace("</head>", f"{css}</head>").encode()
            yield Plant(f"{each.key}, {style}", path, page, _HIDDEN, unit)


def photo_files_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Each file gone, another's, of one other byte, and with words in it."""
    photos = list(photos_in(site.guide(unit)))
    for photo in photos:
        path = f"{unit}/{photo.path}"
        raw = site.files[path]
        yield Plant("gone", path, None, _FILE_GONE, unit)
        yield Plant("empty", path, b"", _DIFFERS, unit)
        flipped = raw[:-9] + bytes((raw[-9] ^ 1,)) + raw[-8:]
        yield Plant("of one other byte", path, flipped, _DIFFERS, unit)
        yield Plant("with a comment", path, raw[:2] + _COMMENT + raw[2:], _DIFFERS, unit)
        for other in photos:
            if other.id != photo.id:
                yield Plant("that of another photo", path, other.raw, _DIFFERS, unit)
    if photos:
        stray = f"{unit}/photos/stray.jpg"
        yield Plant("one too many", stray, photos[0].raw, frozenset({"page-too-many"}), unit)


_IMAGE = re.compile(r"<img [^>]*>")
