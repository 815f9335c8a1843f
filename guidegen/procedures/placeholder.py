"""Texts with places for a truck's own values.

Takes in a scalar such as ``Watch both gauges rise to {{ brakes.air.cut_out }}.``; gives out its
words and the facts that stand among them, as Jinja's own parser reads them.
Refuses every expression but the name of one fact: nothing typed here is ever run.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from jinja2 import StrictUndefined, TemplateSyntaxError, nodes
from jinja2.sandbox import SandboxedEnvironment

from guidegen.finding import Findings
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import find_fact, listed, shortened
from guidegen.procedures.model import Placeholder, TextTemplate, Words
from guidegen.procedures.placement import Placement, place_text
from guidegen.procedures.typed_numbers import TypedNumber, leading_measure, typed_numbers
from guidegen.specs.fields import AmountField
from guidegen.specs.profile import FACTS
from guidegen.yaml_nodes import Scalar

LONGEST_TEXT = 500
"""Characters as typed: five lines on a tablet."""

_JINJA = SandboxedEnvironment(undefined=StrictUndefined, autoescape=True)

_BRACES = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_STRAY_BRACES = re.compile(r"\{\{|\}\}|\{%|%\}|\{#|#\}")
_BLANK_CONTROL = re.compile(r"^\{\{[-+]|[-+]\}\}$")
"""Signs that make Jinja eat the blanks of the words beside."""

_BLANKS = re.compile(r"[ \t\n]+")
_EXAMPLE = "as in `{{ brakes.air.cut_out }}`"
_FACTS_SHOWN = 6


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A part of a text: words, or what stands in braces with the braces."""

    text: str
    start: int
    is_braced: bool

    @property
    def end(self) -> int:
        return self.start + len(self.text)


def read_text(text_id: str, scalar: Scalar, findings: Findings) -> TextTemplate | None:
    """Return the text that *scalar* holds.

    Runs of blanks and line breaks become one blank, and those at the ends go; apostrophes and
    quotes stay as typed.

    Args:
        text_id: Such as ``air-build-up.steps.start-engine``.
        scalar: As typed, in whatever quotes or as a block of lines.
        findings: Takes everything that may not stand in a text, each at its own place.

    Returns:
        The text; nothing if there is a finding or no text.
    """
    if not scalar.text.strip():
        if not scalar.is_plain:
            what = "a text of blanks has nothing to print"
            findings.add(rules.EMPTY_TEXT, scalar.span, what=what, fix="type the text")
        return None
    if len(scalar.text) > LONGEST_TEXT:
        what = f"this text has {len(scalar.text):,} characters, and the most is {LONGEST_TEXT:,}"
        fix = "make several steps of it, or move it to the fleet's own pages"
        findings.add(rules.TEXT_TOO_LONG, scalar.span, what=what, fix=fix)
        return None
    placement = place_text(scalar)
    faults = Findings()
    parts: list[Words | Placeholder] = []
    for stretch in _stretches(scalar.text):
        if stretch.is_braced:
            parts.append(_read_placeholder(stretch, placement, faults))
        else:
            _check_words(stretch, parts, placement, faults)
            parts.append(Words(_BLANKS.sub(" ", stretch.text)))
    findings.extend(faults)
    return None if faults.has_errors else TextTemplate(text_id, _trimmed(parts), scalar.span)


def _stretches(text: str) -> list[_Stretch]:
    found = []
    at = 0
    for braces in _BRACES.finditer(text):
        if at < braces.start():
            found.append(_Stretch(text[at : braces.start()], at, is_braced=False))
        found.append(_Stretch(braces.group(), braces.start(), is_braced=True))
        at = braces.end()
    if at < len(text):
        found.append(_Stretch(text[at:], at, is_braced=False))
    return found


def _read_placeholder(stretch: _Stretch, placement: Placement, faults: Findings) -> Placeholder:
    span = placement.span(stretch.start, stretch.end)
    name = _fact_named(stretch.text)
    if name is None:
        what = f"`{shortened(stretch.text)}` is {_kind_of(stretch.text)} and no name of a fact"
        fix = f"name one fact and nothing else, {_EXAMPLE}; use `when` to choose between texts"
        faults.add(rules.PLACEHOLDER_NOT_A_FACT, span, what=what, fix=fix)
    else:
        find_fact(name, span, faults)
    return Placeholder(name or "", span)


