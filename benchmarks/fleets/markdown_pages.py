"""The pages of a site as Markdown, for programs that make sites of Markdown.

Takes in a site; gives out one Markdown file for each page of its first units.
Refuses nothing. What is given out holds the whole text; links and marks go unless they are kept.
"""

import re
from pathlib import Path

_INLINE = "a|abbr|b|button|code|em|i|output|span|strong|sub|sup|time"
_ANY_TAG = re.compile(r"<[^>]+>")
_BLOCK_TAG = re.compile(rf"</?(?!(?:{_INLINE})\b)[a-z][^>]*>")
_DRAWING = re.compile(r"<svg.*?</svg>", re.DOTALL)
_LEFT_OUT = re.compile(r"<(template|script)\b.*?</\1>", re.DOTALL)
_DRAWING_HERE = "\0"


def write_pages(site: Path, docs: Path, units: int, *, index: str, keeps_marks: bool) -> int:
    """Write the pages of the first *units* into *docs*; return how many.

    *index* is how the program wants a folder's first page to be called.
    """
    chosen = sorted(path for path in site.iterdir() if path.name.startswith("X-"))[:units]
    pages = 1
    for unit in chosen:
        target = docs / unit.name
        target.mkdir(parents=True)
        for page in unit.glob("*.html"):
            html = page.read_text(encoding="utf-8")
            name = index if page.stem == "index" else f"{page.stem}.md"
            text = f"---\ntitle: {_title(html)}\n---\n{as_markdown(html, keeps_marks=keeps_marks)}"
            (target / name).write_text(text, encoding="utf-8")
            pages += 1
    (docs / index).write_text("---\ntitle: Fleet\n---\n# Fleet\n", encoding="utf-8")
    return pages


def as_markdown(html: str, *, keeps_marks: bool) -> str:
    """Return what stands between bar and foot of a page as headings, paragraphs and lists.

    With *keeps_marks*, elements within a line and drawings stay as they are, so that a program that
    hands them on writes about as much as guidegen; without, only text stays.
    """
    body = html[html.index("data-guide=") :]
    body = body[body.index(">") + 1 :]
    body = _LEFT_OUT.sub("", body)
    drawings = _DRAWING.findall(body) if keeps_marks else []
    body = _DRAWING.sub(f"\n\n{_DRAWING_HERE}\n\n" if keeps_marks else "", body)
    body = re.sub(r"<h1\b[^>]*>", "\n\n# ", body)
    body = re.sub(r"<h[23]\b[^>]*>", "\n\n## ", body)
    body = re.sub(r"<(li|tr|dt)\b[^>]*>", "\n1. ", body)
    body = re.sub(r"<(p|div|section)\b[^>]*>", "\n\n", body)
    body = (_BLOCK_TAG if keeps_marks else _ANY_TAG).sub(" ", body)
    text = "\n".join(" ".join(line.split()) for line in body.splitlines())
    for drawing in drawings:
        text = text.replace(_DRAWING_HERE, f"<div>{' '.join(drawing.split())}</div>", 1)
    return re.sub(r"\n{3,}", "\n\n", text)


def _title(html: str) -> str:
    found = re.search(r"<title>(.*?)</title>", html)
    return (found[1] if found else "").replace(":", " ")
