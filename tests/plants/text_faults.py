"""Steps, cautions and other texts that are wrong, missing, moved or too many."""

import itertools
from collections.abc import Iterator

from hand_made_site import Site
from plants.plant import (
    Element,
    Plant,
    elements,
    elements_of,
    exchanged,
    letters,
    moved,
    pages_of,
    some,
)

_OTHER_SIGNAL = {
    "DANGER": "WARNING",
    "WARNING": "CAUTION",
    "CAUTION": "NOTICE",
    "NOTICE": "DANGER",
}
_SYMBOL = '<svg viewBox="0 0 28 25" aria-hidden="true"><path d="M14 0 28 25H0z"/></svg>'
_STEP = frozenset({"step-missing", "step-out-of-order", "text-missing", "step-number-differs"})


def words_changed(site: Site, unit: str) -> Iterator[Plant]:
    """One word of a text: of steps, cautions, titles and outcomes."""
    rules = frozenset({"text-not-read-back"})
    for path, page in pages_of(site, unit).items():
        for text in some(elements(page, "data-text"), 6):
            start, end = letters(text)
            for words in ("never", page[start:end] + " not", ""):
                changed = page[:start] + words + page[end:]
                what = f"{page[start:end]} as {words or 'nothing'} in {text.key}"
                yield Plant(what, path, changed.encode(), rules, unit)


def fixed_words_changed(site: Site, unit: str) -> Iterator[Plant]:
    """One word of labels, states, stations, headings and links."""
    rules = frozenset({"label-not-read-back"})
    for path, page in pages_of(site, unit).items():
        for mark in (
            *("label", "state", "station", "chapter", "procedure-link", "fact-label", "section"),
            "signal-definition",
        ):
            for words in some(elements(page, f"data-{mark}"), 1):
                start, end = letters(words)
                changed = page[:start] + "other" + page[end:]
                what = f"{page[start:end]} in {mark} {words.key}"
                yield Plant(what, path, changed.encode(), rules, unit)


def cautions_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A caution, or one of its three texts."""
    rules = frozenset({"caution-missing"})
    for path, page in pages_of(site, unit).items():
        for caution in some(elements(page, "data-caution"), 3):
            yield Plant(f"{caution.key} gone", path, caution.with_outer("").encode(), rules, unit)
        texts = [e for e in elements(page, "data-text") if ".cautions." in e.key]
        # A question may ask for a hazard; it is then the question that is not as it was written.
        named = frozenset({"question-differs"}) if path.endswith("/quiz.html") else rules
        for text in some(texts, 3):
            yield Plant(f"{text.key} gone", path, text.with_outer("").encode(), named, unit)


def cautions_moved(site: Site, unit: str) -> Iterator[Plant]:
    """A caution after its step, at the end of its procedure, out of its box."""
    late = frozenset({"caution-after-its-step"})
    for path, page in pages_of(site, unit).items():
        if not elements(page, "data-step"):
            continue  # a sheet of differences, whose cautions stand with their steps otherwise
        for caution in some(elements(page, "data-caution"), 3):
            step = next(
                (s for s in elements(page, "data-step") if _holds(s, caution)), None
            ) or next(s for s in elements(page, "data-step") if s.start > caution.end)
            text = next(t for t in elements(page, "data-text") if t.key == step.key)
            what = f"{caution.key} right after its step"
            yield Plant(what, path, moved(caution, text.end).encode(), late, unit)
            procedure = next(p for p in elements(page, "data-procedure") if _holds(p, caution))
            what = f"{caution.key} at the end of its procedure"
            yield Plant(what, path, moved(caution, procedure.inner_end).encode(), late, unit)
            what = f"{caution.key} without its box"
            bare = caution.with_outer(caution.inner).encode()
            rules = frozenset({"text-out-of-order", "caution-missing", "alert-symbol-differs"})
            yield Plant(what, path, bare, rules, unit)


def signals_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The signal word in its text, in its mark, in both, and in how the caution is drawn."""
    rules = frozenset({"signal-word-differs"})
    for path, page in pages_of(site, unit).items():
        for word in some(elements(page, "data-signal-word"), 3):
            other = _OTHER_SIGNAL[word.key]
            yield Plant(
                f"{word.key} as {other}", path, word.with_inner(other).encode(), rules, unit
            )
            both = word.with_outer(word.outer.replace(word.key, other)).encode()
            both_rules = rules | {"label-misplaced"}
            yield Plant(f"{word.key} as {other} in text and mark", path, both, both_rules, unit)
        for caution in some(elements(page, "data-caution"), 2):
            signal = next(w for w in elements(page, "data-signal-word") if _holds(caution, w)).key
            other = _OTHER_SIGNAL[signal]
            drawn = caution.outer.replace(f'data-signal="{signal}"', f'data-signal="{other}"', 1)
            changed = caution.with_outer(drawn).encode()
            yield Plant(f"{caution.key} drawn as {other}", path, changed, rules, unit)
        if 'data-page="start"' in page:
            for panel in some(elements(page, "data-signal"), 1):
                start_tag = page[panel.start : panel.inner_start]
                other = start_tag.replace(panel.key, _OTHER_SIGNAL[panel.key])
                changed = panel.with_outer(other + page[panel.inner_start : panel.end]).encode()
                yield Plant(f"{panel.key} drawn as another", path, changed, rules, unit)


