"""What a template may name, and what to say of a name that is not there.

Takes in names of facts and sections as typed; gives out the catalog's own, or a finding.
Refuses names that are near enough to be guessed: the finding suggests, the office types.
"""

from collections.abc import Iterable
from functools import lru_cache

from guidegen.finding import Findings, nearest
from guidegen.procedures import rules
from guidegen.source import Span
from guidegen.specs.equipment import EQUIPMENT_SECTIONS, FactField
from guidegen.specs.profile import ASKED, FACTS

ALWAYS_THERE = frozenset({"identity", "law", "substance"})
"""Holders of facts that no file can state to be not fitted."""


def find_fact(name: str, span: Span, findings: Findings) -> FactField | None:
    """Return the fact called *name*; report it if there is none."""
    fact = FACTS.get(name)
    if fact is None:
        findings.add(rules.UNKNOWN_FACT, span, what=_no_fact(name), fix=_fact_instead(name))
    return fact


def find_asked(name: str, span: Span, findings: Findings) -> FactField | None:
    """Return the fact called *name* that a condition asks for; report it if there is none."""
    return ASKED.get(name) or find_fact(name, span, findings)


def is_section(name: str, span: Span, findings: Findings) -> bool:
    """Whether a section is called *name*; report it if there is none."""
    if name in EQUIPMENT_SECTIONS:
        return True
    if name in FACTS:
        what = f"`fitted(…)` asks for a section, and `{name}` is a fact"
        fix = f"write `on_record({name})`, or `fitted({FACTS[name].section})`"
    else:
        what = f"there is no section `{name}`"
        near = _nearest_name(name, EQUIPMENT_SECTIONS)
        fix = f"did you mean `{near}`?" if near else f"the sections are {_top_sections()}"
    findings.add(rules.UNKNOWN_SECTION, span, what=what, fix=fix)
    return False


def listed(names: Iterable[str]) -> str:
    """Return *names* in backticks, with commas between them."""
    return ", ".join(f"`{name}`" for name in names)


def shortened(text: str, longest: int = 60) -> str:
    """Return *text* on one line, cut to *longest* characters, for the words of a finding."""
    line = " ".join(text.split())
    return line if len(line) <= longest else f"{line[: longest - 1]}…"


def section_holding(fact: str) -> str:
    """Return the dotted name of the section that holds *fact*."""
    return ASKED[fact].section


@lru_cache(maxsize=1_000)
def sections_around(section: str) -> tuple[str, ...]:
    """Return *section* and the sections that it stands in, outermost first.

    >>> sections_around("brakes.air")
    ('brakes', 'brakes.air')
    """
    parts = section.split(".")
    return tuple(".".join(parts[: end + 1]) for end in range(len(parts)))


def _no_fact(name: str) -> str:
    if name in EQUIPMENT_SECTIONS:
        return f"`{name}` is a section and not a fact"
    return f"there is no fact `{name}`"


def _fact_instead(name: str) -> str:
    inside = [fact for fact, field in FACTS.items() if field.section == name]
    if inside:
        return f"name one of its facts: {listed(inside)}"
    holder, _, own_name = name.rpartition(".")
    beside = {
        fact.rpartition(".")[2]: fact for fact, field in FACTS.items() if field.section == holder
    }
    if beside:
        near = nearest(own_name, beside)
        return f"did you mean `{beside[near]}`?" if near else f"`{holder}` has {listed(beside)}"
    near = _nearest_name(name, FACTS)
    if near:
        return f"did you mean `{near}`?"
    return (
        f"a fact is named by its section and its own name, and the sections are {_top_sections()}"
    )


def _nearest_name(name: str, choices: Iterable[str]) -> str | None:
    """Return the name meant by *name*: of the same ending if only one ends so, else like it."""
    names = list(choices)
    lowered = name.lower()
    same_ending = [known for known in names if f".{known}".endswith(f".{lowered}")]
    if len(same_ending) == 1:
        return same_ending[0]
    return nearest(lowered, names)


def _top_sections() -> str:
    return listed(name for name in EQUIPMENT_SECTIONS if "." not in name)
