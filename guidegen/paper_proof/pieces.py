"""The pieces that printed matter is made of.

Takes in parts of a guide; gives out what must be read for them, in groups that stay on one side.
Refuses to look at how they were printed: it goes by the guide alone.
"""

from collections.abc import Iterator

from guidegen.figures.compose import figure_of
from guidegen.figures.model import Figure
from guidegen.guide.model import Caution, FactRef, Guide, Procedure, Step, Text
from guidegen.paper_proof.model import Group, Part, Piece
from guidegen.procedures.figure_kinds import FIGURE_WORDS
from guidegen.procedures.words import LABELS, LAMP_ACTS, LAMP_COLORS, STATES, STATIONS
from guidegen.proof.read_text import fold, pattern_of
from guidegen.source import Span
from guidegen.specs.profile import FACTS, HOLDER_LABELS

LEAST_TEXT = 8.0
"""Points: capitals of 0.08 inch, 1 to 300 of 24 inches, as ANSI Z535.2 asks of safety messages in
good light."""

LEAST_LARGE = 12.0
LEAST_SMALL = 6.0
LEAST_UNIT = 18.0
"""Points; common practice, no source."""

_BULLET = "\u2013 "


def slot(name: str, span: Span) -> str:
    """Return the pattern of the value of one fact."""
    return pattern_of(Text("", (FactRef(name),), span))


def pieces_of_procedure(procedure: Procedure) -> Iterator[Group]:
    """Yield the groups of *procedure*: its title with the first, each caution with its step."""
    title = pattern_of(procedure.title)
    opening = [*_opening(procedure)]
    waiting: list[Piece] = []
    for block in procedure.blocks:
        if isinstance(block, Caution):
            waiting.append(_caution(block, procedure.id))
            continue
        pieces = (*opening, *waiting, _step(block, procedure.id))
        yield Group(pieces, opens=bool(opening), running=title)
        opening, waiting = [], []
    for label, texts in (("expect", procedure.expect), ("if_not", procedure.if_not)):
        if texts:
            pieces = (*opening, *_listed(label, texts, procedure.id))
            yield Group(pieces, opens=bool(opening), running=title)
            opening = []


def piece_of_label(label: str, span: Span | None) -> Piece:
    """Return what must be read for a fixed sentence."""
    return Piece(Part.TEXT, fold(LABELS[label]), f"the sentence `{label}`", span)


def group_of_lamp(procedure: Procedure, guide: Guide) -> Group:
    """Return all that must be read of a lamp: its symbol, name, color, act, meaning and steps."""
    figure = figure_of(procedure, guide.facts)
    return Group(tuple(_lamp(procedure, figure)), figure=figure)


def groups_of_facts(names: tuple[str, ...], guide: Guide, *, large: bool) -> Iterator[Group]:
    """Yield a row for each fact; before the first of a section its name."""
    section = ""
    for name in names:
        fact = guide.facts[name]
        opens = fact.field.section != section
        section = fact.field.section
        heading = HOLDER_LABELS[section]
        span = fact.provenance.span
        first = Piece(Part.TEXT, fold(heading), f"heading `{heading}`", span)
        rows = tuple(_row(name, span, large=large))
        yield Group((first, *rows) if opens else rows, opens=opens, running=fold(heading))


def piece_of_value(name: str, guide: Guide) -> Piece:
    """Return what must be read for a row with one value: its label and the value."""
    (piece,) = _row(name, guide.facts[name].provenance.span, large=False)
    return piece


def pieces_of_figure(figure: Figure) -> Iterator[Piece]:
    """Yield the words and values in a drawing, in reading order."""
    for written in figure.writing:
        says, span = written.says, figure.alt.span
        pattern = slot(says.name, span) if isinstance(says, FactRef) else fold(FIGURE_WORDS[says])
        yield Piece(Part.FIGURE, pattern, f"writing of `{figure.id}`", span, LEAST_SMALL)


def _opening(procedure: Procedure) -> Iterator[Piece]:
    title = procedure.title
    of = f"title of `{procedure.id}`"
    yield Piece(Part.TEXT, pattern_of(title), of, title.span, is_opening=True)
    if not procedure.station:
        return
    states = ", ".join(STATES[aspect][state] for aspect, state in procedure.state)
    lines = [(LABELS["state"], states)] if states else []
    for label, says in (*lines, (LABELS["station"], STATIONS[procedure.station])):
        of = f"`{label}` of `{procedure.id}`"
        yield Piece(Part.TEXT, fold(f"{label}: {says}"), of, procedure.span, is_opening=True)


def _caution(caution: Caution, procedure: str) -> Piece:
    texts = (caution.hazard, caution.consequence, caution.avoid)
    signal = caution.signal.value
    pattern = " ".join((signal, *map(pattern_of, texts)))
    of = f"caution `{caution.id.removeprefix(f'{procedure}.cautions.')}` of `{procedure}`"
    return Piece(Part.CAUTION, pattern, of, caution.hazard.span, LEAST_TEXT, signal)


def _step(step: Step, procedure: str) -> Piece:
    of = f"step {step.number} of `{procedure}`"
    return Piece(Part.STEP, f"{step.number} {pattern_of(step.text)}", of, step.text.span)


def _listed(label: str, texts: tuple[Text, ...], procedure: str) -> Iterator[Piece]:
    of = f"`{label}` of `{procedure}`"
    yield Piece(Part.TEXT, fold(LABELS[label]), of, texts[0].span)
    for text in texts:
        yield Piece(Part.TEXT, _BULLET + pattern_of(text), of, text.span)


def _lamp(procedure: Procedure, figure: Figure | None) -> Iterator[Piece]:
    sign = procedure.lamp
    if figure is not None:
        yield from pieces_of_figure(figure)
    of = f"`{procedure.id}`"
    yield Piece(Part.TEXT, pattern_of(procedure.title), f"name of {of}", procedure.title.span)
    if sign is not None:
        says = fold(f"{LAMP_COLORS[sign.color]}. {LAMP_ACTS[sign.act]}.")
        yield Piece(Part.TEXT, says, f"color and act of {of}", procedure.span)
    for text in procedure.expect:
        yield Piece(Part.TEXT, pattern_of(text), f"meaning of {of}", text.span)
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield _caution(block, procedure.id)
        else:
            of_step = f"step {block.number} of {of}"
            yield Piece(Part.STEP, pattern_of(block.text), of_step, block.text.span)
    for text in procedure.if_not:
        yield Piece(Part.TEXT, pattern_of(text), f"`if_not` of {of}", text.span)


def _row(name: str, span: Span, *, large: bool) -> Iterator[Piece]:
    label, of = fold(FACTS[name].label), f"value `{name}`"
    if large:
        yield Piece(Part.TEXT, label, f"label of {of}", span)
        yield Piece(Part.VALUE, slot(name, span), of, span, LEAST_LARGE)
    else:
        yield Piece(Part.VALUE, f"{label} {slot(name, span)}", of, span)
