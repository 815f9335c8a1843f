"""From parts of a guide to what the typesetter is given.

Takes in procedures, facts and the inspection round; gives out groups of pieces, each group to
stay on one side. Refuses markup: words go in as data and come out as words.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from guidegen.figures.compose import figure_of
from guidegen.figures.draw_svg import draw_svg
from guidegen.figures.model import LETTERS
from guidegen.guide.model import STAMPED, Block, Caution, FactRef, Guide, Procedure, Step, Text
from guidegen.procedures.figure_kinds import FIGURE_WORDS
from guidegen.procedures.model import Words
from guidegen.procedures.words import LABELS, LAMP_ACTS, LAMP_COLORS, STATES, STATIONS
from guidegen.round.acts import ACTS
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs.profile import FACTS, HOLDER_LABELS
from guidegen.wording import value_words

Piece = dict[str, Any]


class Written(tuple[tuple[str, ...], ...]):
    """One text in parts: words alone, or a value with the mark that it is one."""

    __slots__ = ()


VALUE = "v"


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces that stay together on one side."""

    pieces: tuple[Piece, ...]
    opens: bool
    """Whether something new begins here."""

    running: str
    """What goes on if the group does not open anything: title of the procedure or section."""

    span: Span
    """Of what would have to be shortened if the group fits on no side."""

    says: str
    """What it is, for findings: ``step 3 of `air-build-up```."""

    def as_file(self) -> dict[str, Any]:
        """Return it in types that JSON has."""
        return {"pieces": list(self.pieces), "opens": self.opens, "running": self.running}