def symbols_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The alert symbol gone, hidden, or beside damage to things."""
    rules = frozenset({"alert-symbol-differs"})
    for path, page in pages_of(site, unit).items():
        drawings = elements_of(page, "svg")
        for caution in some(elements(page, "data-caution"), 3):
            own = next((each for each in drawings if _holds(caution, each)), None)
            if own is None:
                word = next(w for w in elements(page, "data-signal-word") if _holds(caution, w))
                changed = page[: word.start] + _SYMBOL + page[word.start :]
                yield Plant(f"symbol on {caution.key}", path, changed.encode(), rules, unit)
                continue
            what = f"no symbol on {caution.key}"
            yield Plant(what, path, own.with_outer("").encode(), rules, unit)
            hidden = own.with_attribute("hidden").encode()
            yield Plant(f"hidden symbol on {caution.key}", path, hidden, rules, unit)
            flat = own.with_attribute('width="0"').encode()
            yield Plant(f"flat symbol on {caution.key}", path, flat, rules, unit)


def steps_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """A step with its element, or only its text."""
    for path, page in pages_of(site, unit).items():
        for step in some(elements(page, "data-step"), 3):
            yield Plant(f"{step.key} gone", path, step.with_outer("").encode(), _STEP, unit)
            text = next(t for t in elements(page, "data-text") if t.key == step.key)
            what = f"text of {step.key} gone"
            yield Plant(what, path, text.with_outer("").encode(), _STEP, unit)


def steps_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """Two steps in each other's places, and only their words."""
    for path, page in pages_of(site, unit).items():
        steps = elements(page, "data-step")
        for one, two in [
            (one, two)
            for one, two in itertools.pairwise(steps)
            if one.key.partition(".")[0] == two.key.partition(".")[0]
        ][:2]:
            changed = page[: one.start] + two.outer + page[one.end : two.start] + one.outer
            changed += page[two.end :]
            what = f"{one.key} and {two.key} exchanged"
            rules = frozenset({"step-out-of-order", "caution-after-its-step"})
            yield Plant(what, path, changed.encode(), rules, unit)
            first, second = (
                next(t for t in elements(page, "data-text") if t.key == step.key)
                for step in (one, two)
            )
            what = f"words of {one.key} and {two.key} exchanged"
            rules = frozenset({"text-not-read-back"})
            yield Plant(what, path, exchanged(first, second).encode(), rules, unit)


