"""The page templates, loaded strictly.

Takes in a Jinja loader; gives out the templates by what they draw. Refuses a template that asks
for a name that its view lacks: the build stops rather than leave a gap on a page.
"""

from dataclasses import dataclass
from typing import Self

from jinja2 import BaseLoader, BytecodeCache, Environment, StrictUndefined, Template

from guidegen.procedures.words import LABELS


@dataclass(frozen=True, slots=True)
class PageTemplates:
    """One template for each kind of page and of its parts, and two for the ways around a unit."""

    start: Template
    chapter: Template
    procedure: Template
    step: Template
    data: Template
    data_section: Template
    round: Template
    stop: Template
    lamps: Template
    quiz: Template
    differences: Template
    sheet: Template
    search: Template
    nav: Template
    tools: Template
    fleet: Template
    revisions: Template

    @classmethod
    def load(cls, loader: BaseLoader, compiled: BytecodeCache | None = None) -> Self:
        """Return the templates that *loader* finds; each takes one view, named ``view``.

        That of a procedure takes its ``steps`` beside it, as they are drawn.

        Args:
            loader: Finds their sources.
            compiled: Keeps what they are compiled to; none has each compiled anew.
        """
        environment = Environment(
            loader=loader,
            bytecode_cache=compiled,
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=False,
            # Else each part that is drawn looks whether its file has changed.
            auto_reload=False,
        )
        environment.globals["labels"] = LABELS
        return cls(
            start=environment.get_template("start.html.j2"),
            chapter=environment.get_template("chapter.html.j2"),
            procedure=environment.get_template("procedure.html.j2"),
            step=environment.get_template("step.html.j2"),
            data=environment.get_template("data.html.j2"),
            data_section=environment.get_template("data_section.html.j2"),
            round=environment.get_template("round.html.j2"),
            stop=environment.get_template("stop.html.j2"),
            lamps=environment.get_template("lamps.html.j2"),
            quiz=environment.get_template("quiz.html.j2"),
            differences=environment.get_template("differences.html.j2"),
            sheet=environment.get_template("sheet.html.j2"),
            search=environment.get_template("search.html.j2"),
            nav=environment.get_template("nav.html.j2"),
            tools=environment.get_template("tools.html.j2"),
            fleet=environment.get_template("fleet.html.j2"),
            revisions=environment.get_template("revisions.html.j2"),
        )
