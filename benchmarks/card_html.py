"""A card as one HTML page for another typesetter.

Takes in a card, the matter of its truck and its issue; gives out HTML with print styles that ask
for the same: pages of the same size, groups that do not break, a code and a head on every page.
Refuses nothing: it only serves to compare speeds.
"""

from collections.abc import Callable, Iterable, Mapping
from html import escape
from typing import Any

from guidegen.decks.model import Card, Issue
from guidegen.decks.sizes import SEAL
from guidegen.paper.card import BLEED, groups_of
from guidegen.paper.code import code_of
from guidegen.paper.matter import Matter
from guidegen.paper.theme import Theme


def card_as_html(card: Card, matter: Matter, issue: Issue, theme: Theme) -> str:
    """Return *card* as HTML."""
    groups = "".join(
        f"<section>{''.join(_piece(piece) for piece in group.pieces)}</section>"
        for group in groups_of(card, matter)
    )
    head = (
        f'<div class="head"><div class="code">{code_of(issue.link).svg}</div>'
        f"<b>{escape(matter.guide.number)}</b><p>{escape(card.kind.title)}</p>"
        f"<p>Revision {issue.revision}, {issue.date}</p></div>"
    )
    style = _style(card, theme)
    return (
        f'<html lang="en"><head><title>{escape(card.kind.title)}</title>{style}</head>'
        f"<body>{head}{groups}</body></html>"
    )


def _style(card: Card, theme: Theme) -> str:
    side = card.kind.side
    edge = SEAL + BLEED
    colors = theme.colors
    signals = "".join(
        f".{name.upper()} b {{ background: {colors[f'{name}_back']}; "
        f"color: {colors[f'{name}_text']} }}"
        for name in ("danger", "warning", "caution", "notice")
    )
    return f"""<style>
@page {{ size: {side.width + 2 * BLEED}mm {side.height + 2 * BLEED}mm;
  margin: {edge + 22}mm {edge}mm {edge + 4}mm;
  @top-left {{ content: element(head); vertical-align: top }}
  @bottom-left {{ content: "Do not read while driving. Park first."; font-size: 7pt }}
  @top-right {{ content: counter(page) " of " counter(pages) }} }}
body {{ font: {theme.sizes["text"]}pt/1.2 "Atkinson Hyperlegible"; color: {colors["ink"]};
  margin: 0 }}
p, ul, h1 {{ margin: 0; padding: 0 }} li {{ margin-left: 1em }}
.head {{ position: running(head) }} .head b {{ font-size: {theme.sizes["unit"]}pt }}
.code {{ float: right; width: 20mm }} .code svg {{ width: 20mm; height: 20mm }}
section {{ break-inside: avoid; margin-top: .55em }} h1 {{ font-size: {theme.sizes["title"]}pt }}
.caution {{ border: 1.6pt solid; padding: .4em .5em }} {signals}
.row {{ display: flex }} .row > * {{ flex: 1 }} .row > .number, .row > svg {{ flex: 0 0 2em }}
</style>"""


def _piece(piece: dict[str, Any]) -> str:
    return _PIECES[piece["kind"]](piece)


def _caution(piece: dict[str, Any]) -> str:
    says = " ".join(_text(piece[name]) for name in ("hazard", "consequence", "avoid"))
    return f'<div class="caution {piece["signal"]}"><b>{piece["signal"]}</b> {says}</div>'


def _lamp(piece: dict[str, Any]) -> str:
    drawn = piece["drawing"]["svg"] if piece["drawing"] else ""
    listed = _entries([*piece["means"], *piece["steps"]])
    says = f"<b>{_text(piece['name'])}</b><p>{escape(piece['sign'])}</p><ul>{listed}</ul>"
    return f'<div class="row">{drawn}<div>{says}</div></div>'


def _numbered(number: str, says: str) -> str:
    return f'<div class="row"><b class="number">{number}</b><p>{says}</p></div>'


def _valued(piece: dict[str, Any]) -> str:
    label, value = escape(piece["label"]), _text(piece["value"])
    return f'<div class="row"><p>{label}</p><p><b>{value}</b></p></div>'


_PIECES: Mapping[str, Callable[[dict[str, Any]], str]] = {
    "title": lambda piece: f"<h1>{_text(piece['text'])}</h1>",
    "section": lambda piece: f"<h1>{escape(piece['words'])}</h1>",
    "note": lambda piece: f"<p>{escape(piece['words'])}</p>",
    "act": lambda piece: f"<p>{escape(piece['words'])}</p>",
    "stance": lambda piece: f"<p>{'<br>'.join(map(escape, piece['entries']))}</p>",
    "caution": _caution,
    "step": lambda piece: _numbered(piece["number"], _text(piece["text"])),
    "list": lambda piece: f"<p><b>{piece['head']}</b></p><ul>{_entries(piece['entries'])}</ul>",
    "row": _valued,
    "large": _valued,
    "stop": lambda piece: _numbered(
        piece["number"], f"{_text(piece['title'])}<br>{escape(piece['station'])}"
    ),
    "lamp": _lamp,
}


def _entries(texts: Iterable[Any]) -> str:
    return "".join(f"<li>{_text(text)}</li>" for text in texts)


def _text(written: Iterable[tuple[str, ...]]) -> str:
    return "".join(
        f"<b>{escape(part[0])}</b>" if len(part) > 1 else escape(part[0]) for part in written
    )