def numbers_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The number of a step: its text, its text and mark, gone."""
    rules = frozenset({"step-number-differs"})
    for path, page in pages_of(site, unit).items():
        for number in some(elements(page, "data-number"), 2):
            other = str(int(number.key) + 7)
            what = f"step {number.key} as {other}"
            yield Plant(what, path, number.with_inner(other).encode(), rules, unit)
            both = number.outer.replace(f'"{number.key}"', f'"{other}"')
            both = both.replace(f">{number.inner}<", f">{other}<")
            yield Plant(f"{what}, mark too", path, number.with_outer(both).encode(), rules, unit)
            yield Plant(f"{what} gone", path, number.with_outer("").encode(), rules, unit)


def texts_added(site: Site, unit: str) -> Iterator[Plant]:
    """Steps, cautions and words that do not apply, with marks, with known marks, without."""
    for path, page in pages_of(site, unit).items():
        steps = elements(page, "data-step")
        body = elements(page, "data-guide")[0]
        for step in some(steps, 2):
            foreign = step.outer.replace(step.key, "gas-check.steps.close")
            for what, extra, rules in (
                ("a step that does not apply", foreign, {"step-that-does-not-apply"}),
                ("a step twice", step.outer, {"text-repeated", "step-number-differs"}),
                (
                    "a step without marks",
                    "<li><p>Close the gas valve.</p></li>",
                    {"unclaimed-text"},
                ),
                (
                    "a text that does not apply",
                    '<p data-text="gas-check.steps.close">Close the gas valve.</p>',
                    {"step-that-does-not-apply"},
                ),
                (
                    "an empty step that does not apply",
                    '<li data-step="gas-check.steps.close"></li>',
                    {"step-that-does-not-apply"},
                ),
            ):
                changed = page[: step.end] + extra + page[step.end :]
                yield Plant(what, path, changed.encode(), frozenset(rules), unit)
        for what, extra, rules in (
            ("words", "Call T.", {"unclaimed-text"}),
            ("a number", " 120 psi ", {"unclaimed-text"}),
            ("a comment", "<!-- 120 psi -->", {"unclaimed-text"}),
            ("a drawing with words", "<svg><text>120 psi</text></svg>", {"element-not-readable"}),
            ("a template", "<template>120 psi</template>", {"script-words-differ"}),
            ("a script", "<script>1</script>", {"element-not-readable"}),
            ("a style", "<style>p{color:red}</style>", {"element-not-readable"}),
            ("an image that speaks", '<img src="../assets/site.css" alt="120 psi">', _SPOKEN),
            ("a title on touch", '<span title="120 psi"></span>', _SPOKEN),
            ("words read aloud", '<span aria-label="not fitted at all"></span>', _SPOKEN),
            ("a label read aloud", '<span aria-label="Not fitted"></span>', _SPOKEN),
            ("an own attribute", '<span data-pressure="120"></span>', _SPOKEN),
            ("a handler", '<span onclick="x()"></span>', _SPOKEN),
            ("an unknown label", '<p data-label="brakes">Brakes</p>', {"unclaimed-mark"}),
            ("an unknown value", '<p data-fact="brakes.air.x">1</p>', {"unclaimed-mark"}),
            (
                "a chapter that is not there",
                '<p data-chapter="on-the-road-too">On the road</p>',
                {"step-that-does-not-apply"},
            ),
        ):
            changed = page[: body.inner_end] + extra + page[body.inner_end :]
            yield Plant(f"{what} in the body", path, changed.encode(), frozenset(rules), unit)


_SPOKEN = {"attribute-not-claimed"}


def headings_exchanged(site: Site, unit: str) -> Iterator[Plant]:
    """What should be seen under what to do if not."""
    rules = frozenset({"label-misplaced"})
    for path, page in pages_of(site, unit).items():
        expect = elements(page, "data-label", "expect")
        if_not = elements(page, "data-label", "if_not")
        for one, two in list(zip(expect, if_not, strict=False))[:1]:
            if one.start > two.start:
                continue
            changed = page[: one.start] + two.outer + page[one.end : two.start] + one.outer
            changed += page[two.end :]
            yield Plant("outcomes exchanged", path, changed.encode(), rules, unit)
            what = "no heading over what to do if not"
            yield Plant(what, path, two.with_outer("").encode(), rules, unit)


_OTHER_STANCES = {
    "state": (("truck.moving", "truck moving"), ("charging.unplugged", "charging cable unplugged")),
    "station": (("rear", "behind the truck"), ("outlet", "at the outlet or charger")),
    "lamp-color": (("green", "green lamp"), ("white", "white lamp")),
}


def stances_changed(site: Site, unit: str) -> Iterator[Plant]:
    """The state, the station or the color of a lamp gone, or another one."""
    rules = frozenset({"text-missing", "step-that-does-not-apply"})
    for path, page in pages_of(site, unit).items():
        if path.endswith(("/round.html", "/quiz.html", "/lamp-finder.html")):
            continue  # what stands at stops, in questions and in tiles has faults of its own
        for mark, others in _OTHER_STANCES.items():
            for one in some(elements(page, f"data-{mark}"), 1):
                gone = one.with_outer("").encode()
                yield Plant(f"{mark} gone", path, gone, frozenset({"text-missing"}), unit)
                key, words = next(other for other in others if other[0] != one.key)
                changed = one.with_outer(f'<p data-{mark}="{key}">{words}</p>').encode()
                yield Plant(f"{mark} as {key}", path, changed, rules, unit)


def warnings_of_the_page_dropped(site: Site, unit: str) -> Iterator[Plant]:
    """What stands on every page, and the definitions on the start page."""
    for path, page in pages_of(site, unit).items():
        for key in ("park_first", "handbook_first"):
            for one in elements(page, "data-label", key)[:1]:
                gone = one.with_outer("").encode()
                yield Plant(f"{key} gone", path, gone, frozenset({"text-missing"}), unit)
        definitions = elements(page, "data-signal-definition")
        for one, two in list(itertools.pairwise(definitions))[:1]:
            rules = frozenset({"label-misplaced"})
            changed = page[: one.start] + two.outer + page[one.end : two.start] + one.outer
            changed += page[two.end :]
            yield Plant("definitions exchanged", path, changed.encode(), rules, unit)
            rules = frozenset({"text-missing"})
            yield Plant("definition gone", path, one.with_outer("").encode(), rules, unit)


def _holds(outer: Element, inner: Element) -> bool:
    return outer.start <= inner.start and inner.end <= outer.end
