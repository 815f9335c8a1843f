"""The marks by which pages say what a text is, and what else a page's body may be made of.

Takes in nothing; gives out the closed lists of marks, tags and attributes.
Refuses what is not listed: an attribute nobody reads could carry another truck's value.
"""

import enum


class Mark(enum.StrEnum):
    """An attribute whose element holds text that the proof reads."""

    TEXT = "data-text"
    """A text of the guide, by its id."""

    FACT = "data-fact"
    """The value of a fact, by its dotted name; alone, or inside a text."""

    LABEL = "data-label"
    """Fixed words, by key of ``LABELS``."""

    SIGNAL_WORD = "data-signal-word"
    SIGNAL_DEFINITION = "data-signal-definition"
    STATE = "data-state"
    """Aspect and state with a full stop between them."""

    STATION = "data-station"
    LAMP_COLOR = "data-lamp-color"
    LAMP_ACT = "data-lamp-act"
    CHAPTER = "data-chapter"
    PROCEDURE_LINK = "data-procedure-link"
    FACT_LABEL = "data-fact-label"
    SOURCE = "data-source"
    SECTION = "data-section"
    ABSENT = "data-absent"
    FIGURE_WORD = "data-figure-word"
    """A word in a drawing, by key of ``FIGURE_WORDS``."""

    NUMBER = "data-number"
    """The number of a step, as its own text."""

    KNOWN_TEXT = "data-known-text"
    """A text of the truck that the driver knows, by its id."""

    KNOWN_FACT = "data-known-fact"
    """The value of a fact of that truck; alone, or inside such a text."""

    LAMP = "data-lamp"
    RANK = "data-rank"
    """A heading of a difference sheet; the same as a link in its contents."""

    REASON = "data-reason"
    """Why the differences that follow matter."""

    ACT = "data-act"
    """What is done on the way to a stop of the inspection round."""

    WHY = "data-why"
    """Why a stop comes where it does: its number and the kind of reason, with a full stop between
    them."""

    PREMISE = "data-premise"
    """What the inspection round takes for granted."""

    PLAN = "data-plan"
    """A line of writing in the plan of the round, by station and number of the line."""

    PLAN_WORDS = "data-plan-words"
    """``title`` or ``description`` of the plan, for those who do not see it."""

    STEM = "data-stem"
    """What a question of a quiz asks, by its kind."""

    LETTER = "data-letter"
    """The letter of an answer, as its own text."""

    TIMER_WORD = "data-timer-word"
    """Fixed words of a timer."""

    CARD = "data-card"
    """A printed card, by its id."""

    REVISION_NAME = "data-revision-name"
    """What a revision is called, by its number, or ``draft``."""

    REVISION_DATE = "data-revision-date"
    """When it was released, by its number, or ``draft``."""

    CHANGE = "data-change"
    """What changed with it: its number and the place of the change, with a full stop between
    them."""

    ISSUE = "data-issue"
    """What tells this issue of a guide from others; the mark has no value."""

    FLEET_VALUE = "data-fleet-value"
    """Another truck's value of a fact, by its name: a wrong answer of a quiz."""


