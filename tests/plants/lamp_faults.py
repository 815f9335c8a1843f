"""Lamp finders with a lamp, a color, an act, a symbol or a way that is not the truck's."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, exchanged, moved, some

from guidegen.procedures.words import LABELS, LAMP_ACTS, LAMP_COLORS

DIFFERS = frozenset({"lamp-differs"})
MISSING = frozenset({"lamp-missing"})
TOO_MANY = frozenset({"lamp-too-many"})
ORDER = frozenset({"lamp-out-of-order"})
FIGURE = frozenset({"figure-differs", "figure-missing"})
UNCLAIMED = frozenset({"unclaimed-text", "unclaimed-mark"})
ASTRAY = frozenset({"link-to-other-place", "contents-differ"})
UNREAD = frozenset({"label-not-read-back"})

_HIDING = ('style="display:none"', 'style="opacity:0"', "hidden", 'style="color:transparent"')


def lamps_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A lamp gone, twice, or one that the truck does not have."""
    for path, page in _finders(site, unit):
        for tile in some(elements(page, "data-tile"), 4):
            yield Plant(f"no {tile.key}", path, tile.with_outer("").encode(), MISSING, unit)
            twice = tile.with_outer(tile.outer * 2).encode()
            yield Plant(f"{tile.key} twice", path, twice, TOO_MANY, unit)
            other = tile.outer.replace(f'"{tile.key}"', '"lamp-not-fitted"')
            made_up = tile.with_outer(tile.outer + other).encode()
            yield Plant(f"a lamp not fitted after {tile.key}", path, made_up, TOO_MANY, unit)
            bare = tile.with_outer(tile.inner).encode()
            rules = MISSING | UNCLAIMED
            yield Plant(f"{tile.key} without its element", path, bare, rules, unit)
        for color in elements(page, "data-color"):
            without = color.with_outer("").encode()
            yield Plant(f"no {color.key} lamps", path, without, MISSING, unit)


def lamps_under_another_color(site: Site, unit: str) -> Iterator[Plant]:
    """A lamp, or all of a color, under another color."""
    for path, page in _finders(site, unit):
        colors = elements(page, "data-color")
        for one, other in zip(colors, (*colors[1:], colors[0]), strict=True):
            tiles = _inside(one, elements(page, "data-tile"))
            there = _inside(other, elements(page, "data-tile"))
            for tile in some(tiles, 2):
                under = moved(tile, there[0].start).encode()
                what = f"{tile.key} under {other.key}"
                yield Plant(what, path, under, DIFFERS, unit)
            called = re.sub(rf'"{one.key}"', f'"{other.key}"', one.outer)
            both = one.with_outer(called).encode()
            rules = DIFFERS | MISSING | TOO_MANY
            yield Plant(f"{one.key} lamps called {other.key}", path, both, rules, unit)
            words = _inside(one, elements(page, "data-lamp-color"))[0]
            read = words.with_inner(LAMP_COLORS[other.key]).encode()
            yield Plant(f"{one.key} reads {other.key}", path, read, UNREAD, unit)
            named = words.with_outer(words.outer.replace(one.key, other.key)).encode()
            rules = MISSING | UNCLAIMED
            yield Plant(f"{one.key} headed {other.key}", path, named, rules, unit)


def lamps_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """Lamps and colors in another order."""
    for path, page in _finders(site, unit):
        colors = elements(page, "data-color")
        for color in colors:
            tiles = _inside(color, elements(page, "data-tile"))
            if len(tiles) > 1:
                last = moved(tiles[0], tiles[-1].end).encode()
                yield Plant(f"{tiles[0].key} last of its color", path, last, ORDER, unit)
                inner = exchanged(tiles[0], tiles[1]).encode()
                yield Plant("two lamps with each other's content", path, inner, DIFFERS, unit)
        if len(colors) > 1:
            late = moved(colors[0], colors[-1].end).encode()
            yield Plant("the first color last", path, late, ORDER, unit)
        picks = elements(page, "data-pick")
        if len(picks) > 1:
            late = moved(picks[0], picks[-1].end).encode()
            yield Plant("the first color is chosen last", path, late, ORDER, unit)


