"""What the search of one unit finds.

Takes in the views of a unit's chapters; gives out the texts that the search page looks in.
Refuses other units' text: the data hold one edition, and the search page of a unit loads only
its own.
"""

import json
from collections.abc import Iterable, Mapping

from guidegen.site.lay_out import START_PAGE, chapter_page
from guidegen.site.views import ChapterView, ProcedureView

Entry = Mapping[str, str]


def search_index(start_title: str, chapters: Iterable[ChapterView]) -> str:
    """Return the entries as JSON text; *start_title* and the texts may hold tokens."""
    entries: list[Entry] = [_entry(START_PAGE, start_title, "")]
    for chapter in chapters:
        page = chapter_page(chapter.head.page)
        # From this entry the search page has the name of the chapter.
        entries.append(_entry(page, chapter.chapter.words, ""))
        entries.extend(
            _entry(f"{page}#{procedure.id}", procedure.title.words, _text(procedure))
            for procedure in chapter.procedures
        )
    return json.dumps({"docs": entries}, ensure_ascii=False, separators=(",", ":"))


def _entry(location: str, title: str, text: str) -> Entry:
    return {"location": location, "title": title, "text": text}


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
