"""Drawings that show another number, another mark or another truck's, or that are not seen."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, elements_of, exchanged, moved, pages_of, some

_SHAPE = re.compile(r"<(?:line|path|circle|rect)\b[^>]*/>")
_DIGIT = re.compile(r"[0-9](?![0-9]*;)")
_PLACE = re.compile(r' x="(\d+)" y="(\d+)"')

VALUE = frozenset({"value-not-read-back"})
DIFFERS = frozenset({"figure-differs"})
SHUT = frozenset({"figure-hidden", "figure-differs"})
UNCLAIMED = frozenset({"unclaimed-text", "unclaimed-mark", "element-not-readable"})


def figure_values_changed(site: Site, unit: str) -> Iterator[Plant]:
    """A digit of a value in a drawing, another truck's value, two values exchanged."""
    for path, drawing in _drawings(site, unit):
        values = [each for each in _writing(drawing, "data-fact") if _DIGIT.search(each.inner)]
        for value in values:
            digit = _DIGIT.search(value.inner)
            assert digit is not None
            other = str((int(digit[0]) + 1) % 10)
            inner = value.inner[: digit.start()] + other + value.inner[digit.end() :]
            what = f"{value.inner} to {inner} in a drawing"
            yield Plant(what, path, value.with_inner(inner).encode(), VALUE, unit)
            foreign = value.with_inner("88&nbsp;psi (605&nbsp;kPa)").encode()
            yield Plant(f"a foreign {value.key} in a drawing", path, foreign, VALUE, unit)
            gone = value.with_inner("").encode()
            yield Plant(f"no {value.key} in a drawing", path, gone, VALUE, unit)
        if len(values) > 1 and values[0].inner != values[1].inner:
            page = exchanged(values[0], values[1]).encode()
            yield Plant("two values of a drawing exchanged", path, page, VALUE, unit)


def figure_writing_moved(site: Site, unit: str) -> Iterator[Plant]:
    """Words and values at each other's places, by their places alone and as a whole."""
    for path, drawing in _drawings(site, unit):
        writing = _writing(drawing, "text-anchor")
        if len(writing) > 1:
            first, last = writing[0], writing[-1]
            one, two = (_PLACE.search(each.outer) for each in (first, last))
            assert one is not None
            assert two is not None
            page = last.with_outer(last.outer.replace(two[0], one[0], 1))
            page = page[: first.start] + first.outer.replace(one[0], two[0], 1) + page[first.end :]
            yield Plant("two writings at each other's places", path, page.encode(), DIFFERS, unit)
            page = moved(first, last.end)
            rules = DIFFERS | {"text-out-of-order"}
            yield Plant("a word of a drawing moved to its end", path, page.encode(), rules, unit)
        for word in some(_writing(drawing, "data-figure-word")):
            page = word.with_inner("HIGH")
            rules = frozenset({"label-not-read-back"})
            yield Plant(f"the word {word.key} changed", path, page.encode(), rules, unit)


