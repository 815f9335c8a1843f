"""Pages, links, contents, data rows, the search and the fleet page."""

import itertools
import json
from collections.abc import Iterator
from typing import Any

from hand_made_site import Site
from plants.plant import Element, Plant, elements, elements_of, letters, pages_of, some

from guidegen.specs.equipment import goes_without_saying

_ELSEWHERE = frozenset({"link-to-other-place"})
_SEARCH = frozenset({"search-text-differs"})


def files_missing_or_too_many(site: Site, unit: str) -> Iterator[Plant]:
    """A file gone, broken, empty or too many."""
    for path, raw in sorted(site.of_unit(unit).items()):
        yield Plant("gone", path, None, frozenset({"page-missing"}), unit)
        if path.endswith(".pdf"):
            continue  # what is in it is for the proof of paper
        broken = frozenset({"page-not-readable", "search-entry-missing", "picture-differs"})
        yield Plant("empty", path, b"", broken, unit)
        yield Plant("not UTF-8", path, raw + b"\xff\xfe", broken, unit)
    page = site.files[f"{unit}/data.html"]
    many = frozenset({"page-too-many"})
    yield Plant("a page too many", f"{unit}/on-fire.html", page, many, unit)
    yield Plant("an old file", f"{unit}/notes.txt", b"old", many, unit)
    yield Plant("an unknown truck", "ZZ-99/index.html", page, frozenset({"unknown-truck"}), unit)
    yield Plant("a guide in the root", "old.html", page, many | {"link-broken"}, unit)
    body = elements(page.decode(), "data-guide")[0]
    twice = body.with_outer(body.outer * 2).encode()
    broken = frozenset({"page-not-readable"})
    yield Plant("two bodies", f"{unit}/data.html", twice, broken, unit)
    unmarked = page.replace(b"data-guide=", b"data-guise=")
    yield Plant("no body", f"{unit}/data.html", unmarked, broken, unit)
    for name in ("data-edition", "data-page"):
        changed = page.replace(f'{name}="'.encode(), f'{name}="0'.encode(), 1)
        rules = frozenset({"identity-differs"})
        yield Plant(f"another {name}", f"{unit}/data.html", changed, rules, unit)


def cards_on_the_start_page(site: Site, unit: str) -> Iterator[Plant]:
    """Ways to printed cards that are missing, made up or lead to another card."""
    path = f"{unit}/index.html"
    page = site.files[path].decode()
    contents = frozenset({"contents-differ"})
    ways = elements(page, "data-card")
    body = elements(page, "data-guide")[0]
    made_up = '<a class="gg-row" href="cards/old.pdf" data-card="old">Old card</a>'
    added = body.with_inner(body.inner + made_up).encode()
    yield Plant("a card that is none", path, added, contents, unit)
    for way in ways:
        yield Plant(f"no way to {way.key}", path, way.with_outer("").encode(), contents, unit)
        other = way.with_outer(way.outer.replace(f"cards/{way.key}.pdf", "cards/x.pdf"))
        yield Plant(f"{way.key} elsewhere", path, other.encode(), _ELSEWHERE, unit)
        renamed = way.with_inner("Another card").encode()
        yield Plant(f"{way.key} renamed", path, renamed, frozenset({"label-not-read-back"}), unit)


