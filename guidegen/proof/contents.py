"""Pages that were proved before, whatever the edition.

Takes in a proved file, all that its proof has asked for and what it was told; gives out the
verdict for a file of another edition that is equal but for what is stamped into it, or for its
values too, if that edition would have told the same and each value is its own. Refuses to go by
what a page is expected to need: what was asked is noted while it is proved.
"""

from collections import Counter
from collections.abc import Collection
from dataclasses import replace
from typing import Any

from guidegen.guide.model import STAMPED
from guidegen.proof.bare import Bare
from guidegen.proof.claims import (
    DIFFERENCES_PATH,
    LAMP_FINDER,
    QUIZ,
    ROUND,
    SEARCH,
    SEARCH_DATA_PATH,
    START,
    EditionClaims,
    PageClaims,
    source_words,
)
from guidegen.proof.compare_words import judge_value
from guidegen.proof.content import (
    Content,
    Contents,
    is_alike_fact,
)
from guidegen.proof.foreign import Identity
from guidegen.proof.marks import Mark
from guidegen.proof.model import FileVerdict, ValueThere
from guidegen.proof.prove_page import Subject
from guidegen.proof.read_text import fold
from guidegen.proof.siblings import digest_of
from guidegen.proof.watched import (
    Asked,
    Watched,
    WatchedFacts,
    WatchedSet,
    section_of,
    what_was_asked,
    would_say_the_same,
)
from guidegen.units.model import Fact, SectionState

_MOST = 250
"""Proved files that are kept at a time, of a dozen or two of editions: with what was asked for them
about 150 kB each."""

_MOST_ALIKE = 8
"""Proved files of equal bytes and unequal claims that are kept at a time."""


def find_content(
    subject: Subject, path: str, digest: bytes, values: tuple[ValueThere, ...] = ()
) -> Content | None:
    """Return the proved file that the file of *subject* at *path* is equal to, if any is.

    Args:
        subject: Whose file it is.
        path: From the unit's folder.
        digest: Of the file without what is stamped into it, and without its values if there are
            *values*.
        values: What stands on the page, if other values may have stood on the proved one; that
            each is the unit's own is looked at here.
    """
    contents, key = subject.fleet.contents, (path, digest)
    found = contents.pop(key, None)
    if found is None:
        return None
    contents[key] = found  # last, as what was asked for last
    premise, sources = premise_of(subject, path), sources_of(subject)
    for content in found:
        if (
            content.premise == premise
            and all(map(_says_the_same, content.asked, sources))
            and all(section_of(subject.guide.facts, name) == of for name, of in content.sections)
            and all(map(subject.states_for_all, content.foreign))
            and (not values or _are_its_own(subject, content, values))
        ):
            return content
    return None


def _are_its_own(subject: Subject, content: Content, values: tuple[ValueThere, ...]) -> bool:
    """Whether all *values* are those of *subject*, and those that must be are as in *content*."""
    facts, fixed = subject.guide.facts, {each.fact for each in content.fixed_values}
    if tuple(each for each in values if each.fact in fixed) != content.fixed_values:
        return False
    return all(
        each.fact in facts and _is_of(facts[each.fact], each, subject.claims)
        for each in set(values)
    )


def _is_of(fact: Fact, value: ValueThere, claims: EditionClaims) -> bool:
    if value.mark is Mark.SOURCE:
        return value.text == fold(source_words(fact))
    return not judge_value(claims, fact, value.text)[1]


def keep_contents(
    noting: Subject,
    path: str,
    proved: tuple[bytes, Bare],
    verdict: FileVerdict,
    named: tuple[Identity, ...],
) -> None:
    """Keep a file that was proved without failures for those that are equal to it.

    Args:
        noting: Whose file it is, of `watched`, after the proof.
        path: From the unit's folder.
        proved: Digest of the file without what is stamped into it, and the file without its
            values.
        verdict: On it.
        named: What in it is also an identity of a truck.
    """
    digest, without = proved
    premise, facts, contents = premise_of(noting, path), noting.guide.facts, noting.fleet.contents
    if not isinstance(facts, WatchedFacts):
        raise TypeError("what the proof has asked was not noted")
    sections = tuple((name, section_of(facts.whole, name)) for name in facts.sections)
    asked = asked_by(noting)
    read = (each for each in facts.held if not _is_stamp(each))
    if without.values and Counter(without.values) == Counter(read):
        fixed = without.values_of(facts.asked)
        content = Content(premise, asked, verdict, named, sections, fixed)
        _keep(contents, (path, digest_of(without.raw)), content)
    place = next(place for place, each in enumerate(sources_of(noting)) if each is facts)
    facts.asked.update(each.fact for each in facts.held)
    whole = (*asked[:place], what_was_asked(facts), *asked[place + 1 :])
    _keep(contents, (path, digest), Content(premise, whole, verdict, named, sections))


