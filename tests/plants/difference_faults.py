"""Difference sheets, and the pages on which a driver picks the truck that he knows."""

import itertools
import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, exchanged, moved, pages_of, some

_VALUE = frozenset({"value-not-read-back", "identity-differs"})
_SIDE = frozenset({"side-not-told"})
_DIGIT = re.compile(r"[0-9]")


def sheets_of(site: Site, unit: str) -> dict[str, str]:
    """Return the difference sheets of one unit by path."""
    return {path: page for path, page in pages_of(site, unit).items() if "/from-" in path}


def differences_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A difference gone, or emptied."""
    missing = frozenset({"difference-missing"})
    for path, page in sheets_of(site, unit).items():
        for row in some(elements(page, "data-difference"), 4):
            yield Plant(f"{row.key} gone", path, row.with_outer("").encode(), missing, unit)
            other = row.with_attribute('hidden=""').encode()
            hidden = frozenset({"text-hidden", "value-hidden"})
            yield Plant(f"{row.key} hidden", path, other, hidden, unit)


def differences_added(site: Site, unit: str) -> Iterator[Plant]:
    """A difference twice, or one that is none."""
    none = frozenset({"difference-that-is-none"})
    for path, page in sheets_of(site, unit).items():
        for row in some(elements(page, "data-difference"), 3):
            twice = row.with_outer(row.outer * 2).encode()
            yield Plant(f"{row.key} twice", path, twice, none, unit)
            made_up = row.outer.replace(f'"{row.key}"', '"value.seat.kind-of"', 1)
            added = row.with_outer(row.outer + made_up).encode()
            yield Plant(f"{row.key} under another name too", path, added, none, unit)


def differences_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """Two differences in each other's place; the last first."""
    order = frozenset({"difference-out-of-order"})
    for path, page in sheets_of(site, unit).items():
        rows = elements(page, "data-difference")
        for first, second in list(itertools.pairwise(rows))[:3]:
            turned = _outers_exchanged(first, second).encode()
            yield Plant(f"{first.key} after {second.key}", path, turned, order, unit)
        if len(rows) > 1:
            first_is_last = moved(rows[-1], rows[0].start).encode()
            yield Plant(f"{rows[-1].key} first", path, first_is_last, order, unit)


def _outers_exchanged(first: Element, second: Element) -> str:
    page = first.page
    between = page[first.end : second.start]
    return page[: first.start] + second.outer + between + first.outer + page[second.end :]


def sides_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """The value of one truck under the number of the other."""
    for path, page in sheets_of(site, unit).items():
        for row in _with_both_values(page):
            known, given = _sides(row, row.key.partition(".")[2])
            turned = exchanged(known, given).encode()
            yield Plant(f"values of {row.key} exchanged", path, turned, _VALUE, unit)
            known, given = _sides(row, "identity.number")
            turned = _outers_exchanged(known, given).encode()
            yield Plant(f"trucks of {row.key} exchanged", path, turned, _SIDE, unit)
            turned = exchanged(known, given).encode()
            yield Plant(f"numbers in {row.key} exchanged", path, turned, _VALUE, unit)


def _with_both_values(page: str) -> list[Element]:
    rows = [each for each in elements(page, "data-difference") if each.key.startswith("value.")]
    both = [e for e in rows if e.inner.count(f'fact="{e.key.partition(".")[2]}"') == 2]
    return some([row for row in both if all(_sides(row, row.key.partition(".")[2]))], 3)


def _sides(row: Element, fact: str) -> tuple[Element, Element]:
    known = next(e for e in elements(row.page, "data-known-fact", fact) if row.start < e.start)
    given = next(e for e in elements(row.page, "data-fact", fact) if known.end <= e.start)
    return known, given


def sides_untold(site: Site, unit: str) -> Iterator[Plant]:
    """A value without the number of its truck; what only one truck has, told of the other."""
    for path, page in sheets_of(site, unit).items():
        rows = {each.key: each for each in elements(page, "data-difference")}
        for name in ("data-known-fact", "data-fact"):
            numbers = [e for e in elements(page, name, "identity.number") if _in(e, rows)]
            for number in some(numbers, 2):
                what = f"{name} without a number"
                yield Plant(what, path, number.with_outer("").encode(), _SIDE, unit)
        for label in some(elements(page, "data-label", "on"), 1):
            yield Plant("no `on`", path, label.with_outer("").encode(), _SIDE, unit)
        for label in some(elements(page, "data-label", "only_on"), 2):
            yield Plant("no `only on`", path, label.with_outer("").encode(), _SIDE, unit)
            turned = _told_of_the_other(page, label)
            yield Plant("only on the other", path, turned.encode(), _SIDE, unit)
        for name in ("known_truck", "given_truck"):
            label = elements(page, "data-label", name)[0]
            yield Plant(f"no `{name}`", path, label.with_outer("").encode(), _SIDE, unit)


