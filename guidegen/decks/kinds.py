"""The kinds of cards of a fleet.

Takes in the cards that the library and the fleet state; gives out kinds whose parts all exist.
Refuses a card that names what there is not, and a card without anything on it.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping

from guidegen.decks import rules
from guidegen.decks.model import CardKind
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings, Note, nearest
from guidegen.procedures.words import CHAPTERS
from guidegen.specs.fields import Stated
from guidegen.specs.name_list import NameList
from guidegen.specs.paper import CardSection
from guidegen.specs.profile import FACTS


def card_kinds(
    library: Iterable[CardSection],
    own: Iterable[CardSection],
    procedures: Collection[str],
    findings: Findings,
) -> tuple[CardKind, ...]:
    """Return the kinds of cards: the library's, each replaced by the fleet's own of the same id.

    Args:
        library: The cards that come with the procedures.
        own: The fleet's.
        procedures: Ids of all procedures.
        findings: Takes the faults; a kind with faults is left out.
    """
    stated = {**_by_id(library, findings), **_by_id(own, findings)}
    found = (_kind(section, procedures, findings) for section in stated.values())
    return tuple(kind for kind in found if kind is not None)


def _by_id(sections: Iterable[CardSection], findings: Findings) -> Mapping[str, CardSection]:
    first: dict[str, CardSection] = {}
    for section in sections:
        before = first.setdefault(str(section.id.value), section)
        if before is not section:
            findings.add(
                rules.CARD_TWICE,
                section.id.span,
                what=f"two cards have the id `{section.id.value}`",
                fix="give one of them another id",
                notes=[Note("first at", before.id.span)],
            )
    return first


def _kind(section: CardSection, procedures: Collection[str], findings: Findings) -> CardKind | None:
    own = Findings()
    kind = CardKind(
        id=str(section.id.value),
        title=str(section.title.value),
        side=SIDES[str(section.size.value)],
        has_round=_is_set(section.round),
        procedures=_known(section.procedures, "procedure", procedures, own),
        chapters=_known(section.chapters, "chapter", CHAPTERS, own),
        facts=tuple(_facts(section.facts, own)),
        has_lamps=_is_set(section.lamps),
        is_large=_is_set(section.large),
        span=section.id.span,
    )
    named = (kind.procedures, kind.chapters, kind.facts)
    if not own.has_errors and not any((*named, kind.has_round, kind.has_lamps)):
        own.add(
            rules.CARD_EMPTY,
            section.id.span,
            what=f"card `{kind.id}` has nothing on it",
            fix="name its `procedures`, `chapters` or `facts`, or write `round: yes` "
            "or `lamps: yes`",
        )
    findings.extend(own)
    return None if own.has_errors else kind


def _is_set(stated: Stated | None) -> bool:
    return stated is not None and stated.value is True


def _known(
    names: NameList | None, what: str, choices: Collection[str], findings: Findings
) -> tuple[str, ...]:
    for stated in names.names if names else ():
        if stated.value not in choices:
            _report(stated, what, choices, findings)
    return tuple(str(stated.value) for stated in names.names) if names else ()


def _facts(names: NameList | None, findings: Findings) -> Iterator[str]:
    """Yield the named facts; the name of a section stands for all of its facts."""
    sections = {fact.section for fact in FACTS.values()}
    for stated in names.names if names else ():
        name = str(stated.value)
        if name in FACTS:
            yield name
        elif name in sections:
            yield from (each for each, fact in FACTS.items() if fact.section == name)
        else:
            _report(stated, "value or section", [*FACTS, *sections], findings)


def _report(stated: Stated, what: str, choices: Collection[str], findings: Findings) -> None:
    near = nearest(str(stated.value), choices)
    findings.add(
        rules.CARD_NAMES_UNKNOWN,
        stated.span,
        what=f"there is no {what} `{stated.value}`",
        fix=f"did you mean `{near}`?" if near else "look its name up in the guide, or take it out",
    )
