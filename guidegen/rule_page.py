"""The page that explains a rule to whoever meets it.

Takes in a rule with its examples and its source; gives out Markdown.
Refuses an error that rests on memory or habit alone: such a rule may only warn.
"""

import enum
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.finding import Rule, Severity


class Standing(enum.Enum):
    """How well the value that a rule compares with is known."""

    RULE = "Seen in the text of the rule or the standard, or in a faithful reprint of it."
    SECONDARY = "Seen in two or more secondary texts that agree: handbooks, reprints, trade press."
    COMPUTED = "Worked out from exact definitions."
    MEANING = "Follows from what the fields mean: both cannot be true of one truck."
    HOUSE = "A rule for our own files, made here."
    MEMORY = "From memory; not found in a published text. Warns only."
    PRACTICE = "Common practice, no source. Warns only."


WARN_ONLY = frozenset({Standing.MEMORY, Standing.PRACTICE})
"""Standings that hold no truck back."""


@dataclass(frozen=True, slots=True)
class Example:
    """A piece of a file, as people type it."""

    text: str
    """YAML: sections of a unit or model file, or parts of a procedure file."""

    jurisdiction: str = "us"
    """Of the fleet that the file belongs to."""


@dataclass(frozen=True, slots=True)
class RulePage:
    """All that there is to say about one rule."""

    rule: Rule
    finds: str
    """What the rule looks for: whole sentences."""

    wrong: Example
    """Breaks the rule."""

    right: Example
    """The same, mended."""

    source: str
    """Where the value comes from: whole sentences."""

    standing: Standing

    def __post_init__(self) -> None:
        """Refuse an error without a source.

        Raises:
            ValueError: The rule is an error, and its standing is memory or practice.
        """
        if self.standing in WARN_ONLY and self.rule.severity is Severity.ERROR:
            raise ValueError(f"{self.rule.name} holds a truck back and rests on no source")


_HOLDS_BACK = "Error: what it finds holds the truck's guide back until it is mended."
_WARNS = "Warning: the guide is published, and the office is told."


def page_text(page: RulePage) -> str:
    """Return *page* as Markdown."""
    rule = page.rule
    effect = _WARNS if rule.severity is Severity.WARNING else _HOLDS_BACK
    return "\n".join(
        [
            f"# {rule.name}",
            "",
            effect,
            "",
            "## What it finds",
            "",
            page.finds,
            "",
            "## Why it matters at the truck",
            "",
            f"{rule.why[0].upper()}{rule.why[1:]}.",
            "",
            *_example("Wrong", page.wrong),
            *_example("Right", page.right),
            "## Source and standing",
            "",
            page.source,
            "",
            page.standing.value,
            "",
        ]
    )


def index_text(pages: Iterable[RulePage]) -> str:
    """Return the list of *pages* as Markdown, each with its file, severity and reason."""
    lines = [
        "# Rules",
        "",
        "Made from the code: `guidegen rules --out docs/rules`. `guidegen rules NAME` prints one.",
        "",
        "| Rule | | What happens at the truck |",
        "|---|---|---|",
    ]
    lines += [
        f"| [{page.rule.name}]({page_file(page)}) | {page.rule.severity.value} | {page.rule.why} |"
        for page in pages
    ]
    return "\n".join([*lines, ""])


def page_file(page: RulePage) -> str:
    """Return the name of the file that *page* is written to."""
    return f"{page.rule.name}.md"


def _example(heading: str, example: Example) -> list[str]:
    of = "" if example.jurisdiction == "us" else f" (in a fleet of `{example.jurisdiction}`)"
    return [f"## {heading}{of}", "", "```yaml", example.text.strip("\n"), "```", ""]