def figure_shapes_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Marks moved, dropped, added over the words; another grid."""
    for path, drawing in _drawings(site, unit):
        page = drawing.page
        shapes = list(_SHAPE.finditer(page, drawing.start, drawing.end))
        for shape in (shapes[0], shapes[len(shapes) // 2], shapes[-1]):
            cut = page[: shape.start()] + page[shape.end() :]
            yield Plant(f"no {shape[0]}", path, cut.encode(), DIFFERS, unit)
            digit = _DIGIT.search(shape[0])
            assert digit is not None
            at = shape.start() + digit.start()
            shifted = f"{page[:at]}{(int(digit[0]) + 3) % 10}{page[at + 1 :]}"
            yield Plant(f"another {shape[0]}", path, shifted.encode(), DIFFERS, unit)
        cover = '<rect x="0" y="0" width="600" height="400" fill="currentColor"/>'
        over = page[: drawing.inner_end] + cover + page[drawing.inner_end :]
        yield Plant("a shape over the words", path, over.encode(), DIFFERS, unit)
        outer = re.sub(r'viewBox="0 0 \d+', 'viewBox="0 0 40', drawing.outer)
        grid = drawing.with_outer(outer).encode()
        yield Plant("a grid that cuts off", path, grid, DIFFERS, unit)


def figures_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """Drawing, caption or both gone, twice, in another place or of another kind."""
    for path, figure in _figures(site, unit):
        captions = [
            each
            for each in elements(figure.page, "data-text")
            if each.key.endswith(".figure") and figure.start < each.start < figure.end
        ]
        missing = frozenset({"text-missing", "figure-missing"})
        page = captions[0].with_outer("").encode()
        yield Plant("no caption", path, page, missing, unit)
        page = captions[0].with_inner("A drawing.").encode()
        yield Plant("another caption", path, page, frozenset({"text-not-read-back"}), unit)
        yield Plant("no figure", path, figure.with_outer("").encode(), missing, unit)
        drawing = _inside(figure, elements_of(figure.page, "svg"))[0]
        page = drawing.with_outer("").encode()
        yield Plant("no drawing", path, page, frozenset({"figure-missing"}), unit)
        page = drawing.with_outer(drawing.outer * 2).encode()
        yield Plant("the drawing twice", path, page, frozenset({"figure-differs"}), unit)
        outer = figure.outer.replace(f'data-figure="{figure.key}"', 'data-figure="cab"', 1)
        page = figure.with_outer(outer).encode()
        yield Plant("a figure of another kind", path, page, missing, unit)
        end = figure.page.index("</section>", figure.end)
        page = moved(figure, end).encode()
        yield Plant("a figure after its steps", path, page, frozenset({"text-out-of-order"}), unit)


def figures_hidden(site: Site, unit: str) -> Iterator[Plant]:
    """Parts of a drawing hidden by attributes and styles of their own."""
    attributes = (
        *('style="display:none"', 'style="opacity:0"', 'visibility="hidden"', 'opacity="0"'),
        *('display="none"', 'font-size="1"', 'transform="scale(0.01)"', 'style="fill:none"'),
        *("hidden", 'clip-path="url(#a)"', 'class="unseen"', 'filter="url(#b)"'),
    )
    for path, drawing in _drawings(site, unit):
        writing = _writing(drawing, "text-anchor")
        for place, attribute in enumerate(attributes):
            if writing:
                page = writing[place % len(writing)].with_attribute(attribute)
                yield Plant(f"writing with {attribute}", path, page.encode(), SHUT, unit)
            if attribute.startswith("class"):
                continue  # a drawing has a class, and of two the second does not count
            page = drawing.with_attribute(attribute)
            yield Plant(f"a drawing with {attribute}", path, page.encode(), SHUT, unit)
        if writing:
            outer = writing[0].outer.replace('fill="currentColor"', 'fill="none"')
            page = writing[0].with_outer(outer)
            yield Plant("writing without ink", path, page.encode(), SHUT, unit)
            page = writing[0].with_outer(f"<g>{writing[0].outer}</g>")
            yield Plant("writing in a group", path, page.encode(), DIFFERS, unit)


def figures_hidden_by_a_stylesheet(site: Site, unit: str) -> Iterator[Plant]:
    """Rules of a stylesheet for drawings and what stands in them."""
    if not list(_figures(site, unit)):
        return
    sheet = next(path for path in sorted(site.files) if path.endswith(".css"))
    css = site.files[sheet].decode()
    hidden = frozenset({"figure-hidden", "value-hidden", "text-hidden"})
    for extra in (
        "figure { display: none }",
        "svg { visibility: hidden }",
        "svg text { fill: transparent }",
        "svg text { fill: #fff }",
        "svg text { font-size: 1px }",
        "svg text { opacity: 0 }",
        "svg text { display: none }",
        "svg text { stroke: white }",
        "svg path { display: none }",
        "svg path { fill: white }",
        "svg { fill-opacity: 0 }",
        "svg { height: 1px }",
        "svg text { text-anchor: end }",
        "@media print { figure { display: none } }",
    ):
        raw = f"{css}\n{extra}\n".encode()
        yield Plant(extra, sheet, raw, hidden, unit)


def figures_with_words_of_nobody(site: Site, unit: str) -> Iterator[Plant]:
    """Words in a drawing that no list holds, and elements that could hold any."""
    additions = (
        *("<text>99 psi</text>", '<text x="9" y="9">OFF</text>', "<title>Gauge</title>", "99 psi"),
        *("<desc>Full</desc>", "<!-- 99 psi -->", '<image href="x.png"/>'),
        *("<foreignObject><p>99</p></foreignObject>", '<use href="#other"/>'),
        *("<style>text{fill:none}</style>", '<text data-label="state">State</text>'),
        *('<text data-fact="identity.vin">1</text>', '<text data-figure-word="120">120</text>'),
        '<animate attributeName="opacity" to="0"/>',
    )
    rules = UNCLAIMED | DIFFERS | {"text-repeated", "figure-hidden", "link-broken"}
    for path, drawing in _drawings(site, unit):
        for addition in additions:
            page = drawing.page[: drawing.inner_end] + addition + drawing.page[drawing.inner_end :]
            yield Plant(f"a drawing with {addition}", path, page.encode(), rules, unit)
        for word in _writing(drawing, "text-anchor")[:1]:
            page = word.with_inner(f"<tspan>{word.inner}</tspan>")
            yield Plant("a span in writing", path, page.encode(), rules, unit)
    for path, page in pages_of(site, unit).items():
        for text in elements(page, "data-label")[:1]:
            number = f'<span data-figure-word="120">120</span>{text.outer}'
            raw = text.with_outer(number).encode()
            # The first label of a page stands in its bar.
            rules = UNCLAIMED | {"contents-differ"}
            yield Plant("a number of a scale beside a label", path, raw, rules, unit)


_OWN_FAULTS = ("round-plan", "lamp_color")


def _figures(site: Site, unit: str) -> Iterator[tuple[str, Element]]:
    """Yield some figures of each page, with the path of the page.

    The plan of the inspection round and the lamp finder have faults of their own.
    """
    for path, page in pages_of(site, unit).items():
        figures = [each for each in elements(page, "data-figure") if each.key not in _OWN_FAULTS]
        if path.endswith("/lamp-finder.html"):
            continue
        for figure in some(figures, 3):
            yield path, figure


def _drawings(site: Site, unit: str) -> Iterator[tuple[str, Element]]:
    for path, figure in _figures(site, unit):
        yield path, _inside(figure, elements_of(figure.page, "svg"))[0]


def _writing(drawing: Element, attribute: str) -> list[Element]:
    return _inside(drawing, elements(drawing.page, attribute))


def _inside(outer: Element, found: list[Element]) -> list[Element]:
    return [each for each in found if outer.start < each.start < outer.end]