def lamp_acts_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Another act, by mark and words; none; one too many."""
    for path, page in _finders(site, unit):
        for act in some(elements(page, "data-lamp-act"), 4):
            for key, words in LAMP_ACTS.items():
                if key != act.key:
                    outer = act.outer.replace(
                        f'data-lamp-act="{act.key}"', f'data-lamp-act="{key}"'
                    )
                    outer = outer.replace(f">{act.inner}<", f">{words}<")
                    other = act.with_outer(outer).encode()
                    yield Plant(f"{act.key} to {key}", path, other, DIFFERS, unit)
                    read = act.with_inner(words).encode()
                    yield Plant(f"{act.key} reads {key}", path, read, UNREAD, unit)
            yield Plant(f"no {act.key}", path, act.with_outer("").encode(), DIFFERS, unit)
            twice = act.with_outer(act.outer * 2).encode()
            yield Plant(f"{act.key} twice", path, twice, DIFFERS, unit)


def lamps_led_elsewhere(site: Site, unit: str) -> Iterator[Plant]:
    """Lamps that lead to another lamp, to the chapter or nowhere; names of other lamps."""
    for path, page in _finders(site, unit):
        tiles = elements(page, "data-tile")
        for one, other in zip(tiles, (*tiles[1:], tiles[0]), strict=True):
            href, another = _href(one), _href(other)
            wrong = one.with_outer(one.outer.replace(href, another)).encode()
            yield Plant(f"{one.key} leads to {other.key}", path, wrong, ASTRAY, unit)
            bare = one.with_outer(one.outer.replace(href, href.partition("#")[0])).encode()
            yield Plant(f"{one.key} leads to its chapter", path, bare, ASTRAY, unit)
            dead = one.with_outer(one.outer.replace(f' href="{href}"', "")).encode()
            yield Plant(f"{one.key} leads nowhere", path, dead, ASTRAY, unit)
            names = [
                _inside(each, elements(page, "data-procedure-link"))[0] for each in (one, other)
            ]
            read = names[0].with_inner(names[1].inner).encode()
            yield Plant(f"{one.key} reads {other.key}", path, read, UNREAD, unit)
            named = names[0].with_outer(names[1].outer).encode()
            yield Plant(f"{one.key} is named {other.key}", path, named, DIFFERS, unit)


def lamp_parts_beside_the_link(site: Site, unit: str) -> Iterator[Plant]:
    """Acts beside the link of their tile, where a glove hits nothing."""
    for path, page in _finders(site, unit):
        for tile in some(elements(page, "data-tile"), 2):
            act = _inside(tile, elements(page, "data-lamp-act"))[0]
            beside = moved(act, tile.inner_end).encode()
            yield Plant(f"the act of {tile.key} leads nowhere", path, beside, ASTRAY, unit)


def lamp_symbols_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Symbols and marks exchanged, gone, redrawn or hidden."""
    for path, page in _finders(site, unit):
        symbols = elements(page, "data-figure")
        of_tiles = [each for each in symbols if each.key != "lamp_color"]
        marks = [each for each in symbols if each.key == "lamp_color"]
        swapped = exchanged(of_tiles[0], of_tiles[-1]).encode()
        yield Plant("two symbols exchanged", path, swapped, FIGURE, unit)
        if len(marks) > 2:
            swapped = exchanged(marks[0], marks[1]).encode()
            yield Plant("two marks exchanged", path, swapped, FIGURE, unit)
        for symbol in (*some(of_tiles, 3), *some(marks, 3)):
            gone = symbol.with_inner("").encode()
            yield Plant(f"no drawing in {symbol.key}", path, gone, FIGURE, unit)
            # The last of its stroke widths is of a part that only this symbol has.
            thin = re.sub(r'(.*stroke-width=")[0-9]+', r"\g<1>9", symbol.inner, flags=re.DOTALL)
            redrawn = symbol.with_inner(thin).encode()
            yield Plant(f"a part of {symbol.key} thicker", path, redrawn, FIGURE, unit)
            for hiding in _HIDING:
                hidden = frozenset({"figure-hidden", "text-hidden"})
                drawing = symbol.inner.replace("<svg", f"<svg {hiding}", 1)
                raw = symbol.with_inner(drawing).encode()
                yield Plant(f"{symbol.key} with {hiding}", path, raw, hidden, unit)