@lru_cache(maxsize=1_000)
def _fact_named(braced: str) -> str | None:
    """Return the dotted name in *braced*, or nothing if anything else stands there."""
    if _BLANK_CONTROL.search(braced):
        return None
    try:
        body = _JINJA.parse(braced).body
    except TemplateSyntaxError:
        return None
    match body:
        case [nodes.Output(nodes=[expression])]:
            return _dotted_name(expression)
        case _:
            return None


def _dotted_name(expression: nodes.Node) -> str | None:
    match expression:
        case nodes.Name(name=name):
            return str(name)
        case nodes.Getattr(node=inner, attr=attribute):
            holder = _dotted_name(inner)
            return f"{holder}.{attribute}" if holder else None
        case _:
            return None


def _kind_of(braced: str) -> str:
    """Return what *braced* holds, for the words of a finding."""
    if braced.startswith("{%"):
        return "a statement"
    if braced.startswith("{#"):
        return "a comment"
    if "|" in braced:
        return "a filter"
    if "(" in braced:
        return "a call"
    if not braced.strip("{} \t\n"):
        return "an empty placeholder"
    return "an expression"


def _check_words(
    stretch: _Stretch, before: list[Words | Placeholder], placement: Placement, faults: Findings
) -> None:
    for stray in _STRAY_BRACES.finditer(stretch.text):
        start, end = stretch.start + stray.start(), stretch.start + stray.end()
        what = f"`{stray.group()}` has no counterpart in this text"
        fix = f"write two braces before and two after the name of a fact, {_EXAMPLE}"
        span = placement.span(start, end)
        faults.add(rules.PLACEHOLDER_NOT_A_FACT, span, what=what, fix=fix)
    for number in typed_numbers(stretch.text):
        span = placement.span(stretch.start + number.start, stretch.start + number.end)
        kind = "an amount" if number.measure else "a number"
        what = f"`{number.text}` is {kind} typed into the text"
        faults.add(rules.NUMBER_IN_TEMPLATE, span, what=what, fix=_instead_of(number))
    if before and isinstance(before[-1], Placeholder):
        _check_measure_after(before[-1], stretch, placement, faults)


def _instead_of(number: TypedNumber) -> str:
    """Return the cure: facts of the same dimension, or words."""
    fix = f"name the fact that holds it, {_EXAMPLE}"
    if number.measure:
        facts = [
            fact.name
            for fact in FACTS.values()
            if isinstance(fact.field, AmountField)
            and fact.field.dimension is number.measure.dimension
        ]
        more = ", …" if len(facts) > _FACTS_SHOWN else ""
        fix = f"name the fact that holds it in double braces: {listed(facts[:_FACTS_SHOWN])}{more}"
    return f"{fix}; if it is the same on every truck, write it in words, as in `ten seconds`"


def _check_measure_after(
    placeholder: Placeholder, stretch: _Stretch, placement: Placement, faults: Findings
) -> None:
    fact = FACTS.get(placeholder.fact)
    end = leading_measure(stretch.text)
    if fact is None or not isinstance(fact.field, AmountField) or not end:
        return
    measure = stretch.text[:end].strip(" \t\n-")
    faults.add(
        rules.MEASURE_AFTER_PLACEHOLDER,
        placement.span(stretch.start + end - len(measure), stretch.start + end),
        what=f"`{measure}` stands after `{placeholder.fact}`, which is printed with its measure",
        fix=f"delete `{measure}`",
    )


def _trimmed(parts: list[Words | Placeholder]) -> tuple[Words | Placeholder, ...]:
    """Return *parts* without the blanks at both ends of the text."""
    first = parts[0]
    if isinstance(first, Words):
        parts[0] = Words(first.text.lstrip(" "))
    last = parts[-1]
    if isinstance(last, Words):
        parts[-1] = Words(last.text.rstrip(" "))
    return tuple(part for part in parts if part != Words(""))