def addresses_outside(site: Site, unit: str) -> Iterator[Plant]:
    """Requests to another origin from pages and stylesheets.

    A style within a page is refused for what it is, whatever it asks for.
    """
    rules = frozenset({"request-to-other-origin", "inline-script-or-style"})
    for path, page in list(pages_of(site, unit).items())[:3]:
        for extra in (
            '<script src="https://cdn.example/x.js"></script>',
            '<link rel="stylesheet" href="//fonts.example/css">',
            '<link rel="preconnect" href="https://fonts.example">',
            '<img src="http://example.net/x.png" alt="">',
            "<script>fetch('https://example.net/count')</script>",
            '<meta http-equiv="refresh" content="0;url=x.html">',
            '<base href="https://example.net/">',
            '<a href="javascript:alert(1)">x</a>',
            "<style>@import url(https://example.net/x.css);</style>",
        ):
            changed = page.replace("</head>", f"{extra}</head>", 1).encode()
            yield Plant(extra, path, changed, rules, unit)
        body = elements(page, "data-guide")[0]
        changed = body.with_inner('<img src="https://example.net/x" alt="">' + body.inner).encode()
        yield Plant("a picture from outside in the body", path, changed, rules, unit)
    sheet = next(path for path in sorted(site.files) if path.endswith(".css"))
    for extra in (
        "p { background: url(https://example.net/x.png) }",
        '@import "https://example.net/x.css";',
        "@font-face { font-family: x; src: url('//example.net/f.woff2') }",
        "@media print { p { background: url(https://example.net/y) } }",
    ):
        changed = f"{extra}\n".encode() + site.files[sheet]
        yield Plant(extra, sheet, changed, rules, unit)


def written_into_pages(site: Site, unit: str) -> Iterator[Plant]:
    """Scripts and styles that stand in a page and in no file of the site."""
    rules = frozenset({"inline-script-or-style"})
    for path, page in list(pages_of(site, unit).items())[:3]:
        for where, extra in (
            ("</head>", "<script>document.title</script>"),
            ("</head>", '<script type="module">1</script>'),
            ("</head>", "<style>p { top: 0 }</style>"),
            ("</main>", "<svg><style>path { r: 1 }</style></svg></main>"),
            ("</main>", '<p style="top: 0"></p></main>'),
            ("</main>", '<p onclick="x()"></p></main>'),
            ("</main>", '<svg onload="x()"></svg></main>'),
            ("</main>", '<iframe srcdoc="x"></iframe></main>'),
        ):
            changed = page.replace(where, extra if where in extra else extra + where, 1)
            yield Plant(extra, path, changed.encode(), rules, unit)
    changed_page = site.files["index.html"].replace(b"</head>", b"<script>1</script></head>", 1)
    yield Plant("in the fleet page", "index.html", changed_page, rules, "")


def tools_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The bar: its revision, and what it leads to."""
    rules = frozenset({"contents-differ"})
    named = frozenset({"identity-differs"})
    for path, page in list(pages_of(site, unit).items())[:3]:
        tools = next(e for e in elements_of(page, "nav") if "data-guide-tools" in _start_tag(e))
        no_mark = page.replace("data-guide-tools", "data-x", 1).encode()
        yield Plant("no tools", path, no_mark, rules, unit)
        yield Plant("empty tools", path, tools.with_inner("").encode(), rules, unit)
        for link in elements_of(page, "a"):
            if tools.start < link.start < tools.end:
                address = _address(link)
                yield Plant(f"no {address}", path, link.with_outer("").encode(), rules, unit)
                outer = link.outer.replace(f'href="{address}"', 'href="data.html"', 1)
                elsewhere = frozenset({"link-to-other-place"})
                what = f"{address} elsewhere"
                yield Plant(what, path, link.with_outer(outer).encode(), elsewhere, unit)
        revision = next(e for e in elements_of(page, "b") if "data-issue" in _start_tag(e))
        yield Plant("another revision", path, revision.with_inner("0").encode(), named, unit)
        yield Plant("no revision", path, revision.with_outer("").encode(), named, unit)


def links_broken(site: Site, unit: str) -> Iterator[Plant]:
    """Links to nowhere, to the wrong place, to another truck."""
    other = next(guide.number for guide in site.guides if guide.number != unit)
    broken, astray = frozenset({"link-broken"}), frozenset({"link-to-other-place"})
    for path, page in pages_of(site, unit).items():
        marked = elements(page, "data-chapter") + elements(page, "data-procedure-link")
        for link in some([each for each in marked if _address(each)], 4):
            address = _address(link)
            for what, target, rules in (
                ("to nowhere", "no-such-page.html", broken | astray),
                ("to a place that is not there", f"{address}-x", broken | astray),
                ("to the data", "data.html", astray),
                ("to another truck", f"../{other}/index.html", frozenset({"foreign-identity"})),
                ("from the root", f"/{unit}/index.html", broken),
            ):
                outer = link.outer.replace(f'href="{address}"', f'href="{target}"', 1)
                changed = link.with_outer(outer).encode()
                yield Plant(f"{link.key} {what}", path, changed, rules, unit)


def ids_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The place of a procedure under another name, or twice."""
    rules = frozenset({"link-broken"})
    for path, page in pages_of(site, unit).items():
        for procedure in some(elements(page, "data-procedure"), 2):
            changed = page.replace(f' id="{procedure.key}"', "", 1)
            yield Plant(f"no id {procedure.key}", path, changed.encode(), rules, unit)
            twice = page.replace("</main>", f'<p id="{procedure.key}"></p></main>', 1)
            yield Plant(f"two ids {procedure.key}", path, twice.encode(), rules, unit)


