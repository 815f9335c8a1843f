"""Whether bar and navigation around a page are those of its truck.

Takes in what was read around a body; records another number or revision, ways that are missing,
and words in them that nobody states. Refuses a page without its bar or its navigation.
"""

from collections.abc import Iterable, Sequence

from guidegen.proof import rules
from guidegen.proof.compare_links import Links
from guidegen.proof.compare_words import Wording
from guidegen.proof.faults import Faults
from guidegen.proof.read_frame import FrameParts
from guidegen.proof.read_html import Body, Stray

_FIX = "repair the page template"


def compare_around(
    frame: FrameParts, bar: tuple[str, str], words: Wording, links: Links, faults: Faults
) -> list[str]:
    """Hold what stands around a body against its truck; return the addresses in it.

    Args:
        frame: What was read.
        bar: Number and revision of the truck.
        words: Holds texts against its guide.
        links: Holds ways against its pages.
        faults: Takes what differs.
    """
    number, revision = bar
    _compare_slots("the frame names", frame.numbers, number, faults)
    _compare_slots("the revision reads", frame.revisions, revision, faults)
    if not frame.tools:
        faults.add(rules.CONTENTS_DIFFER, "there are no tools in the bar", fix=_FIX)
    if not frame.navigations:
        what = "there is no navigation around the body"
        faults.add(rules.CONTENTS_DIFFER, what, fix=_FIX)
    for tools in frame.tools:
        links.compare_tools(tools)
    for navigation in frame.navigations:
        links.compare_navigation(navigation)
    ways = (*frame.tools, *frame.navigations)
    for way in ways:
        _compare_words(way, words, faults)
    return [address for way in ways for address in way.links]


def _compare_slots(what: str, found: Sequence[str], wanted: str, faults: Faults) -> None:
    for each in found or ("nothing",):
        if each != wanted:
            faults.add(rules.IDENTITY_DIFFERS, f"{what} `{each}` and not `{wanted}`", fix=_FIX)


def _compare_words(way: Body, words: Wording, faults: Faults) -> None:
    for reading in way.readings:
        words.compare(reading)
    for stray in (*way.strays, *_held(way)):
        faults.add_stray(stray)


def _held(way: Body) -> Iterable[Stray]:
    for opening in way.openings:
        what = f"`{opening.holder.value}` in the navigation"
        yield Stray(rules.UNCLAIMED_MARK, what)
