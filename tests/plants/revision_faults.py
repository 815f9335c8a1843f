"""Start pages that tell of other revisions, or of other changes, than the record has."""

from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Plant, elements, exchanged, pages_of

DIFFERS = frozenset({"page-revision-differs"})
WORDS = frozenset({"label-not-read-back"})
UNCLAIMED = frozenset({"unclaimed-text", "unclaimed-mark"})


def revisions_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A revision, a change or a date gone, twice, made up, or at another's place."""
    path, page = _start(site, unit)
    entries = elements(page, "data-revision")
    for entry in entries:
        name = entry.key
        yield Plant(f"no revision {name}", path, entry.with_outer("").encode(), DIFFERS, unit)
        twice = entry.with_outer(entry.outer * 2).encode()
        yield Plant(f"revision {name} twice", path, twice, DIFFERS, unit)
        bare = entry.with_outer(entry.inner).encode()
        yield Plant(f"revision {name} without its element", path, bare, DIFFERS, unit)
        made_up = entry.outer.replace(f'"{name}', '"7').replace(f"Revision {name}", "Revision 7")
        changed = entry.with_outer(entry.outer + made_up).encode()
        yield Plant("a revision that is none", path, changed, DIFFERS | UNCLAIMED, unit)
    if len(entries) > 1:
        turned = entries[0].with_outer("")
        last = elements(turned, "data-revision")[-1]
        changed = last.with_outer(last.outer + entries[0].outer).encode()
        yield Plant("the newest revision last", path, changed, DIFFERS, unit)
    for mark in ("data-change", "data-revision-name", "data-revision-date"):
        for told in elements(page, mark):
            what = f'{mark}="{told.key}"'
            yield Plant(f"no {what}", path, told.with_outer("").encode(), DIFFERS, unit)
            twice = told.with_outer(told.outer * 2).encode()
            yield Plant(f"{what} twice", path, twice, DIFFERS, unit)


def revisions_changed(site: Site, unit: str) -> Iterator[Plant]:
    """A change in other words, hidden, under another revision, or in another order."""
    path, page = _start(site, unit)
    for mark in ("data-change", "data-revision-name", "data-revision-date"):
        for told in elements(page, mark):
            what = f'{mark}="{told.key}"'
            other = told.with_inner(_otherwise(told.inner)).encode()
            yield Plant(f"{what} says otherwise", path, other, WORDS, unit)
            hidden = told.with_attribute("hidden").encode()
            yield Plant(f"{what} hidden", path, hidden, frozenset({"text-hidden"}), unit)
            bare = told.with_outer(f"<p>{told.inner}</p>").encode()
            yield Plant(f"{what} without its mark", path, bare, DIFFERS | UNCLAIMED, unit)
    changes = elements(page, "data-change")
    if len(changes) > 1:
        changed = exchanged(changes[0], changes[1]).encode()
        yield Plant("two changes with each other's words", path, changed, WORDS, unit)
        first = changes[0].with_outer("")
        second = elements(first, "data-change", changes[1].key)[0]
        turned = second.with_outer(second.outer + changes[0].outer).encode()
        yield Plant("the gravest change second", path, turned, DIFFERS, unit)
    for key in ("revisions", "page_is", "first_revision"):
        for label in elements(page, "data-label", key):
            what = f"no label {key}"
            yield Plant(what, path, label.with_outer("").encode(), DIFFERS, unit)


def digits_of_cards_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Digits by which a card in hand would be judged wrongly."""
    path, page = _start(site, unit)
    entries = elements(page, "data-digits")
    for entry in entries:
        digits = entry.key
        other = digits[:-1] + ("0" if digits[-1] != "0" else "1")
        for what, told in (("other digits", other), ("no digits", ""), ("long", digits * 2)):
            tag = entry.outer.replace(f'data-digits="{digits}"', f'data-digits="{told}"', 1)
            changed = entry.with_outer(tag).encode()
            yield Plant(f"{what} for revision {digits}", path, changed, DIFFERS, unit)
        tag = entry.outer.replace(f' data-digits="{digits}"', "", 1)
        yield Plant("a revision without", path, entry.with_outer(tag).encode(), DIFFERS, unit)
    if len(entries) > 1:
        one, two = entries[0].key, entries[1].key
        turned = page.replace(f'data-digits="{one}"', 'data-digits="-"', 1)
        turned = turned.replace(f'data-digits="{two}"', f'data-digits="{one}"', 1)
        turned = turned.replace('data-digits="-"', f'data-digits="{two}"', 1)
        yield Plant("digits exchanged", path, turned.encode(), DIFFERS, unit)


def revisions_of_other_trucks(site: Site, unit: str) -> Iterator[Plant]:
    """What was released of another truck, also of one with the same guide."""
    path, page = _start(site, unit)
    own = _section(page)
    for guide in site.guides:
        if guide.number == unit:
            continue
        _, other = _start(site, guide.number)
        told = _section(other)
        if told == own:
            continue
        changed = page.replace(own, told).encode()
        yield Plant(f"revisions of {guide.number}", path, changed, DIFFERS | UNCLAIMED, unit)


def revisions_told_elsewhere(site: Site, unit: str) -> Iterator[Plant]:
    """What changed, on a page that is not the start page."""
    _, page = _start(site, unit)
    entry = elements(page, "data-revision")[0]
    for path, other in pages_of(site, unit).items():
        if path.endswith(("/index.html", "differences.html")) or "/from-" in path:
            continue
        body = elements(other, "data-guide")[0]
        changed = body.with_inner(body.inner + entry.outer).encode()
        yield Plant("a revision on another page", path, changed, UNCLAIMED | DIFFERS, unit)


def _start(site: Site, unit: str) -> tuple[str, str]:
    path = f"{unit}/index.html"
    return path, site.files[path].decode()


def _section(page: str) -> str:
    """Return the text from the line that says which revision it is to the last one's end."""
    label = elements(page, "data-label", "page_is")[0]
    return page[label.start : elements(page, "data-revision")[-1].end]


def _otherwise(words: str) -> str:
    """Return *words* with one digit or letter other."""
    for place, letter in enumerate(words):
        if letter.isdigit():
            return f"{words[:place]}{(int(letter) + 1) % 10}{words[place + 1 :]}"
    return f"{words} not"