def picks_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Ways to a color gone, to another color, or with its words; on the start page too."""
    for path in (f"{unit}/lamp-finder.html", f"{unit}/index.html"):
        page = site.files[path].decode() if path in site.files else ""
        picks = elements(page, "data-pick")
        for one, other in zip(picks, (*picks[1:], *picks[:1]), strict=True):
            rules = MISSING | {"contents-differ", "text-missing"}
            yield Plant(f"no way to {one.key}", path, one.with_outer("").encode(), rules, unit)
            wrong = one.with_outer(one.outer.replace(_href(one), _href(other))).encode()
            yield Plant(f"the way to {one.key} to {other.key}", path, wrong, ASTRAY, unit)
            dead = one.with_outer(one.outer.replace(f' href="{_href(one)}"', "")).encode()
            yield Plant(f"the way to {one.key} nowhere", path, dead, ASTRAY, unit)
            words = _inside(one, elements(page, "data-lamp-color"))[0]
            read = words.with_inner(LAMP_COLORS[other.key]).encode()
            yield Plant(f"the way to {one.key} reads {other.key}", path, read, UNREAD, unit)
            marks = [_inside(each, elements(page, "data-figure"))[0] for each in (one, other)]
            marked = marks[0].with_inner(marks[1].inner).encode()
            yield Plant(f"the way to {one.key} marked {other.key}", path, marked, FIGURE, unit)
    for path, page in _finders(site, unit):
        for color in elements(page, "data-color"):
            lost = page.replace(f'id="{color.key}"', f'id="{color.key}-lamps"').encode()
            broken = frozenset({"link-broken"})
            yield Plant(f"{color.key} has another id", path, lost, broken, unit)


def finder_labels_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Cautions before the lamps gone or late; words of nobody; the ways to the finder gone."""
    missing = frozenset({"text-missing"})
    for path, page in _finders(site, unit):
        last = elements(page, "data-color")[-1]
        for key in ("park_first", "handbook_first", "symbols_differ", "pick_color"):
            label = elements(page, "data-label", key)[0]
            yield Plant(f"no {key}", path, label.with_outer("").encode(), missing, unit)
            late = moved(label, last.end).encode()
            yield Plant(f"{key} after the lamps", path, late, missing, unit)
        tile = elements(page, "data-tile")[0]
        words = tile.with_inner(f"{tile.inner}<b>It goes out by itself.</b>").encode()
        yield Plant("words of nobody", path, words, UNCLAIMED, unit)
        told = f'<p data-label="start">{LABELS["start"]}</p>'
        inside = tile.with_inner(tile.inner + told).encode()
        yield Plant("a label in a tile", path, inside, DIFFERS, unit)
        between = tile.with_outer(tile.outer + told).encode()
        yield Plant("a label between tiles", path, between, UNCLAIMED, unit)
        row = tile.with_outer(f'<div data-row="a">{tile.outer}</div>').encode()
        yield Plant("a row around a lamp", path, row, UNCLAIMED, unit)
        for chapter in ("warning-lamps", "index", "data"):
            yield from _ways_lost(site, f"{unit}/{chapter}.html")


def lamp_closings_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The way on for a driver who does not find his lamp: gone, late or astray."""
    for path, page in _finders(site, unit):
        for label in elements(page, "data-label", "lamp_not_here"):
            yield Plant("no way on", path, label.with_outer("").encode(), MISSING, unit)
            color = next(e for e in elements(page, "data-color") if label in _inside(e, [label]))
            titles = _inside(color, elements(page, "data-procedure-link"))
            general = titles[-1]
            gone = general.with_outer("").encode()
            yield Plant(f"no {general.key}", path, gone, MISSING, unit)
            early = moved(general, titles[0].start).encode()
            rules = DIFFERS | UNCLAIMED | MISSING
            yield Plant(f"{general.key} in a lamp", path, early, rules, unit)
            astray = re.sub(r' href="[^"]*"', ' href="index.html"', general.outer, count=1)
            raw = general.with_outer(astray).encode()
            yield Plant(f"{general.key} leads astray", path, raw, ASTRAY, unit)
            dead = re.sub(r' href="[^"]*"', "", general.outer, count=1)
            raw = general.with_outer(dead).encode()
            yield Plant(f"{general.key} leads nowhere", path, raw, ASTRAY, unit)
        color = elements(page, "data-color")[-1]
        words = f'<p data-label="lamp_not_here">{LABELS["lamp_not_here"]}</p>'
        raw = color.with_outer(color.outer + words).encode()
        yield Plant("a way on that leads nowhere", path, raw, UNCLAIMED, unit)


def _ways_lost(site: Site, path: str) -> Iterator[Plant]:
    unit, page = path.partition("/")[0], site.files.get(path, b"").decode()
    for way in elements(page, "data-label", "lamp_finder"):
        rules = frozenset({"contents-differ", "text-missing"})
        yield Plant("no way to the lamp finder", path, way.with_outer("").encode(), rules, unit)
        read = way.with_inner("Lamps").encode()
        yield Plant("the way to the lamp finder reads otherwise", path, read, UNREAD, unit)


def _finders(site: Site, unit: str) -> Iterator[tuple[str, str]]:
    path = f"{unit}/lamp-finder.html"
    if path in site.files:
        yield path, site.files[path].decode()


def _inside(holder: Element, found: list[Element]) -> list[Element]:
    return [each for each in found if holder.start <= each.start and each.end <= holder.end]


def _href(element: Element) -> str:
    found = re.search(r'href="([^"]*)"', element.outer)
    assert found is not None
    return found[1]
