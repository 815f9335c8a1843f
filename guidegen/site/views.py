"""What the page templates are given.

Takes in nothing; gives out the shapes of the views, one for each template.
Refuses logic: a template loops over these and places their words.
"""

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a text: words, or the value of a fact."""

    words: str
    fact: str = ""
    """Name of the fact whose value the words are; empty for plain words."""


@dataclass(frozen=True, slots=True)
class TextView:
    """One text of the guide."""

    id: str
    parts: tuple[Part, ...]

    @property
    def words(self) -> str:
        """The whole text, with values in words."""
        return "".join(part.words for part in self.parts)

    @property
    def words_alone(self) -> str:
        """The text without its values."""
        return "".join(part.words for part in self.parts if not part.fact)


@dataclass(frozen=True, slots=True)
class CautionView:
    """A safety message."""

    id: str
    signal: str
    hazard: TextView
    consequence: TextView
    avoid: TextView
    has_alert_symbol: bool
    """Not for a NOTICE, which is not about injury."""


@dataclass(frozen=True, slots=True)
class Worded:
    """A key of a closed list, and its words."""

    key: str
    words: str


@dataclass(frozen=True, slots=True)
class TimerLineView:
    """One line of a timer: what is timed, or what it is judged by."""

    key: str
    """``time``, ``no_limit``, or bound and rig with a full stop between them."""

    head: Worded
    fact: str
    words: str
    rig: Worded | None = None
    seconds: str = ""
    """Exact, for the script; empty if the fact is no one time."""


@dataclass(frozen=True, slots=True)
class TimerView:
    """The timer of a step; a script makes it run."""

    kind: str
    reading: str
    """What is read when it has ended; empty if nothing is."""

    lines: tuple[TimerLineView, ...]


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A photo, and what is said of it."""

    id: str
    path: str
    """From the folder of the page."""

    alt: str
    width: int
    height: int
    caption: TextView | None


@dataclass(frozen=True, slots=True)
class StepView:
    """For ``step.html.j2``: one step, with the cautions that stand before it."""

    id: str
    number: int
    text: TextView
    cautions: tuple[CautionView, ...]
    timer: TimerView | None = None
    photos: tuple[PhotoView, ...] = ()


@dataclass(frozen=True, slots=True)
class LampView:
    """What a lamp looks like and asks for."""

    color: Worded
    act: Worded


@dataclass(frozen=True, slots=True)
class PickView:
    """A color of lamps to choose, with its mark."""

    color: Worded
    href: str
    mark: Markup
    """SVG without words."""


@dataclass(frozen=True, slots=True)
class FigureView:
    """A drawing with its caption."""

    kind: str
    drawing: Markup
    """SVG, its words escaped."""

    caption: TextView


@dataclass(frozen=True, slots=True)
class ProcedureView:
    """For ``procedure.html.j2``: one procedure."""

    id: str
    title: TextView
    station: Worded | None
    """None for house rules, which hold everywhere."""

    states: tuple[Worded, ...]
    steps: tuple[StepView, ...]
    expect: tuple[TextView, ...]
    if_not: tuple[TextView, ...]
    lamp: LampView | None
    """Set if it is about a lamp: shown in the place of state and station."""

    figure: FigureView | None
    photos: tuple[PhotoView, ...] = ()
    """Those of the procedure as a whole."""

    @property
    def stance(self) -> tuple[Worded, ...]:
        """What stands before the steps, for the search: state and place, or what the lamp asks."""
        if self.lamp is not None:
            return (self.lamp.color, self.lamp.act)
        states = ", ".join(state.words for state in self.states)
        joined = (Worded("states", states),) if states else ()
        return (*joined, *([self.station] if self.station else []))


@dataclass(frozen=True, slots=True)
class Link:
    """A link to a page of the same unit, or to the fleet page."""

    href: str
    mark: str
    """Attribute that says what the words are: ``data-chapter`` or ``data-label``."""

    key: str
    words: str
    is_current: bool = False


@dataclass(frozen=True, slots=True)
class PageHead:
    """What the container of every page of a unit carries."""

    number: str
    edition: str
    page: str
    """``start``, ``lamp_finder``, the chapter's id, ``data``, …"""


@dataclass(frozen=True, slots=True)
class NavView:
    """For ``nav.html.j2`` and ``tools.html.j2``."""

    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class IndexView:
    """For ``search.html.j2``."""

    head: PageHead
    procedures: tuple[Link, ...]
    """By the alphabet of their titles."""

    onward: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class ChapterView:
    """For ``chapter.html.j2``."""

    head: PageHead
    chapter: Worded
    """Id and name of the page: of the chapter, if it has no other."""

    contents: tuple[Link, ...]
    """Of the whole chapter."""

    procedures: tuple[Markup, ...]
    """Their sections, drawn by ``procedure.html.j2``."""

    finder: Link | None
    """To the lamp finder, from a chapter that tells of lamps."""

    onward: tuple[Link, ...]
    """Where to go from the foot of the page."""

    script_words: tuple[Worded, ...]
    """What scripts show on it."""


@dataclass(frozen=True, slots=True)
class FactView:
    """One fact with its label."""

    name: str
    label: str
    words: str
    source: str
    section: Worded | None = None
    """Set where the label alone could mean another fact."""


@dataclass(frozen=True, slots=True)
class StartView:
    """For ``start.html.j2``."""

    head: PageHead
    title_facts: tuple[FactView, ...]
    """Year, make, model, body: as far as they are on record."""

    identity: tuple[FactView, ...]
    """Plate, yard, VIN: as far as they are on record."""

    key_numbers: tuple[FactView, ...]
    round: Link | None
    """To the inspection round, if the truck has one: what a driver does each morning."""

    finder: Link | None
    """To the lamp finder, if the truck has lamps on record."""

    picks: tuple[PickView, ...]
    """To each color of it."""

    links: tuple[Link, ...]
    cards: tuple[Link, ...]
    """To the printed cards, if there are any."""

    revisions: str
    """Token for the section of the truck's revisions."""

    signals: tuple[tuple[str, str, bool], ...]
    """Signal word, definition, and whether it carries the safety alert symbol."""


@dataclass(frozen=True, slots=True)
class SectionView:
    """For ``data_section.html.j2``: the facts of one section."""

    name: str
    label: str
    facts: tuple[FactView, ...]
    is_first: bool = False
    """On the page: it then has the heads of the columns."""


@dataclass(frozen=True, slots=True)
class DataView:
    """For ``data.html.j2``."""

    head: PageHead
    sections: tuple[Markup, ...]
    """Drawn by ``data_section.html.j2``."""

    absent: tuple[Worded, ...]
    onward: tuple[Link, ...]