def contents_left_out(site: Site, unit: str) -> Iterator[Plant]:
    """A chapter or a procedure that the contents leave out."""
    rules = frozenset({"contents-differ"})
    for path, page in pages_of(site, unit).items():
        chapters = [e for e in elements(page, "data-chapter") if not _is_loose(page, e.start)]
        # Stops of a round, keys of a quiz and lamps are no contents, and have faults of their own.
        is_other = path.endswith(("/round.html", "/quiz.html", "/lamp-finder.html"))
        procedures = [] if is_other else elements(page, "data-procedure-link")
        for links in (chapters, procedures):
            for link in some([each for each in links if _address(each)], 2):
                gone = link.with_outer("").encode()
                yield Plant(f"{link.key} left out", path, gone, rules, unit)


def _start_tag(element: Element) -> str:
    return element.page[element.start : element.inner_start]


def _address(link: Element) -> str:
    start_tag = _start_tag(link)
    return start_tag.split('href="')[1].split('"')[0] if 'href="' in start_tag else ""


def _is_loose(page: str, position: int) -> bool:
    """Whether a chapter link stands where any may: in the body of another page than the start."""
    return elements(page, "data-guide")[0].start < position and 'data-page="start"' not in page


def data_rows_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Rows, labels and sources of the data page."""
    path = f"{unit}/data.html"
    page = site.files[path].decode()
    for row in some(elements(page, "data-row"), 5):
        gone = row.with_outer("").encode()
        yield Plant(f"{row.key} gone", path, gone, frozenset({"value-missing"}), unit)
        twice = row.with_outer(row.outer * 2).encode()
        yield Plant(f"{row.key} twice", path, twice, frozenset({"text-repeated"}), unit)
    for source in some(elements(page, "data-source"), 4):
        for words in ("maker", "from the model file", f"{source.inner} or so", ""):
            changed = source.with_inner(words).encode()
            yield Plant(f"source {words}", path, changed, frozenset({"source-differs"}), unit)
    for one, two in list(itertools.pairwise(elements(page, "data-fact-label")))[:3]:
        changed = one.with_inner(two.inner).encode()
        rules = frozenset({"label-not-read-back"})
        yield Plant(f"{one.key} called {two.inner}", path, changed, rules, unit)


def data_sections_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Headings and columns of the data page, and what is not fitted."""
    path = f"{unit}/data.html"
    page = site.files[path].decode()
    fitting = frozenset({"fitting-differs"})
    absent = {each.key for each in elements(page, "data-absent")}
    for one in some(elements(page, "data-absent"), 2):
        if goes_without_saying(one.key) not in absent:
            yield Plant(f"{one.key} left out", path, one.with_outer("").encode(), fitting, unit)
        yield Plant(f"{one.key} twice", path, one.with_outer(one.outer * 2).encode(), fitting, unit)
        section = elements(page, "data-section")[1]
        claimed = f'<li data-absent="{section.key}">{section.inner}</li>'
        changed = page[: one.start] + claimed + page[one.start :]
        yield Plant(f"{section.key} as not fitted", path, changed.encode(), fitting, unit)
        elsewhere = page[: section.start] + one.outer + page[section.start :]
        yield Plant("not fitted, elsewhere", path, elsewhere.encode(), fitting, unit)
    for one in some(elements(page, "data-section"), 2):
        rules = frozenset({"text-missing"})
        yield Plant(f"no heading {one.key}", path, one.with_outer("").encode(), rules, unit)
    value, source = (elements(page, "data-label", key)[0] for key in ("value", "source"))
    changed = page[: value.start] + source.outer + page[value.end : source.start] + value.outer
    changed += page[source.end :]
    yield Plant("columns exchanged", path, changed.encode(), frozenset({"label-misplaced"}), unit)


