"""The section of a procedure, drawn once for all trucks on which it reads the same.

Takes in procedures with the facts of their guides; gives out their sections as HTML, and what the
search and other pages say of them. Refuses to guess what a section hangs on: the facts that it
looks at are written down while it is drawn, and it is drawn anew where one of them is another.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from jinja2 import Template
from markupsafe import Markup

from guidegen.guide.model import Procedure
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.site.lay_out_procedure import lay_out_procedure
from guidegen.site.recent import Recent
from guidegen.site.search_index import search_text
from guidegen.site.templates import PageTemplates
from guidegen.site.views import FigureView, StepView
from guidegen.site.watched import Watched
from guidegen.units.model import Fact

_PROCEDURES_KEPT = 8192
_SECTIONS_KEPT = 8192
"""A section is about 10 kB in memory with its search text: 80 MB in all."""
_STEPS_KEPT = 16384
"""Most steps of procedures that differ are alike. A step is about 2 kB: 32 MB in all."""


@dataclass(frozen=True, slots=True, eq=False)
class DrawnProcedure:
    """A procedure as it reads on some trucks."""

    procedure: Procedure
    section: Markup
    title: str
    """With values in words."""

    title_alone: str
    """The title without its values, for the alphabet."""

    found_by: str
    """Title and text of its entry in the search, as members of a JSON object."""

    figure: FigureView | None
    has_timer: bool


@dataclass(frozen=True, slots=True)
class _Looked:
    """Which facts a section looked at while it was drawn."""

    words: tuple[str, ...]
    """Names of those that it printed."""

    facts: tuple[str, ...]
    """Names of those whose exact value it asked for."""

    def at(self, facts: Mapping[str, Fact], words: Mapping[str, str]) -> tuple[object, ...]:
        """Return what it would see of the guide that has *facts*, printed as *words*."""
        printed = [words.get(name) for name in self.words]
        return (*printed, *(_exact(facts.get(name)) for name in self.facts))


@dataclass(slots=True, eq=False)
class _Met:
    """A procedure that has been drawn for some truck."""

    procedure: Procedure
    looked: list[_Looked] = field(default_factory=list)


class ProcedureDrawer:
    """Draws the procedures of one guide after another."""

    def __init__(self, templates: PageTemplates) -> None:
        """Keep the *templates*."""
        self._templates = templates
        self._by_place: Recent[int, tuple[Procedure, _Met]] = Recent(_PROCEDURES_KEPT)
        self._met: Recent[Procedure, _Met] = Recent(_PROCEDURES_KEPT)
        self._steps: Recent[StepView, Markup] = Recent(_STEPS_KEPT)
        self._drawn: Recent[tuple[object, ...], DrawnProcedure] = Recent(_SECTIONS_KEPT)

    def draw(
        self, procedure: Procedure, facts: Mapping[str, Fact], words: Mapping[str, str]
    ) -> DrawnProcedure:
        """Return *procedure* as it reads with *facts*, printed as *words*.

        The same value comes out as long as it reads the same.
        """
        met = self._meet(procedure)
        for looked in met.looked:
            found = self._drawn.find((met, looked, looked.at(facts, words)))
            if found is not None:
                return found
        watched_facts, watched_words = Watched(facts), Watched(words)
        drawn = self._draw(procedure, watched_facts, watched_words)
        looked = _Looked(watched_words.seen, watched_facts.seen)
        if looked not in met.looked:
            met.looked.append(looked)
        return self._drawn.keep((met, looked, looked.at(facts, words)), drawn)

    def _meet(self, procedure: Procedure) -> _Met:
        """Return what is known of *procedure*; one at the same place in memory is the same."""
        placed = self._by_place.find(id(procedure))
        if placed is not None and placed[0] is procedure:
            return placed[1]
        met = self._met.made(procedure, lambda: _Met(procedure))
        self._by_place.keep(id(procedure), (procedure, met))
        return met

    def _draw(
        self, procedure: Procedure, facts: Mapping[str, Fact], words: Mapping[str, str]
    ) -> DrawnProcedure:
        view = lay_out_procedure(procedure, facts, words)
        steps = [self._step(step) for step in view.steps]
        entry = {"title": view.title.words, "text": search_text(view)}
        return DrawnProcedure(
            procedure=procedure,
            section=_markup(self._templates.procedure, view=view, steps=steps),
            title=view.title.words,
            title_alone=view.title.words_alone.casefold(),
            found_by=json.dumps(entry, ensure_ascii=False, separators=(",", ":"))[1:-1],
            figure=view.figure,
            has_timer=any(step.timer for step in view.steps),
        )

    def _step(self, view: StepView) -> Markup:
        return self._steps.made(view, lambda: _markup(self._templates.step, view=view))


def _markup(template: Template, **given: object) -> Markup:
    return Markup(template.render(**given))  # noqa: S704 -- the template escapes


def _exact(fact: Fact | None) -> object:
    """Return all that can be drawn of *fact*: two facts that are drawn otherwise are not equal."""
    if fact is None:
        return None
    return (_text(fact.value), *(_text(amount) for amount in fact.shown), fact.is_quoted)


def _text(value: object) -> str:
    """Return *value* as text with every digit that was typed."""
    match value:
        case Quantity(amount=amount, measure=measure):
            return f"{amount} {measure.symbol}"
        case QuantityRange(low=low, high=high):
            return f"{_text(low)}..{_text(high)}"
        case _:
            return repr(value)
