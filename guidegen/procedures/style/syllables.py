"""How many syllables an English word has.

Takes in a word; gives out the count, by its vowels and a list of words that do not follow them.
Refuses nothing: a word that is no English gets a fair guess.
"""

import re
from functools import cache, lru_cache
from types import MappingProxyType

_VOWELS = re.compile(r"[aeiouy]+")
_LETTERS = re.compile(r"[a-z]+")
_DIGITS = re.compile(r"[0-9]")

_APART = (
    re.compile(r"[^aeioutcgsl]ia"),  # ma-te-ri-al, not spe-cial, re-gion or Aus-tra-lian
    re.compile(r"[^aeioutcsgx]io"),  # ra-di-o, not ac-tion or vi-cious
    re.compile(r"[^aeiouqg]u(?:a|ou|i[dt]y)"),  # ac-tu-al, not quart or guard
    re.compile(r"[^aeiou]eo(?!p)|eum|[aeiou]ing|[^aeiou]ying"),  # vid-e-o, be-ing, try-ing
    re.compile(r"[^aeioutc]ie[rnt](?!ce)(?!ds?$)|ii|[^aeioug]iu"),  # bar-ri-er, not friend
    re.compile(r"(?<=[bcdfgkpstxz])l(?:e|es|ed)$"),  # ta-ble: the l is a syllable, the e is none
    re.compile(r"[^aeiou]sm$|[^aeiou]isms?$"),
)
"""Where two vowels beside each other, or a consonant, make a syllable more."""

_SILENT = (
    re.compile(r"[^aeiouy]e$"),  # brake
    re.compile(r"[^aeioutdy]ed$"),  # stopped, not tested
    re.compile(r"[^aeiouysxzcg]es$(?<!ches)(?<!shes)"),  # brakes, not hoses
    re.compile(r"(?:[aio]g|q|tong)ue[sd]?$"),  # techn-ique
    re.compile(r"[^aeiou]e(?:ly|ment|ments|ful|less|ness)$"),  # safe-ly
    re.compile(
        r"^(?:base|brake|else|fire|fore|home|life|line|pipe|safe|side|some|there|time|tire|where|"
        r"whole|wire)(?!less$|ments?$|ness$)(?=[b-df-hj-np-tv-z]\w{1,})(?!ly$|r|s$)"
    ),  # side-ways, some-thing
)
"""Where an e is written and not spoken."""

_UNLIKE = MappingProxyType(
    {
        "queue": 1,
        **dict.fromkeys(("fluid", "fluids", "fuel", "fuels", "quiet", "dryer", "dryers"), 2),
        **dict.fromkeys(("ruin", "ruins", "ruined", "every", "someone", "create", "science"), 2),
        **dict.fromkeys(("everyone", "everything", "everywhere", "anyone", "area", "idea"), 3),
        "everybody": 4,
    }
)
"""Words that follow neither."""

_SPELLED_OUT = frozenset({"ABS", "CDL", "CNG", "DEF", "GFCI", "ISO", "LNG", "PTO"})
"""Words that are read letter by letter."""


@lru_cache(maxsize=10_000)
def syllables(word: str) -> int:
    """Return how many syllables *word* has; a hyphen parts it, and each digit counts one.

    >>> [syllables(word) for word in ("brake", "parking", "regeneration", "low-air")]
    [1, 2, 5, 2]
    """
    if word in _SPELLED_OUT:
        return len(word)
    parts = _LETTERS.findall(re.sub("['\u2019]", "", word.lower()))
    return max(1, sum(map(_count, parts)) + len(_DIGITS.findall(word)))


@cache
def _count(part: str) -> int:
    if part in _UNLIKE:
        return _UNLIKE[part]
    count = len(_VOWELS.findall(part))
    count += sum(len(apart.findall(part)) for apart in _APART)
    count -= sum(bool(silent.search(part)) for silent in _SILENT)
    return max(1, count)
