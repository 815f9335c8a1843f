"""Timers that would run or judge as another truck's, and scripts that would say something else."""

import re
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import Element, Plant, elements, exchanged, pages_of, some

DIFFERS = frozenset({"timer-differs"})
VALUE = frozenset({"value-not-read-back", "value-missing"})
WORDS = frozenset({"script-words-differ"})
_SECONDS = re.compile(r'data-seconds="(\d+)"')


def timers_run_otherwise(site: Site, unit: str) -> Iterator[Plant]:
    """Another kind, other seconds, another bound or rig, and nothing to read at the end."""
    for path, timer in _timers(site, unit):
        for old, new in (
            ('data-timer-kind="stopwatch"', 'data-timer-kind="countdown"'),
            ('data-timer-kind="countdown"', 'data-timer-kind="stopwatch"'),
            ('data-timer-line="no_more_than', 'data-timer-line="less_than'),
            ('data-timer-line="less_than', 'data-timer-line="no_more_than'),
            ('.truck_alone" ', '.with_trailer" '),
            (' data-timer-reading="pressure_fall"', ""),
            (f'data-timer="{timer.key}"', 'data-timer="other.steps.step-1"'),
            (f' data-timer="{timer.key}"', ""),
        ):
            if old in timer.outer:
                page = timer.with_outer(timer.outer.replace(old, new, 1)).encode()
                rules = DIFFERS | {"text-missing", "timer-differs"}
                yield Plant(f"{timer.key}: {old} to {new}", path, page, rules, unit)
        for found in _SECONDS.finditer(timer.outer):
            for other in (f'data-seconds="{int(found[1]) + 1}"', 'data-seconds="900"', ""):
                outer = timer.outer[: found.start()] + other + timer.outer[found.end() :]
                what = f"{timer.key}: {found[0]} to {other}"
                yield Plant(what, path, timer.with_outer(outer).encode(), DIFFERS, unit)
        if not _SECONDS.search(timer.outer):
            continue
        outer = timer.outer.replace("data-timer-line=", 'data-seconds="1" data-timer-line=', 1)
        what = f"{timer.key}: seconds that nothing states"
        yield Plant(what, path, timer.with_outer(outer).encode(), DIFFERS, unit)


def timers_missing_or_too_many(site: Site, unit: str) -> Iterator[Plant]:
    """A timer gone, twice, at another step; and one where the guide has none."""
    for path, timer in _timers(site, unit):
        gone = timer.with_outer("").encode()
        yield Plant(f"no timer {timer.key}", path, gone, DIFFERS, unit)
        twice = timer.with_outer(timer.outer * 2).encode()
        yield Plant(f"timer {timer.key} twice", path, twice, DIFFERS, unit)
        others = [e for e in elements(timer.page, "data-step") if e.key != timer.key]
        for step in others[:1]:
            made_up = step.outer.replace("</li>", f"{timer.outer}</li>", 1)
            made_up = made_up.replace(timer.key, step.key)
            page = step.with_outer(made_up).encode()
            yield Plant(f"timer of {timer.key} at {step.key}", path, page, DIFFERS, unit)


def timer_limits_changed(site: Site, unit: str) -> Iterator[Plant]:
    """A limit of another truck, gone, in another measure, or in the place of another."""
    for path, timer in _timers(site, unit):
        lines = [e for e in elements(timer.page, "data-timer-line") if _is_in(e, timer)]
        for line in lines:
            rules = DIFFERS | VALUE
            page = line.with_outer("").encode()
            yield Plant(f"{timer.key}: no line {line.key}", path, page, rules, unit)
        values = [e for e in elements(timer.page, "data-fact") if _is_in(e, timer)]
        for value in values:
            for other in (
                *("2&nbsp;min", "7&nbsp;psi (48&nbsp;kPa)", ""),
                value.inner.replace("psi", "bar").replace("&nbsp;s", "&nbsp;min"),
                value.inner.replace("min", "s"),
            ):
                if other != value.inner:
                    page = value.with_inner(other).encode()
                    what = f"{timer.key}: {value.key} {value.inner} as {other}"
                    yield Plant(what, path, page, VALUE, unit)
        if len(lines) > 2:
            page = exchanged(lines[1], lines[2]).encode()
            what = f"{timer.key}: limits in each other's places"
            rules = VALUE | {"text-out-of-order", "text-repeated"}
            yield Plant(what, path, page, rules, unit)
            rigs = [e for e in elements(timer.page, "data-timer-word") if _is_in(e, timer)]
            rigs = [e for e in rigs if e.key in ("truck_alone", "with_trailer")]
            page = exchanged(rigs[0], rigs[1]).encode()
            what = f"{timer.key}: rigs exchanged"
            yield Plant(what, path, page, frozenset({"label-not-read-back"}), unit)


def script_words_changed(site: Site, unit: str) -> Iterator[Plant]:
    """Words of scripts changed, gone, made up, exchanged, or with markup in them."""
    for path, page in pages_of(site, unit).items():
        words = elements(page, "data-script-word")
        for word in some(words, 4):
            other = word.with_inner("All is in order.").encode()
            yield Plant(f"{word.key} says otherwise", path, other, WORDS, unit)
            gone = word.with_outer("").encode()
            yield Plant(f"no {word.key}", path, gone, WORDS, unit)
            twice = word.with_outer(word.outer * 2).encode()
            yield Plant(f"{word.key} twice", path, twice, WORDS, unit)
            for added in ("<b>Drive on.</b>", '<p data-script-word="x">Drive on.</p>', "Drive on."):
                more = word.with_outer(word.outer + added).encode()
                yield Plant(f"{added} in the template", path, more, WORDS, unit)
        if words:
            turned = exchanged(words[0], words[1]).encode()
            yield Plant("two words of scripts exchanged", path, turned, WORDS, unit)
        if not words and not path.endswith("/nav.html"):
            end = page.rindex("</div>")
            more_page = f"{page[:end]}<template data-script-words></template>{page[end:]}"
            strange = more_page.replace("-words></t", "-words><p>Drive on.</p></t")
            # The last division of a sheet of differences is its frame's.
            rules = WORDS | {"frame-differs"}
            yield Plant("a template where none is", path, strange.encode(), rules, unit)


def cautions_put_into_templates(site: Site, unit: str) -> Iterator[Plant]:
    """A caution that stands on the page for scripts alone."""
    for path, page in pages_of(site, unit).items():
        for caution in some(elements(page, "data-caution"), 1):
            hidden = f"<template>{caution.outer}</template>"
            rules = frozenset({"caution-missing"})
            yield Plant(caution.key, path, caution.with_outer(hidden).encode(), rules, unit)


def ways_back_broken(site: Site, unit: str) -> Iterator[Plant]:
    """A stop without its place, or with another's."""
    for path, page in pages_of(site, unit).items():
        for stop in some(elements(page, "data-stop"), 2):
            for new in ("", ' id="stop-99"'):
                outer = stop.outer.replace(f' id="stop-{stop.key}"', new, 1)
                what = f"stop {stop.key} with the place `{new}`"
                broken = frozenset({"link-broken"})
                yield Plant(what, path, stop.with_outer(outer).encode(), broken, unit)


def _timers(site: Site, unit: str) -> Iterator[tuple[str, Element]]:
    for path, page in pages_of(site, unit).items():
        for timer in elements(page, "data-timer"):
            yield path, timer


def _is_in(inner: Element, outer: Element) -> bool:
    return outer.start < inner.start and inner.end < outer.end
