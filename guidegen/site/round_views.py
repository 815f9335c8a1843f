"""What the template of the inspection round is given.

Takes in nothing; gives out the shapes of its view.
Refuses logic: the template loops over these and places their words.
"""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.site.views import Link, PageHead, TextView, Worded


@dataclass(frozen=True, slots=True)
class StopView:
    """For ``stop.html.j2``: one stop, with what is done on the way to it."""

    number: int
    id: str
    """Place on the page, to which the way back from the procedure leads."""

    acts: tuple[Worded, ...]
    href: str
    """Of the procedure on the page of its chapter."""

    procedure: str
    title: TextView
    """Of the procedure, or the step if only that is done here."""

    is_step: bool
    signals: tuple[tuple[str, bool], ...]
    """Signal words of the cautions that wait there, gravest first and each once, and whether it
    carries the safety alert symbol."""

    station: Worded
    states: tuple[Worded, ...]
    reasons: tuple[Worded, ...]


@dataclass(frozen=True, slots=True)
class RoundView:
    """For ``round.html.j2``."""

    head: PageHead
    premises: tuple[Worded, ...]
    plan: Markup
    """SVG, its words escaped."""

    stops: tuple[Markup, ...]
    """Drawn by ``stop.html.j2``."""

    onward: tuple[Link, ...]
    script_words: tuple[Worded, ...]
    """What the script that keeps the ticks shows."""