def _in(element: Element, rows: dict[str, Element]) -> bool:
    return any(row.start < element.start < row.end for row in rows.values())


def _told_of_the_other(page: str, label: Element) -> str:
    """Put the number of the other truck, in its own element, after *label*."""
    known = elements(page, "data-known-fact", "identity.number")[0].outer
    given = next(
        each.outer
        for each in elements(page, "data-fact", "identity.number")
        if each.start > elements(page, "data-known")[0].start
    )
    after = [
        each
        for name in ("data-known-fact", "data-fact")
        for each in elements(page, name, "identity.number")
        if each.start >= label.end
    ]
    number = min(after, key=lambda each: each.start)
    return number.with_outer(given if "data-known-fact" in number.outer else known)


def fittings_turned(site: Site, unit: str) -> Iterator[Plant]:
    """A thing that is fitted told as not fitted, and the other way round."""
    words = {"fitted": "Fitted", "not_fitted": "Not fitted", "not_on_record": "Not on record"}
    turned = {"fitted": "not_fitted", "not_fitted": "fitted", "not_on_record": "not_fitted"}
    rules = frozenset({"fitting-differs"})
    for path, page in sheets_of(site, unit).items():
        for key, other in turned.items():
            for label in some(elements(page, "data-label", key), 2):
                outer = label.outer.replace(f'"{key}"', f'"{other}"', 1)
                outer = outer.replace(words[key], words[other], 1)
                changed = label.with_outer(outer).encode()
                yield Plant(f"{key} told as {other}", path, changed, rules, unit)


def known_values_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Another digit, or another word, for the truck that the driver knows."""
    for path, page in sheets_of(site, unit).items():
        values = [e for e in elements(page, "data-known-fact") if _DIGIT.search(e.inner)]
        for value in some(values, 4):
            other = _DIGIT.sub(lambda digit: "1" if digit[0] != "1" else "7", value.inner, count=1)
            what = f"{value.key} as {other}"
            yield Plant(what, path, value.with_inner(other).encode(), _VALUE, unit)
        texts = elements(page, "data-known-text")
        for text in some(texts, 2):
            rules = frozenset({"text-not-read-back"})
            other = f"{text.inner.rstrip('.')} twice"
            what = f"{text.key} with a word more"
            yield Plant(what, path, text.with_inner(other).encode(), rules, unit)


def known_marks_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """A value of one truck under the marks of the other; a text likewise."""
    rules = _VALUE | {"unclaimed-mark", "value-missing", "side-not-told", "text-missing"}
    rules |= {"step-that-does-not-apply"}
    for path, page in sheets_of(site, unit).items():
        for known, given in (("data-known-fact", "data-fact"), ("data-known-text", "data-text")):
            for old, new in ((known, given), (given, known)):
                body = elements(page, "data-guide")[0]
                marked = [e for e in elements(page, old) if body.start < e.start]
                for element in some(marked, 2):
                    outer = element.outer.replace(f" {old}=", f" {new}=", 1)
                    what = f"{old} {element.key} as {new}"
                    yield Plant(what, path, element.with_outer(outer).encode(), rules, unit)


def known_trucks_named_elsewhere(site: Site, unit: str) -> Iterator[Plant]:
    """The known truck's number once too often, its papers, or a third truck."""
    foreign = frozenset({"foreign-identity"})
    for path, page in sheets_of(site, unit).items():
        known = path.partition("/from-")[2].removesuffix(".html")
        facts = site.guide(known).facts
        others = [each.number for each in site.guides if each.number not in (known, unit)]
        for what in (known, str(facts["identity.vin"].value), *others[:1]):
            for place, changed in _with_word(page, what):
                yield Plant(f"{what} {place}", path, changed.encode(), foreign, unit)
        for number in some(elements(page, "data-known-fact", "identity.number"), 2):
            for other in others[:1]:
                named = number.with_inner(other).encode()
                yield Plant(f"{other} for {known}", path, named, foreign | _VALUE, unit)


def _with_word(page: str, word: str) -> Iterator[tuple[str, str]]:
    yield "in a comment", page.replace("</body>", f"<!-- {word} --></body>", 1)
    yield "in the title", page.replace("</title>", f" {word}</title>", 1)
    value = elements(page, "data-known-fact")[0]
    yield "in a class of a known value", value.with_attribute(f'class="{word}"')
    yield "in a known value's own words", value.with_outer(f"{value.outer} {word}")


