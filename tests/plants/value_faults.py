"""Values that are wrong, missing, hidden or another truck's."""

import itertools
import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Plant, elements, exchanged, pages_of, some

VALUE = frozenset({"value-not-read-back", "value-converted-wrongly", "identity-differs"})
_DIGIT = re.compile(r"[0-9](?![0-9]*;)")


def digits_changed(site: Site, unit: str) -> Iterator[Plant]:
    """One digit of the first and of the second amount, on every page."""
    for path, page in pages_of(site, unit).items():
        with_digits = [
            each
            for each in elements(page, "data-fact")
            if each.key != "identity.number" and "<" not in each.inner and _DIGIT.search(each.inner)
        ]
        for value in some(with_digits, 4):
            found = list(_DIGIT.finditer(value.inner))
            for digit in {found[0].start(): found[0], found[-1].start(): found[-1]}.values():
                other = str((int(digit[0]) + 1) % 10)
                inner = value.inner[: digit.start()] + other + value.inner[digit.end() :]
                what = f"digit of {value.key}: {value.inner} to {inner}"
                yield Plant(what, path, value.with_inner(inner).encode(), VALUE, unit)


def values_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """Two values in each other's places."""
    for path, page in pages_of(site, unit).items():
        values = [each for each in elements(page, "data-fact") if "<" not in each.inner]
        pairs = [
            (one, two)
            for one, two in itertools.pairwise(values)
            if one.inner != two.inner and one.key != two.key
        ]
        for one, two in pairs[:2] + pairs[-1:]:
            what = f"{one.key} and {two.key} exchanged"
            yield Plant(what, path, exchanged(one, two).encode(), VALUE, unit)


def marks_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """The mark of one value on another."""
    for path, page in pages_of(site, unit).items():
        values = [each for each in elements(page, "data-fact") if "<" not in each.inner]
        for one, two in [
            (one, two)
            for one, two in itertools.pairwise(values)
            if one.inner != two.inner and one.key != two.key
        ][:1]:
            changed = one.with_outer(one.outer.replace(f'"{one.key}"', f'"{two.key}"', 1))
            rules = VALUE | {"text-not-read-back", "value-missing", "text-repeated"}
            yield Plant(f"{one.key} marked {two.key}", path, changed.encode(), rules, unit)


def amounts_misprinted(site: Site, unit: str) -> Iterator[Plant]:
    """The second amount gone, the first alone, another measure, another spelling."""
    for path, page in pages_of(site, unit).items():
        pairs = [each for each in elements(page, "data-fact") if " (" in each.inner]
        for value in pairs[:1]:
            first, _, second = value.inner.partition(" (")
            for inner in (
                first,
                second.rstrip(")"),
                f"{second.rstrip(')')} ({first})",
                value.inner.replace("psi", "bar").replace("qt", "gal").replace("kPa", "bar"),
                value.inner.replace("(", "[").replace(")", "]"),
                f"about {value.inner}",
                value.inner.replace("(", "(-"),
            ):
                if inner != value.inner:
                    changed = value.with_inner(inner).encode()
                    yield Plant(f"{value.inner} as {inner}", path, changed, VALUE, unit)


def values_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A value's words gone; the whole element gone; only its mark gone."""
    rules = VALUE | {"text-not-read-back", "value-missing", "text-missing", "unclaimed-text"}
    rules |= {"label-misplaced", "identity-differs"}
    for path, page in pages_of(site, unit).items():
        values = [e for e in elements(page, "data-fact") if e.key not in _MAY_BE_LEFT_OUT]
        for value in some(values):
            yield Plant(f"{value.key} empty", path, value.with_inner("").encode(), rules, unit)
            unmarked = value.outer.replace(f' data-fact="{value.key}"', "", 1)
            what = f"{value.key} without its mark"
            yield Plant(what, path, value.with_outer(unmarked).encode(), rules, unit)
            if "start" not in path and not path.endswith("index.html"):
                what = f"{value.key} gone"
                yield Plant(what, path, value.with_outer("").encode(), rules, unit)


_MAY_BE_LEFT_OUT = ("identity.make", "identity.model_name", "identity.year", "identity.body")
