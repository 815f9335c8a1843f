"""House rules that a truck's page says otherwise, not at all, or with more than the fleet typed."""

import itertools
from collections.abc import Iterator

from plants.plant import Element, elements, exchanged

TRUCK = "T-17"
PAGE = f"{TRUCK}/house-rules.html"
READ_BACK = frozenset({"text-not-read-back"})
MISSING = frozenset({"step-missing", "text-missing"})


def rules_of(page: str) -> list[Element]:
    return [each for each in elements(page, "data-text") if ".steps." in each.key]


def wrong_words(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """Another number, another rule's words, a rule turned round, nothing."""
    found = rules_of(page)
    for rule in found:
        for words in (rule.inner.replace("5 mph", "50 mph"), f"Do not: {rule.inner}", "", "5"):
            yield f"{rule.key} says `{words}`", rule.with_inner(words), READ_BACK | MISSING
    for title in (each for each in elements(page, "data-text") if each.key.endswith(".title")):
        yield f"{title.key} says `Speed`", title.with_inner("Speed"), READ_BACK
    for first, second in itertools.pairwise(found):
        yield f"{first.key} and {second.key} exchanged", exchanged(first, second), READ_BACK


def rules_dropped(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """A rule, its words, a section, all of a section's rules."""
    for rule in rules_of(page):
        yield f"no words of {rule.key}", rule.with_outer(""), MISSING
    for step in elements(page, "data-step"):
        yield f"no {step.key}", step.with_outer(""), MISSING
    for section in elements(page, "data-procedure"):
        yield f"no section {section.key}", section.with_outer(""), MISSING


def rules_hidden(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """A rule that stands in the page and is not seen."""
    hidden = frozenset({"step-hidden"})
    for rule in rules_of(page):
        for attribute in ("hidden", 'style="display:none"'):
            yield f"{rule.key} with {attribute}", rule.with_attribute(attribute), hidden


def rules_added(page: str) -> Iterator[tuple[str, str, frozenset[str]]]:
    """What the fleet has not typed: another truck's rule, a place, a link, a script."""
    added = {
        "<p>In D-31, drive as fast as you like.</p>": "foreign-identity",
        "<p>Drive as fast as you like.</p>": "unclaimed-text",
        '<p data-station="cab">in the driver\'s seat</p>': "text-out-of-order",
        '<a href="https://example.com/">more</a>': "request-to-other-origin",
        "<script>document.body.remove()</script>": "element-not-readable",
        '<img src="https://example.com/a.png" alt="">': "request-to-other-origin",
    }
    for step in elements(page, "data-step"):
        for more, rule in added.items():
            yield f"{more} in {step.key}", step.with_inner(step.inner + more), frozenset({rule})


HOUSE_RULE_KINDS = {
    sow.__name__: sow for sow in (wrong_words, rules_dropped, rules_hidden, rules_added)
}
