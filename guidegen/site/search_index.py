"""What the search of one unit finds.

Takes in the views of a unit's chapters; gives out the index that the theme's search reads.
Refuses other units' text: an index holds one edition, and the search box of a unit loads only
its own.
"""

import json
from collections.abc import Iterable, Mapping
from html import escape

from guidegen.site.lay_out import START_PAGE, chapter_page
from guidegen.site.views import ChapterView, ProcedureView

Entry = Mapping[str, str]

_SETTINGS = {
    "lang": ["en"],
    # Words are parted at blanks (also no-break ones) and hyphens, so that "low air" finds
    # "low-air".
    "separator": r"[\s\-]+",
    # No list of stop words: "on", "off" and "not" matter in a truck.
    "pipeline": [],
    "fields": {"title": {"boost": 1000.0}, "text": {"boost": 1.0}, "tags": {"boost": 1000000.0}},
}


def search_index(start_title: str, chapters: Iterable[ChapterView]) -> str:
    """Return the index as JSON text; *start_title* and the texts may hold tokens."""
    entries: list[Entry] = [_entry(START_PAGE, start_title, "")]
    for chapter in chapters:
        page = chapter_page(chapter.chapter.key)
        # The theme groups results by page, and loses the first section of a page that has no
        # entry of its own.
        entries.append(_entry(page, chapter.chapter.words, ""))
        entries.extend(
            _entry(f"{page}#{procedure.id}", procedure.title.words, _text(procedure))
            for procedure in chapter.procedures
        )
    index = {"config": _SETTINGS, "docs": entries}
    return json.dumps(index, ensure_ascii=False, separators=(",", ":"))


def _entry(location: str, title: str, text: str) -> Entry:
    # The theme writes title and text into its result list as HTML.
    return {
        "location": location,
        "title": escape(title, quote=False),
        "text": escape(text, quote=False),
    }


def _text(procedure: ProcedureView) -> str:
    sentences = [f"{each.words}." for each in procedure.stance]
    for step in procedure.steps:
        for caution in step.cautions:
            sentences.append(caution.signal)
            sentences += [
                text.words for text in (caution.hazard, caution.consequence, caution.avoid)
            ]
        sentences.append(step.text.words)
    sentences += [text.words for text in (*procedure.expect, *procedure.if_not)]
    return " ".join(sentences)