def search_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Words, digits and entries of the data of the search."""
    entries = _search(site, unit)["docs"]
    with_text = [place for place, entry in enumerate(entries) if entry["text"]]
    for place in with_text[:3] + with_text[-1:]:
        entry = entries[place]
        text = entry["text"]
        digit = next((at for at, each in enumerate(text) if each.isdigit()), None)
        changes = {
            "a word": text.replace(" the ", " no ", 1),
            "a sentence gone": text.partition(". ")[2],
            "a sentence more": f"{text} Drive on.",
            "a signal word": text.replace("WARNING", "NOTICE").replace("DANGER", "NOTICE"),
        }
        for what, changed in changes.items():
            if changed != text:
                yield _index(site, unit, place, {**entry, "text": changed}, (what, _SEARCH))
        if digit is not None:
            other = str((int(text[digit]) + 1) % 10)
            changed = text[:digit] + other + text[digit + 1 :]
            rules = _SEARCH | {"value-not-read-back", "identity-differs"}
            yield _index(site, unit, place, {**entry, "text": changed}, ("a digit", rules))
        renamed = {**entry, "title": entry["title"] + " again"}
        yield _index(site, unit, place, renamed, ("a title", _SEARCH | {"value-not-read-back"}))
        missing = frozenset({"search-entry-missing"})
        yield _index(site, unit, place, None, ("an entry gone", missing))
        elsewhere = {**entry, "location": "data.html#x"}
        yield _index(site, unit, place, elsewhere, ("another place", missing))


def search_entries_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Another truck's entries, another order, another form."""
    path = f"{unit}/search-data.js"
    index = _search(site, unit)
    entries = index["docs"]
    many = frozenset({"search-entry-too-many"})
    foreign = {"location": "gas.html#gas-check", "title": "Check the gas", "text": "x"}
    broken = frozenset({"page-not-readable"})
    start = frozenset({"search-text-differs", "identity-differs", "search-entry-missing"})
    for what, changed, rules in (
        ("a foreign entry", {**index, "docs": [*entries, foreign]}, many),
        ("an entry twice", {**index, "docs": [*entries, entries[-1]]}, many),
        ("another order", {**index, "docs": [entries[0], *entries[:0:-1]]}, _SEARCH),
        ("no start page", {**index, "docs": entries[1:]}, start),
        ("a start page that says more", _started(index, "110 psi"), start),
        ("no list", {"docs": {}}, broken),
        ("more than entries", {**index, "items": []}, broken),
        ("tags", {**index, "docs": [{**e, "tags": ["x"]} for e in entries]}, broken),
    ):
        yield Plant(f"search: {what}", path, _script(changed), rules, unit)
    sound = site.files[path]
    for what, raw in (
        ("no script", sound.replace(b"window.guideSearch=", b"")),
        ("a script behind the data", sound + b"document.body.textContent='';"),
        ("a script before the data", b"alert(1);" + sound),
        ("a call in the data", sound.replace(b'"docs"', b'[alert(1)]: 1, "docs"', 1)),
    ):
        yield Plant(f"search: {what}", path, raw, broken, unit)
    for other in site.guides:
        if other.number != unit:
            extra = _search(site, other.number)["docs"][-1]
            changed = {**index, "docs": [*entries, {**extra, "location": f"x-{other.number}"}]}
            rules = many | {"foreign-identity"}
            what = f"search: an entry of {other.number}"
            yield Plant(what, path, _script(changed), rules, unit)