def _is_stamp(value: ValueThere) -> bool:
    return value.mark is Mark.FACT and value.fact in STAMPED


def _keep(contents: Contents, key: tuple[str, bytes], content: Content) -> None:
    kept = contents.pop(key, [])
    if len(contents) >= _MOST:
        # What was not asked for for longest stands first.
        del contents[next(iter(contents))]
    contents[key] = kept
    if len(kept) >= _MOST_ALIKE:
        del kept[0]
    kept.append(content)


def watched(subject: Subject) -> Subject:
    """Return *subject* with claims and facts that note what they are asked for."""
    claims, guide = subject.claims, subject.guide
    noting = replace(
        claims,
        texts=Watched(claims.texts),
        procedures=Watched(claims.procedures),
        chapter_of=Watched(claims.chapter_of),
        leaf_of=Watched(claims.leaf_of),
        contents=Watched(claims.contents),
        cautions=Watched(claims.cautions),
        steps=Watched(claims.steps),
        figures=Watched(claims.figures),
        absent=Watched(claims.absent),
        fixed=Watched(claims.fixed),
        spoken=WatchedSet(claims.spoken),
    )
    return Subject(
        replace(guide, facts=WatchedFacts(guide.facts), sections=Watched(guide.sections)),
        replace(
            subject.edition, claims=noting, not_its_own=WatchedSet(subject.edition.not_its_own)
        ),
        subject.fleet,
    )


def asked_by(noting: Subject) -> tuple[Asked, ...]:
    """Return what *noting*, of `watched`, was asked so far."""
    return tuple(
        what_was_asked(each)
        for each in sources_of(noting)
        if isinstance(each, Watched | WatchedSet)
    )


def sources_of(subject: Subject) -> tuple[Collection[Any], ...]:
    """Return all of *subject* that `watched` watches."""
    claims, guide = subject.claims, subject.guide
    return (
        *(claims.texts, claims.procedures, claims.chapter_of, claims.leaf_of, claims.contents),
        *(claims.cautions, claims.steps, claims.figures, claims.absent, claims.fixed),
        *(claims.spoken, subject.edition.not_its_own, guide.facts, guide.sections),
    )


def premise_of(subject: Subject, path: str) -> tuple[Any, ...]:
    """Return what is compared as a whole: all that is not asked for by a key.

    Args:
        subject: The unit.
        path: Of one of its files.
    """
    claims, guide = subject.claims, subject.guide
    page = claims.page_at(path)
    return (
        page,
        tuple(chapter.id for chapter in guide.chapters),
        (claims.tools, claims.cards),
        (claims.round is None, claims.lamps is None, claims.quiz is None),
        subject.revision_in_bar,
        _of_kind(subject, page, path),
    )


def _of_kind(subject: Subject, page: PageClaims | None, path: str) -> Any:  # noqa: ANN401, PLR0911 -- one thing for each kind
    claims: EditionClaims = subject.claims
    if path == SEARCH_DATA_PATH:
        return claims.search
    if path == DIFFERENCES_PATH:
        return None
    match page.kind if page is not None else "":
        case kind if kind == START:
            return claims.lamps, subject.revisions
        case kind if kind == ROUND:
            return claims.round
        case kind if kind == LAMP_FINDER:
            return claims.lamps
        case kind if kind == QUIZ:
            return claims.quiz
        case kind if kind == SEARCH:
            return claims.by_alphabet
        case _:
            return None


def _says_the_same(asked: Asked, source: Collection[Any]) -> bool:
    return would_say_the_same(asked, source, _are_alike)


def _are_alike(one: object, two: object) -> bool:
    """Whether two values that are not equal say the same, wherever they are stated."""
    if isinstance(one, Fact) and isinstance(two, Fact):
        return is_alike_fact(one, two)
    if isinstance(one, SectionState) and isinstance(two, SectionState):
        return one.presence == two.presence
    return False
