"""Pages that were proved before, whatever the edition.

Takes in a proved file, all that its proof has asked for and what it was told; gives out the
verdict for a file of another edition that is equal but for what is stamped into it, if that
edition would have told the same. Refuses to go by what a page is expected to need: what was asked
is noted while it is proved.
"""

from collections.abc import Collection
from dataclasses import replace
from typing import Any

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
)
from guidegen.proof.content import Content, Contents, is_alike_fact
from guidegen.proof.prove_page import Subject
from guidegen.proof.watched import (
    Asked,
    Watched,
    WatchedSet,
    what_was_asked,
    would_say_the_same,
)
from guidegen.units.model import Fact, SectionState

_MOST = 20_000
"""Proved files that are kept at a time, some 10 kB each."""


def find_content(subject: Subject, path: str, digest: bytes) -> Content | None:
    """Return the proved file that the file of *subject* at *path* is equal to, if any is.

    Args:
        subject: Whose file it is.
        path: From the unit's folder.
        digest: Of the file without what is stamped into it.
    """
    found = subject.fleet.contents.get((path, digest))
    if found is None:
        return None
    premise, sources = premise_of(subject, path), sources_of(subject)
    for content in found:
        if (
            content.premise == premise
            and all(map(_says_the_same, content.asked, sources))
            and all(map(subject.states_for_all, content.foreign))
        ):
            return content
    return None


def keep_content(contents: Contents, path: str, digest: bytes, content: Content) -> None:
    """Keep *content*, a proved file at *path*, under *digest*."""
    if len(contents) >= _MOST:
        contents.clear()
    contents.setdefault((path, digest), []).append(content)


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
        replace(guide, facts=Watched(guide.facts), sections=Watched(guide.sections)),
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
