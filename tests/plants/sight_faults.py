"""Texts that are there and cannot be seen, or not as they are."""

from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, pages_of, some

HIDDEN = frozenset({"caution-hidden", "step-hidden", "value-hidden", "text-hidden"})
_INLINE = (
    *("display:none", "visibility: hidden", "opacity:0", "font-size:0", "font-size: 1px"),
    *(
        "color:#fff",
        "color: white; background: #fefefe",
        "color:transparent",
        "color: rgb(0 0 0 / 5%)",
    ),
    *("position:absolute;left:-9999px", "text-indent:-100em", "max-height:0;overflow:hidden"),
    *(
        "clip: rect(0,0,0,0)",
        "clip-path: inset(50%)",
        "transform:scale(0)",
        "transform: scaleX(.0)",
    ),
    *("height:1px;width:1px", "content-visibility:hidden", "filter:opacity(0)", "line-height:0"),
    *("font:0/0 a", "DISPLAY : NONE !important", "margin-left:-200%", "zoom:0", "scale: 0"),
    *(
        "text-decoration: line-through",
        "-webkit-text-fill-color: transparent",
        "mix-blend-mode: screen",
    ),
    *("letter-spacing:-1em", "-webkit-text-security: disc", "display:var(--shown)"),
)
_ATTRIBUTES = (
    "hidden",
    'hidden="until-found"',
    'aria-hidden="true"',
    "inert",
    "popover",
    'dir="rtl"',
)
_DECLARATIONS = (
    *("display: none", "visibility: collapse", "opacity: .01", "font-size: 0", "color: #fff"),
    *("color: var(--unseen)", "left: -100vw", "transform: translateX(-100%)", "max-height: 0"),
    *(
        "background: #000",
        "animation: fade 1s forwards",
        "clip-path: circle(0)",
        "overflow: hidden; height: 1em",
    ),
)


def hidden_by_a_style_of_its_own(site: Site, unit: str) -> Iterator[Plant]:
    """A caution, a step, a value by a style attribute."""
    for place, declarations in enumerate(_INLINE):
        path, element = _turn(site, unit, place)
        changed = element.with_attribute(f'style="{declarations}"').encode()
        yield Plant(f"{element.key} {declarations}", path, changed, HIDDEN, unit)


def hidden_by_an_attribute(site: Site, unit: str) -> Iterator[Plant]:
    """A caution, a step, a value, the body by an attribute or an element around it."""
    for place, attribute in enumerate(_ATTRIBUTES * 2):
        path, element = _turn(site, unit, place)
        changed = element.with_attribute(attribute).encode()
        yield Plant(f"{element.key} {attribute}", path, changed, HIDDEN, unit)
    for place, (start, end) in enumerate(
        (
            ("<details><summary></summary>", "</details>"),
            ("<noscript>", "</noscript>"),
            ("<template>", "</template>"),
            ("<!--", "-->"),
            ("<dialog>", "</dialog>"),
            ("<textarea>", "</textarea>"),
            ("<div hidden>", "</div>"),
            ('<span style="display:none">', "</span>"),
        )
    ):
        path, element = _turn(site, unit, place)
        rules = HIDDEN | {"element-not-readable", "caution-missing", "step-missing"}
        rules |= {"unclaimed-text", "value-missing", "text-not-read-back"}
        changed = element.with_outer(f"{start}{element.outer}{end}").encode()
        yield Plant(f"{element.key} in {start}", path, changed, rules, unit)
    for path, page in list(pages_of(site, unit).items())[:3]:
        for tag in ("body", "main", "article"):
            changed = page.replace(f"<{tag}", f"<{tag} hidden", 1).encode()
            yield Plant(f"{tag} hidden", path, changed, HIDDEN, unit)


def part_of_a_text_hidden(site: Site, unit: str) -> Iterator[Plant]:
    """One word of a text in an element that is not seen."""
    for path, page in list(pages_of(site, unit).items()):
        for text in some(elements(page, "data-text"), 1):
            first, _, rest = text.inner.partition(" ")
            if "<" in first:
                continue
            for start in ("<b hidden>", '<b style="display:none">', '<b aria-hidden="true">'):
                changed = text.with_inner(f"{start}{first}</b> {rest}").encode()
                yield Plant(f"{first} in {start}", path, changed, HIDDEN, unit)


