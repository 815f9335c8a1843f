"""What the search of one unit finds.

Takes in the entries of a unit's pages; gives out the texts that the search page looks in.
Refuses other units' text: the data hold one edition, and the search page of a unit loads only
its own.
"""

import json
from collections.abc import Iterable

from guidegen.site.views import ProcedureView


def search_index(entries: Iterable[str]) -> str:
    """Return *entries*, each a JSON object, as JSON text; they may hold tokens."""
    return f'{{"docs":[{",".join(entries)}]}}'


def page_entry(location: str, title: str) -> str:
    """Return the entry of a page; from it the search page has the name of a chapter."""
    return entry_at(location, f'"title":{_json(title)},"text":""')


def entry_at(location: str, found_by: str) -> str:
    """Return the entry of what stands at *location* and has the JSON members *found_by*."""
    return f'{{"location":{_json(location)},{found_by}}}'


def search_text(procedure: ProcedureView) -> str:
    """Return the text of *procedure* that the search looks in."""
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


_json = json.JSONEncoder(ensure_ascii=False).encode
