"""Where the addresses on a page lead.

Takes in an address, the page that it stands on and all paths of the site; gives out what is
wrong with it. Refuses every address that leaves the site, and those that a page opened from a
folder, without a server, could not follow.
"""

import posixpath
import re
from collections.abc import Container, Iterator
from functools import lru_cache
from urllib.parse import unquote

from guidegen.proof import rules
from guidegen.proof.model import Reading
from guidegen.proof.read_html import Stray

_SCHEME = re.compile(r"[a-zA-Z][a-zA-Z0-9+.-]*:")
_ASKS_NOTHING = ("tel:", "mailto:", "data:")
"""Schemes that make no request."""

_OUTSIDE = re.compile(r"""(?:https?|wss?|ftp):(?:\\?/){2}(?!www\.w3\.org/)[^\s"'`\\)<>]*""")
"""An address of another origin in a script. Names of XML vocabularies are no addresses."""


def judge_address(page: str, address: str, paths: Container[str]) -> Stray | None:
    """Return what is wrong with *address* on *page*, but for the part after ``#``.

    Args:
        page: Path of the page from the root of the site.
        address: As it stands in the attribute or stylesheet.
        paths: Every file of the site.
    """
    address = address.strip()
    if address.lower().startswith(_ASKS_NOTHING):
        return None
    if not is_relative(address):
        rooted = address.startswith(("/", "\\")) and address[1:2] not in ("/", "\\")
        if rooted:
            return Stray(rules.LINK_BROKEN, f"`{address}` works from a server's root only")
        return Stray(rules.REQUEST_TO_OTHER_ORIGIN, f"`{address}` leads out of the site")
    target, _ = resolve_address(page, address)
    if target not in paths:
        return Stray(rules.LINK_BROKEN, f"`{address}` leads to `{target}`, which is not there")
    return None


def is_relative(address: str) -> bool:
    """Whether *address* has neither scheme nor host nor root."""
    address = address.strip()
    return not (_SCHEME.match(address) or address.startswith(("/", "\\")))


@lru_cache(maxsize=4096)  # the ways on a page are looked at for what they are, and as addresses
def resolve_address(page: str, address: str) -> tuple[str, str]:
    """Return the path from the root of the site that *address* on *page* leads to, and the id."""
    place, _, fragment = address.strip().partition("#")
    place = unquote(place.partition("?")[0])
    if not place:
        return page, unquote(fragment)
    folder = posixpath.dirname(page)
    target = posixpath.normpath(posixpath.join(folder, place))
    return (f"{target}/" if place.endswith("/") else target), unquote(fragment)


def target_of(reading: Reading, page: str) -> str:
    """Return the path and id that *reading* on *page* leads to; empty if it is no link."""
    if not reading.link:
        return ""
    place, fragment = resolve_address(page, reading.link)
    return f"{place}#{fragment}" if fragment else place


def split_addresses(attribute: str, value: str) -> Iterator[str]:
    """Yield the addresses in the value of an attribute; ``srcset`` holds several."""
    if attribute in ("srcset", "imagesrcset"):
        yield from (part.split()[0] for part in value.split(",") if part.strip())
    else:
        yield value


def find_outside(script: str) -> Iterator[str]:
    """Yield the addresses of other origins that stand in the text of a script."""
    yield from (found[0] for found in _OUTSIDE.finditer(script))