def fleet_page_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Trucks that are not listed, listed twice, hidden or called by another name."""
    path = "index.html"
    page = site.files[path].decode()
    link = next(
        each
        for each in elements(page, "href")
        if each.outer.startswith("<a") and f'"{unit}/index.html"' in each.outer
    )
    entry = next(e for e in elements(page, "data-unit", unit) if e.start <= link.start < e.end)
    other = next(guide for guide in site.guides if guide.number != unit)
    unlisted = frozenset({"truck-not-listed"})
    named = frozenset({"identity-differs"})
    for what, changed, rules in (
        ("gone", entry.with_outer(""), unlisted),
        ("twice", entry.with_outer(entry.outer * 2), {"truck-listed-twice"}),
        ("hidden", entry.with_attribute("hidden"), unlisted),
        ("shrunk", entry.with_attribute('style="font-size:0"'), unlisted),
        (
            "to another",
            page.replace(f'"{unit}/index.html"', f'"{other.number}/index.html"'),
            unlisted,
        ),
        ("to nowhere", page.replace(f'"{unit}/index.html"', f'"{unit}/x.html"'), unlisted),
        ("by another number", page.replace(f">{unit}<", f">{other.number}<"), named),
        ("without a number", page.replace(f">{unit}<", "><"), named),
        ("with words", entry.with_inner(f"{entry.inner} in the shop"), named),
        ("of another make", entry.with_inner(entry.inner.replace("</span>", "x</span>", 1)), named),
        (
            "found by another VIN",
            entry.with_outer(entry.outer.replace('data-find="', 'data-find="1zz ', 1)),
            named,
        ),
        (
            "in a request",
            page.replace("</main>", '<img src="https://e.net/x"></main>'),
            {"request-to-other-origin"},
        ),
    ):
        yield Plant(f"{unit} {what}", path, changed.encode(), frozenset(rules), unit)
    yield Plant("no fleet page", path, None, frozenset({"page-missing"}), unit)
    for number in site.held_back[:1]:
        left_out = page.replace(f">{number}<", "><").encode()
        yield Plant("a truck without a guide left out", path, left_out, unlisted, unit)


def contents_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The navigation gone, or in other words."""
    rules = frozenset({"contents-differ", "label-not-read-back", "unclaimed-text"})
    for path, page in list(pages_of(site, unit).items())[:3]:
        navigation = page.index("data-guide-nav")
        changed = page[:navigation] + page[navigation:].replace("data-guide-nav", "data-x", 1)
        gone = frozenset({"contents-differ", "unclaimed-mark"})
        yield Plant("no navigation", path, changed.encode(), gone, unit)
        for mark in ("data-chapter", "data-label"):
            link = next(each for each in elements(page, mark) if each.start > navigation)
            start, end = letters(link)
            changed = page[:start] + "Cards" + page[end:]
            yield Plant(f"{link.key} called Cards", path, changed.encode(), rules, unit)
            changed = link.with_outer(link.outer + "<li>120 psi</li>")
            yield Plant("words in the navigation", path, changed.encode(), rules, unit)
            yield Plant(f"no link {link.key}", path, link.with_outer("").encode(), rules, unit)


def _started(index: dict[str, Any], text: str) -> dict[str, Any]:
    first, *others = index["docs"]
    return {**index, "docs": [{**first, "text": text}, *others]}


def _index(
    site: Site,
    unit: str,
    place: int,
    entry: dict[str, str] | None,
    why: tuple[str, frozenset[str]],
) -> Plant:
    path = f"{unit}/search-data.js"
    index = _search(site, unit)
    index["docs"][place : place + 1] = [] if entry is None else [entry]
    what, rules = why
    return Plant(f"search: {what}", path, _script(index), rules, unit)


_BEFORE, _AFTER = "window.guideSearch=", ";"


def _search(site: Site, unit: str) -> Any:  # noqa: ANN401 -- JSON
    text = site.files[f"{unit}/search-data.js"].decode().strip()
    return json.loads(text.removeprefix(_BEFORE).removesuffix(_AFTER))


def _script(data: object) -> bytes:
    return f"{_BEFORE}{json.dumps(data)}{_AFTER}".encode()