class Holder(enum.StrEnum):
    """An attribute whose element holds other marks."""

    GUIDE = "data-guide"
    PAGE = "data-page"
    EDITION = "data-edition"
    PROCEDURE = "data-procedure"
    CAUTION = "data-caution"
    SIGNAL = "data-signal"
    STEP = "data-step"
    ROW = "data-row"
    FIGURE = "data-figure"
    """A drawing of the guide, with its caption."""

    PHOTO = "data-photo"
    """A picture that the office took, with its caption."""

    NAVIGATION = "data-guide-nav"
    TOOLS = "data-guide-tools"
    """What a driver reaches for first, in the bar."""

    KNOWN = "data-known"
    """Number of the truck that the driver knows, on the body of a difference sheet."""

    KNOWN_EDITION = "data-known-edition"
    DIFFERENCE = "data-difference"
    TRUCK = "data-truck"
    """Number of another truck, which the driver may know."""

    STOP = "data-stop"
    """Number of a stop of the inspection round."""

    WAITING = "data-waiting"
    """Signal word of cautions that wait at the stop, on the page of its chapter."""

    TIMER = "data-timer"
    """The timer of a step, by the step's id."""

    TIMER_KIND = "data-timer-kind"
    TIMER_READING = "data-timer-reading"
    """What is read on a gauge when the timer has ended."""

    TIMER_LINE = "data-timer-line"
    """One line of a timer: ``time``, ``no_limit``, or bound and rig of a limit."""

    SECONDS = "data-seconds"
    """The time of the line, for the script."""

    QUESTION = "data-question"
    """A question of a quiz, by its id."""

    ANSWER = "data-answer"
    """One of its answers, by letter."""

    REVISION = "data-revision"
    """One revision of the truck's guide, by its number, or ``draft``."""

    DIGITS = "data-digits"
    """What the code on a card of that revision says."""

    KEY = "data-key"
    """The row of the key for a question, by its id."""

    PICK = "data-pick"
    """The way to the lamps of a color."""

    COLOR = "data-color"
    """The lamps of a color."""

    TILE = "data-tile"
    """One of them, by the id of the procedure about it."""


MARKS = {mark.value: mark for mark in Mark}
HOLDERS = {holder.value: holder for holder in Holder}

TAGS = frozenset(
    {
        *("div", "section", "article", "aside", "header", "footer", "nav", "main", "p"),
        *("h1", "h2", "h3", "h4", "h5", "h6", "hgroup", "ol", "ul", "li", "dl", "dt", "dd"),
        *("table", "caption", "colgroup", "col", "thead", "tbody", "tfoot", "tr", "th", "td"),
        *("span", "strong", "em", "b", "i", "small", "a", "abbr", "mark", "kbd", "code", "time"),
        *("br", "wbr", "hr", "figure", "figcaption", "img", "svg", "details", "summary"),
    }
)
"""Elements that show what stands in them."""

DRAWING_TAGS = frozenset(
    {
        *("svg", "g", "path", "circle", "ellipse", "rect", "line", "polygon", "polyline"),
        *("defs", "use", "symbol", "clippath", "clipPath"),
    }
)
"""Elements of a drawing that can hold no words."""

LETTERING = "text"
"""The one element of a drawing that holds words, in figures only."""

ALTERNATIVES = frozenset({"title", "desc"})
"""Elements of a drawing that say the same in words to those who do not see it; in figures only."""

BREAKS = frozenset(
    {
        *("br", "li", "p", "div", "tr", "td", "th", "dt", "dd", "section", "aside", "hr"),
        *("h1", "h2", "h3", "h4", "h5", "h6", "ol", "ul", "dl", "table", "figure", "figcaption"),
    }
)
"""Elements that part the words before them from the words in them."""

PLAIN_ATTRIBUTES = frozenset(
    {
        *("class", "role", "lang", "dir", "scope", "colspan", "rowspan", "tabindex", "open"),
        *("aria-hidden", "aria-current", "aria-level", "focusable", "width", "height"),
        *("loading", "decoding", "download", "translate"),
    }
)
"""Attributes that say nothing to a reader; their values are short words or numbers."""

SPOKEN_ATTRIBUTES = frozenset(
    {
        *("title", "alt", "aria-label", "aria-description", "aria-roledescription", "abbr"),
        *("aria-valuetext", "summary", "datetime"),
    }
)
"""Attributes that are shown or read aloud: fixed words of the guide and nothing else."""

NAMING_ATTRIBUTES = frozenset(
    {"id", "headers", "aria-labelledby", "aria-describedby", "aria-controls", "aria-details"}
)
"""Attributes that name elements of the page."""

ADDRESS_ATTRIBUTES = frozenset(
    {
        *("href", "src", "srcset", "action", "formaction", "poster", "data", "cite", "ping"),
        *("background", "xlink:href", "imagesrcset", "manifest", "longdesc"),
    }
)
"""Attributes that hold addresses."""
