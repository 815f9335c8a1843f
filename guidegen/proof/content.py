"""One proved file, kept for those of other editions that are equal to it but for their values.

Takes in nothing; gives out what was proved, on what premise and by what answers of its claims.
Refuses a file that failed: what is wrong is said for each truck anew.
"""

from typing import Any, NamedTuple

from guidegen.guide.model import STAMPED
from guidegen.proof.claims import source_words
from guidegen.proof.foreign import Identity
from guidegen.proof.model import FileVerdict, ValueThere
from guidegen.proof.watched import Asked
from guidegen.units.model import Fact, StatedIn


class Content(NamedTuple):
    """One proved file, without failures."""

    premise: tuple[Any, ...]
    """What of its claims is compared as a whole."""

    asked: tuple[Asked, ...]
    """What else its proof has asked for, in the order of
    `guidegen.proof.contents.sources_of`."""

    verdict: FileVerdict
    foreign: tuple[Identity, ...]
    """What in it is also an identity of a truck; only an edition that states it may have it."""

    sections: tuple[tuple[str, str], ...] = ()
    """Facts of which the section was asked, with it; it is empty for one that is not there."""

    fixed_values: tuple[ValueThere, ...] = ()
    """Values that must be as they are, though others may differ: of facts asked for whole."""


Contents = dict[tuple[str, bytes], list[Content]]
"""By path in the unit's folder and digest without what is stamped into the file, or without its
values too."""


def is_alike_fact(one: Fact, two: Fact) -> bool:
    """Whether two facts read alike; what is stamped into an edition may be of other values."""
    if one.name in STAMPED and one.name == two.name:
        return _is_alike_source(one, two)
    return (
        one.field == two.field
        and one.value == two.value
        and one.shown == two.shown
        and one.is_quoted == two.is_quoted
        and _is_alike_source(one, two)
    )


def _is_alike_source(one: Fact, two: Fact) -> bool:
    """Whether two facts say the same of where they come from, wherever that stands."""
    before, after = one.provenance, two.provenance
    if isinstance(before, StatedIn) and isinstance(after, StatedIn):
        return (before.layer, before.source, before.recorded) == (
            after.layer,
            after.source,
            after.recorded,
        )
    return source_words(one) == source_words(two)