class Matter:
    """The groups of one guide."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self._values: Mapping[str, str] = {
            name: value_words(fact) for name, fact in guide.facts.items()
        }
        self._own = {each.id: each for chapter in guide.chapters for each in chapter.procedures}

    def holds(self, procedures: Iterable[Procedure]) -> bool:
        """Whether all of *procedures* are the guide's own, none made or changed by hand."""
        return all(self._own.get(each.id) is each for each in procedures)

    def names_truck(self, texts: Iterable[str]) -> bool:
        """Whether number, VIN, plate or yard of the truck stand, or seem to, in any of *texts*."""
        own = [self._values[name] for name in STAMPED if name in self._values]
        return any(words in text for text in texts for words in own)

    def parts(self, text: Text) -> Written:
        """Return *text* in parts, values in words."""
        return Written(
            (part.text,) if isinstance(part, Words) else (self._values[part.name], VALUE)
            for part in text.parts
        )

    def words(self, text: Text) -> str:
        """Return *text* with its values in words."""
        return "".join(part[0] for part in self.parts(text))

    def procedure(self, procedure: Procedure) -> Iterator[Group]:
        """Yield the groups of *procedure*: each step with the cautions that guard it."""
        title = self.words(procedure.title)
        opening = [*self._opening(procedure)]
        for step, cautions in _guarded(procedure.blocks):
            pieces = [*opening, *map(self._caution, cautions), self._step(step)]
            says = f"step {step.number} of `{procedure.id}`"
            yield Group(tuple(pieces), bool(opening), title, step.text.span, says)
            opening = []
        for label, texts in (("expect", procedure.expect), ("if_not", procedure.if_not)):
            if texts:
                piece = self._listed(label, texts)
                says = f"`{label}` of `{procedure.id}`"
                yield Group((*opening, piece), bool(opening), title, texts[0].span, says)
                opening = []

    def note(self, label: str, span: Span) -> Group:
        """Return a fixed sentence on its own."""
        piece = {"kind": "note", "words": LABELS[label]}
        return Group((piece,), opens=True, running="", span=span, says=f"the sentence `{label}`")

    def lamp(self, procedure: Procedure) -> Group:
        """Return all that is said of a lamp, as one group."""
        sign = procedure.lamp
        assert sign is not None  # noqa: S101 -- cards hold lamps only under `lamps`
        steps = [self.parts(step.text) for step, _ in _guarded(procedure.blocks)]
        piece = {
            "kind": "lamp",
            "drawing": self.drawing(procedure),
            "name": self.parts(procedure.title),
            "sign": f"{LAMP_COLORS[sign.color]}. {LAMP_ACTS[sign.act]}.",
            "means": [self.parts(text) for text in procedure.expect],
            "steps": steps,
        }
        says = f"lamp `{sign.id}`"
        return Group((piece,), opens=True, running="", span=procedure.span, says=says)

    def facts(self, names: tuple[str, ...], *, large: bool) -> Iterator[Group]:
        """Yield a row for each fact; before the first of a section its name."""
        section = ""
        for name in names:
            fact = self.guide.facts[name]
            opens = fact.field.section != section
            section = fact.field.section
            heading = {"kind": "section", "words": HOLDER_LABELS[section]}
            row = {
                "kind": "large" if large else "row",
                "label": FACTS[name].label,
                "value": self.value(name),
            }
            pieces = (heading, row) if opens else (row,)
            says = f"value `{name}`"
            yield Group(pieces, opens, HOLDER_LABELS[section], fact.provenance.span, says)

    def value_words(self, name: str) -> str:
        """Return the value of the fact *name* in words."""
        return self._values[name]

    def value(self, name: str) -> Written:
        """Return the value of the fact *name* as a text of its own."""
        return Written([(self._values[name], VALUE)])

    def tour(self, tour: Round, note: str = "checks_in_guide") -> Iterator[Group]:
        """Yield a line for each stop of the inspection round, with what is done on the way.

        Args:
            tour: Of the guide's truck.
            note: Label of the sentence that says where the steps are.
        """
        titles = {e.id: e.title for chapter in self.guide.chapters for e in chapter.procedures}
        span = next(iter(titles.values())).span
        yield self.note(note, span)
        for stop, leg in zip(tour.stops, tour.legs, strict=True):
            acts: list[Piece] = [
                {"kind": "act", "words": ACTS[change.act]} for change in leg.changes
            ]
            title = titles[stop.procedure]
            line: Piece = {
                "kind": "stop",
                "number": str(stop.number),
                "title": self.parts(title),
                "station": STATIONS[stop.station],
                "procedure": stop.procedure,
            }
            says = f"stop {stop.number} of the round"
            # The last act stays with its stop; several and the stop can be more than a small side.
            together: list[tuple[Piece, ...]] = [(act,) for act in acts[:-1]]
            together.append((*acts[-1:], line))
            for pieces in together:
                yield Group(pieces, opens=False, running="", span=title.span, says=says)

    def drawing(self, procedure: Procedure) -> Piece | None:
        """Return the figure of *procedure*: its shapes as SVG, and its writing to be set on it."""
        figure = figure_of(procedure, self.guide.facts)
        if figure is None:
            return None
        return {
            "svg": draw_svg(replace(figure, writing=()), {}),
            "width": figure.width,
            "height": figure.height,
            "letters": LETTERS,
            "alt": self.words(figure.alt),
            "caption": self.parts(figure.alt),
            "writing": [
                {
                    "x": written.x,
                    "y": written.y,
                    "anchor": written.anchor,
                    "words": self._values[written.says.name]
                    if isinstance(written.says, FactRef)
                    else FIGURE_WORDS[written.says],
                }
                for written in figure.writing
            ],
        }

    def _opening(self, procedure: Procedure) -> Iterator[Piece]:
        yield {"kind": "title", "text": self.parts(procedure.title)}
        if not procedure.station:
            return
        states = ", ".join(STATES[aspect][state] for aspect, state in procedure.state)
        yield {
            "kind": "stance",
            "entries": [
                *([f"{LABELS['state']}: {states}"] if states else []),
                f"{LABELS['station']}: {STATIONS[procedure.station]}",
            ],
        }

    def _caution(self, caution: Caution) -> Piece:
        return {
            "kind": "caution",
            "signal": caution.signal.value,
            "hazard": self.parts(caution.hazard),
            "consequence": self.parts(caution.consequence),
            "avoid": self.parts(caution.avoid),
        }

    def _step(self, step: Step) -> Piece:
        return {"kind": "step", "number": str(step.number), "text": self.parts(step.text)}

    def _listed(self, label: str, texts: tuple[Text, ...]) -> Piece:
        return {
            "kind": "list",
            "head": LABELS[label],
            "entries": [self.parts(text) for text in texts],
        }


def _guarded(blocks: tuple[Block, ...]) -> Iterator[tuple[Step, tuple[Caution, ...]]]:
    """Yield each step with the cautions before it."""
    waiting: list[Caution] = []
    for block in blocks:
        match block:
            case Caution():
                waiting.append(block)
            case Step():
                yield block, tuple(waiting)
                waiting = []
