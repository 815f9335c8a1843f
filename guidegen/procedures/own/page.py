"""What the fleet has replaced, as a page for the office.

Takes in the fleet's own procedures; gives out one page of HTML, and the stylesheet beside it.
Refuses to run a script and to know a clock; what the fleet has typed is escaped.
"""

import re
from collections.abc import Iterator, Sequence
from html import escape

from guidegen.procedures.own.compare import words_of
from guidegen.procedures.own.model import Change, OwnProcedure, Replacement
from guidegen.procedures.own.report import answer_words, extent_words, headline

STYLE_NAME = "replaced.css"
"""Name of the stylesheet beside the page."""

PAGE_NAME = "replaced.html"

STYLE = """
body { max-width: none; }
td { vertical-align: top; overflow-wrap: anywhere; }
th.what { width: 20%; }
tr.given-up td:first-child { border-left: 0.4em solid currentcolor; font-weight: bold; }
"""
"""A caution that is given up is told by its bar and its bold type, also in black and white."""


_CODE = re.compile("`([^`]*)`")


def replaced_page(own: Sequence[OwnProcedure], styles: Sequence[str] = (), icon: str = "") -> str:
    """Return the page.

    Args:
        own: In the order of the page.
        styles: Names of stylesheets beside the page, the first to be read first.
        icon: Address of the site's icon; empty if the page stands in no site.
    """
    links = "".join(f'<link rel="stylesheet" href="{escape(style)}">\n' for style in styles)
    if icon:
        links = f'<link rel="icon" href="{escape(icon)}">\n{links}'
    return "\n".join(
        (
            '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>What the fleet has replaced</title>\n{links}</head>\n<body>",
            "<h1>What the fleet has replaced</h1>",
            *_summary(own),
            *(line for each in own for line in _section(each)),
            *_new(own),
            "</body>\n</html>\n",
        )
    )


def _summary(own: Sequence[OwnProcedure]) -> Iterator[str]:
    replaced = [each.replacement for each in own if each.replacement is not None]
    given_up = sum(bool(change.answered_by) for each in replaced for change in each.changes)
    if not given_up:
        yield '<p class="verdict proved">No caution of the library is given up.</p>'
    else:
        yield (
            f'<p class="verdict failed">Given up from the library: {given_up:,}, each with the '
            "one who answers for it.</p>"
        )
    yield "<p>Procedures and lamps of the library that the fleet has its own words for, with all"
    yield "that is other. What is not listed is as in the library.</p>"


def _section(own: OwnProcedure) -> Iterator[str]:
    replacement = own.replacement
    if replacement is None:
        return
    yield f"<h2>{escape(words_of(own.template.title))}</h2>"
    yield f"<p>{escape(extent_words(replacement).capitalize())}:"
    yield f"<code>{escape(replacement.span.place)}</code> in the place of"
    yield f"<code>{escape(replacement.original.span.place)}</code>.</p>"
    if replacement.is_out_of_date:
        yield (
            "<p><strong>The library's procedure has changed since it was replaced.</strong> "
            "Compare the two, and take over what is right for your trucks.</p>"
        )
    yield '<table>\n<thead><tr><th class="what">What</th><th>In the library</th>'
    yield "<th>In this fleet</th><th>Who answers for it</th></tr></thead>\n<tbody>"
    yield from (_row(change, replacement) for change in replacement.changes)
    yield "</tbody>\n</table>"


def _row(change: Change, replacement: Replacement) -> str:
    mark = ' class="given-up"' if change.answered_by else ""
    answer = escape(answer_words(change, replacement))
    was = _said(change.was, change.was_at.place if change.was_at else "")
    now = _said(change.now, change.now_at.place if change.now_at else "")
    what = _CODE.sub(r"<code>\1</code>", escape(headline(change)))
    return f"<tr{mark}><td>{what}</td><td>{was}</td><td>{now}</td><td>{answer}</td></tr>"


def _said(words: str, place: str) -> str:
    if not words:
        return "\N{EM DASH}"
    return f"{escape(words)}<br><code>{escape(place)}</code>" if place else escape(words)


def _new(own: Sequence[OwnProcedure]) -> Iterator[str]:
    new = [each.template for each in own if each.replacement is None]
    if not new:
        return
    yield "<h2>The fleet's own procedures and house rules, beside the library</h2>"
    yield "<ul>"
    for template in new:
        title = escape(words_of(template.title))
        yield f"<li>{title}: <code>{escape(template.span.place)}</code></li>"
    yield "</ul>"
