"""Texts with places for a truck's own values.

Takes in a scalar such as ``Watch both gauges rise to {{ brakes.air.cut_out }}.``; gives out its
words and the facts that stand among them, as Jinja's own parser reads them.
Refuses every expression but the name of one fact: nothing typed here is ever run.
"""

import re
from dataclasses import dataclass

from jinja2 import StrictUndefined, TemplateSyntaxError, nodes
from jinja2.sandbox import SandboxedEnvironment

from guidegen.finding import Findings
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import find_fact, shortened
from guidegen.procedures.model import Placeholder, TextTemplate, Words
from guidegen.procedures.placement import Placement, place_text
from guidegen.procedures.typed_numbers import check_numbers, check_measure_after
from guidegen.yaml_nodes import Scalar

_JINJA = SandboxedEnvironment(undefined=StrictUndefined, autoescape=True)

_BRACES = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)
_STRAY_BRACES = re.compile(r"\{\{|\}\}|\{%|%\}|\{#|#\}")
_BLANKS = re.compile(r"[ \t\n]+")
_EXAMPLE = "as in `{{ brakes.air.cut_out }}`"


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
    placement = place_text(scalar)
    faults = Findings()
    parts = []
    stretches = _stretches(scalar.text)
    for stretch in stretches:
        if stretch.is_braced:
            parts.append(_read_placeholder(stretch, placement, faults))
        else:
            _check_words(stretch, placement, faults)
            parts.append(Words(_BLANKS.sub(" ", stretch.text)))
    check_measure_after(stretches, placement, faults)
    findings.extend(faults)
    return None if faults.has_errors else TextTemplate(text_id, _trimmed(parts), scalar.span)
