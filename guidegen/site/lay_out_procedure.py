"""From a procedure to its view.

Takes in a procedure of a guide, and the guide's facts; gives out the view of its section.
Refuses a caution that guards no step: it would stand on no page.
"""

from collections.abc import Iterator, Mapping

from markupsafe import Markup

from guidegen.figures.compose import figure_of
from guidegen.figures.draw_svg import draw_svg
from guidegen.guide.model import Caution, Procedure, Step, caption_of
from guidegen.procedures.model import LampSign
from guidegen.procedures.words import LAMP_ACTS, LAMP_COLORS, STATES, STATIONS
from guidegen.site.texts import Texts
from guidegen.site.timer_views import TimerLayout
from guidegen.site.tokens import plain
from guidegen.site.views import (
    CautionView,
    FigureView,
    LampView,
    PhotoView,
    ProcedureView,
    StepView,
    Worded,
)
from guidegen.units.model import Fact


class StrayCaution(ValueError):
    """A caution stands behind the last step, so it warns of nothing."""


def lay_out_procedure(
    procedure: Procedure, facts: Mapping[str, Fact], words: Mapping[str, str]
) -> ProcedureView:
    """Return the view of *procedure*.

    Args:
        procedure: Of a guide.
        facts: Of the guide, by name; none is looked at but by its name.
        words: How each of them is printed; likewise.

    Raises:
        StrayCaution: If a caution guards no step.
    """
    texts = Texts(words)
    return ProcedureView(
        id=procedure.id,
        title=texts.text(procedure.title),
        station=_station(procedure.station),
        states=tuple(
            Worded(f"{aspect}.{state}", STATES[aspect][state]) for aspect, state in procedure.state
        ),
        steps=tuple(_steps(procedure, texts, TimerLayout(facts, words))),
        expect=tuple(texts.text(text) for text in procedure.expect),
        if_not=tuple(texts.text(text) for text in procedure.if_not),
        lamp=_lamp(procedure.lamp),
        figure=_figure(procedure, facts, texts),
        photos=_photos(procedure, "", texts),
    )


def _station(station: str) -> Worded | None:
    return Worded(station, STATIONS[station]) if station else None


def _steps(procedure: Procedure, texts: Texts, timers: TimerLayout) -> Iterator[StepView]:
    waiting: list[CautionView] = []
    for block in procedure.blocks:
        match block:
            case Caution():
                waiting.append(texts.caution(block))
            case Step():
                text, timer = texts.text(block.text), timers.view(block.timer)
                photos = _photos(procedure, block.id, texts)
                yield StepView(block.id, block.number, text, tuple(waiting), timer, photos)
                waiting = []
    if waiting:
        raise StrayCaution(waiting[0].id)


def _photos(procedure: Procedure, step: str, texts: Texts) -> tuple[PhotoView, ...]:
    """Return the photos at the step with the id *step*; of the whole procedure, if it is empty."""
    return tuple(
        PhotoView(
            photo.id,
            photo.path,
            plain(photo.alt),
            photo.width,
            photo.height,
            texts.text(caption) if (caption := caption_of(photo)) else None,
        )
        for photo in procedure.photos
        if photo.step_id == step
    )


def _lamp(sign: LampSign | None) -> LampView | None:
    if sign is None:
        return None
    color = Worded(sign.color, LAMP_COLORS[sign.color])
    return LampView(color, Worded(sign.act, LAMP_ACTS[sign.act]))


def _figure(procedure: Procedure, facts: Mapping[str, Fact], texts: Texts) -> FigureView | None:
    figure = figure_of(procedure, facts)
    if figure is None:
        return None
    drawing = Markup(draw_svg(figure, texts.words))  # noqa: S704 -- it escapes all words itself
    return FigureView(figure.kind, drawing, texts.text(figure.alt))