def sheet_headings_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Headings and reasons gone, moved, or over other differences; contents likewise."""
    rules = frozenset({"text-missing", "label-misplaced", "contents-differ", "link-to-other-place"})
    for path, page in sheets_of(site, unit).items():
        for name in ("data-rank", "data-reason"):
            for heading in some(elements(page, name), 3):
                what = f"{name} {heading.key} gone"
                yield Plant(what, path, heading.with_outer("").encode(), rules, unit)
        reasons = elements(page, "data-reason")
        if len({each.key for each in reasons}) > 1:
            turned = _outers_exchanged(reasons[0], reasons[-1]).encode()
            yield Plant("two reasons exchanged", path, turned, rules, unit)
        links = re.findall(r'href="(#rank-[a-z]+)"', page)
        for link, other in list(itertools.pairwise(links))[:2]:
            changed = page.replace(f'href="{link}"', f'href="{other}"', 1).encode()
            yield Plant(f"{link} leads to {other}", path, changed, rules, unit)


def sheet_warnings_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """What every sheet must say of itself."""
    rules = frozenset({"text-missing"})
    for path, page in sheets_of(site, unit).items():
        for key in ("park_first", "handbook_first", "no_substitute", "on_record_only"):
            label = elements(page, "data-label", key)[0]
            yield Plant(f"no `{key}`", path, label.with_outer("").encode(), rules, unit)
        for label in elements(page, "data-label", "no_differences"):
            yield Plant("nothing said", path, label.with_outer("").encode(), rules, unit)


def sheets_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """The sheet of another pair of trucks, of the other way, too many or too few."""
    differs = frozenset({"identity-differs"})
    sheets = sheets_of(site, unit)
    for path, other in itertools.pairwise(sheets):
        yield Plant(f"{other} for it", path, sheets[other].encode(), differs, unit)
    for path in list(sheets)[:2]:
        known = path.partition("/from-")[2].removesuffix(".html")
        back = site.files.get(f"{known}/from-{unit}.html")
        if back is not None:
            yield Plant("the sheet of the way back", path, back, differs, unit)
        many, extra = frozenset({"page-too-many"}), f"{unit}/from-{unit}.html"
        yield Plant("a sheet from itself", extra, site.files[path], many, unit)
        for name in ("data-known", "data-known-edition"):
            changed = re.sub(rf'({name})="[^"]*"', r'\1="X-1"', sheets[path], count=1).encode()
            yield Plant(f"another {name}", path, changed, differs, unit)


def pickers_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Trucks that are missing, twice, named as another or lead to another's sheet."""
    path = f"{unit}/differences.html"
    page = site.files[path].decode()
    trucks = elements(page, "data-truck")
    listed = frozenset({"truck-listed-twice", "truck-not-listed", "identity-differs"})
    for truck in some(trucks, 3):
        gone = truck.with_outer("").encode()
        yield Plant(f"{truck.key} gone", path, gone, frozenset({"truck-not-listed"}), unit)
        twice = truck.with_outer(truck.outer * 2).encode()
        yield Plant(f"{truck.key} twice", path, twice, listed, unit)
        own = truck.outer.replace(truck.key, unit)
        added = truck.with_outer(truck.outer + own).encode()
        yield Plant("the truck itself", path, added, listed | {"unknown-truck"}, unit)
        for value in elements(page, "data-known-fact"):
            if truck.start < value.start < truck.end:
                changed = value.with_inner(f"{value.inner}x").encode()
                yield Plant(f"{value.key} of {truck.key} changed", path, changed, _VALUE, unit)
    links = re.findall(r'href="(from-[^"]+)"', page)
    wrong = frozenset({"link-to-other-place", "link-broken"})
    for link in dict.fromkeys(links):
        for other in ("index.html", "from-nowhere.html"):
            changed = page.replace(f'href="{link}"', f'href="{other}"', 1).encode()
            yield Plant(f"{link} leads to {other}", path, changed, wrong, unit)
    vin = str(site.guide(trucks[0].key).facts["identity.vin"].value)
    changed = page.replace("</body>", f"<!-- {vin} --></body>").encode()
    yield Plant("papers of a known truck", path, changed, frozenset({"foreign-identity"}), unit)
    for name in ("pick_known", "handbook_first", "park_first"):
        for label in elements(page, "data-label", name):
            rules = frozenset({"text-missing"})
            yield Plant(f"no `{name}`", path, label.with_outer("").encode(), rules, unit)
