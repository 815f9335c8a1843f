"""Marks for what is stamped into an edition.

Takes in the name of an identity fact; gives out a token that stands for its value or source
until a unit is stamped. Refuses text that already holds a token's characters: whoever typed it
would be printed another truck's number.
"""

import re

from guidegen.guide.model import STAMPED

# Private-use characters have no meaning in HTML, JSON or any language, so neither escaping nor
# the site engine changes them.
BEFORE_SLOT = "\ue000"
AFTER_SLOT = "\ue001"
_RESERVED = re.compile(f"[{BEFORE_SLOT}{AFTER_SLOT}]")
SOURCE_SUFFIX = ".source"
KNOWN_PREFIX = "known."
REVISIONS_SLOT = "revisions"
"""Where the section of a truck's revisions stands, which trucks of an edition need not share."""
REVISION_SLOT = "revision"
"""Where the bar says which revision the guide is; likewise."""
EDITION_SLOT = "edition"
"""Where a page names its edition: pages that are alike but for it are drawn once."""


class ReservedCharacter(ValueError):
    """A text holds a character that is reserved for tokens."""


def value_token(name: str) -> str:
    """Return what stands for the value of the identity fact *name*."""
    return _token(name, name)


def source_token(name: str) -> str:
    """Return what stands for the source of the identity fact *name*, in words."""
    return _token(name, name + SOURCE_SUFFIX)


def known_token(name: str) -> str:
    """Return what stands for the identity fact *name* of the truck that the driver knows."""
    return _token(name, KNOWN_PREFIX + name)


def revisions_token() -> str:
    """Return what stands for the section of the truck's revisions."""
    return f"{BEFORE_SLOT}{REVISIONS_SLOT}{AFTER_SLOT}"


def revision_token() -> str:
    """Return what stands for the truck's revision in the bar."""
    return f"{BEFORE_SLOT}{REVISION_SLOT}{AFTER_SLOT}"


def edition_token() -> str:
    """Return what stands for the fingerprint of the truck's edition."""
    return f"{BEFORE_SLOT}{EDITION_SLOT}{AFTER_SLOT}"


def known_edition_token() -> str:
    """Return what stands for the fingerprint of the edition of the truck that the driver knows."""
    return f"{BEFORE_SLOT}{KNOWN_PREFIX}{EDITION_SLOT}{AFTER_SLOT}"


def plain(text: str) -> str:
    """Return *text* as it is.

    Raises:
        ReservedCharacter: If it holds U+E000 or U+E001.
    """
    if _RESERVED.search(text):
        raise ReservedCharacter(text)
    return text


def _token(name: str, slot: str) -> str:
    if name not in STAMPED:
        raise KeyError(name)
    return f"{BEFORE_SLOT}{slot}{AFTER_SLOT}"