def hidden_by_a_stylesheet(site: Site, unit: str) -> Iterator[Plant]:
    """Rules added to a stylesheet of the site: for marks, tags, all, in print, when pointed at."""
    sheet = _sheet(site)
    css = site.files[sheet].decode()
    selectors = (
        *("[data-caution]", "aside, div", "[data-step]", "main", "article > *", "[data-fact]"),
        *(
            "[data-text]:hover",
            "ol li:first-child",
            ":is(aside, section)",
            "body *",
            "[data-guide]",
        ),
        *("html:not(.js) [data-text]", "section:has(ol)", "main:focus-within p"),
        *("p:first-line", "[data-data-md-color-scheme], [data-text]", "[data-text] > span"),
    )
    for place, selector in enumerate(selectors):
        declaration = _DECLARATIONS[place % len(_DECLARATIONS)]
        extra = f"\n{selector} {{ {declaration} }}\n:root {{ --unseen: #fff }}\n"
        extra += "@keyframes fade { to { opacity: 0 } }\n"
        yield Plant(f"{selector} {declaration}", sheet, (css + extra).encode(), HIDDEN, unit)
    for around in (
        "@media print",
        "@media (max-width: 30em)",
        "@supports (display: grid)",
        "@layer low",
        "@container (min-width: 1px)",
    ):
        extra = f"\n{around} {{ [data-text] {{ display: none }} }}"
        yield Plant(f"{around}", sheet, (css + extra).encode(), HIDDEN, unit)
    nested = "\nmain { & [data-text] { display: none } }"
    yield Plant("a nested rule", sheet, (css + nested).encode(), HIDDEN, unit)
    dark = '\n[data-theme="dark"] [data-text] { color: #111 }'
    yield Plant("dark on dark", sheet, (css + dark).encode(), HIDDEN, unit)


def changed_by_a_stylesheet(site: Site, unit: str) -> Iterator[Plant]:
    """Words added, values in other letters, another order, another direction."""
    sheet = _sheet(site)
    css = site.files[sheet].decode()
    for extra, rules in (
        ('[data-fact]::before { content: "not " }', {"unclaimed-text"}),
        ('[data-text]:after { content: "1" }', {"unclaimed-text"}),
        ("[data-step]::before { content: attr(data-step) }", {"unclaimed-text"}),
        ("[data-fact] { text-transform: uppercase }", {"value-hidden"}),
        ("[data-guide] { text-transform: lowercase }", {"value-hidden", "text-hidden"}),
        ("ol { display: flex; flex-direction: column-reverse }", {"text-out-of-order"}),
        ("[data-step] { order: 1 }", {"text-out-of-order"}),
        ("[data-text] { position: absolute; top: 0 }", {"text-out-of-order"}),
        ("[data-text] { direction: rtl; unicode-bidi: bidi-override }", HIDDEN),
        ('[data-text] { content: "Drive." }', {"text-hidden", "step-hidden"}),
    ):
        changed = f"{css}\n{extra}\n".encode()
        yield Plant(extra, sheet, changed, frozenset(rules), unit)


def hidden_by_a_style_element(site: Site, unit: str) -> Iterator[Plant]:
    """A style element in the head of one page."""
    for path, page in list(pages_of(site, unit).items())[:4]:
        changed = page.replace("</head>", "<style>[data-label] { display: none }</style></head>")
        yield Plant("a style element", path, changed.encode(), HIDDEN, unit)


def _sheet(site: Site) -> str:
    own = [path for path in site.files if path.endswith(".css")]
    return next((path for path in own if "guidegen" in path), own[0])


def _turn(site: Site, unit: str, place: int) -> tuple[str, Element]:
    """Return another element of another kind and page for each *place*."""
    pages = [(p, page) for p, page in pages_of(site, unit).items() if 'data-step="' in page]
    path, page = pages[place % len(pages)]
    marks = ("data-caution", "data-step", "data-fact", "data-text")
    found: list[Element] = []
    for turn in range(len(marks)):
        found = elements(page, marks[(place + turn) % len(marks)])
        found = [e for e in found if e.key != "identity.number"]
        if found:
            break
    return path, found[place % len(found)]
