"""Whether scripts are given the words that they are to show, and no others.

Takes in the templates that were read of a page, and which words must stand there; records words
that are missing, made up, changed or out of order.
Refuses anything else in a template: a script could put it anywhere.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from html import unescape

from guidegen.procedures.script_words import BACK_WORDS, ROUND_WORDS, TIMER_WORDS
from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims, PageClaims
from guidegen.proof.faults import Faults
from guidegen.proof.marks import Mark

_SEE_TEMPLATE = "repair the macro that gives the scripts their words"
_WHOLE = re.compile(r'<template data-script-words(?:="")?>(?P<inner>.*)</template>', re.DOTALL)
_WORD = re.compile(r'\s*<p data-script-word="(?P<key>[a-z_]+)">(?P<words>[^<>]*)</p>\s*')


def compare_script_words(
    page: PageClaims, claims: EditionClaims, read: Sequence[str], faults: Faults
) -> None:
    """Hold the templates *read* of *page* against what its scripts must be given."""
    found = [pair for each in read for pair in _pairs_of(each, faults)]
    wanted = list(_wanted(page, claims).items())
    if found == wanted:
        return
    for key, words in found:
        if (key, words) not in wanted:
            _add(faults, f"reads `{words}`, which no script shows on this page", key)
    for key, _ in wanted:
        if key not in dict(found):
            _add(faults, "is not there", key)
    if sorted(found) == sorted(wanted) or len(found) != len(dict(found)):
        _add(faults, "stands there twice or in another order", found[0][0])


def _wanted(page: PageClaims, claims: EditionClaims) -> Mapping[str, str]:
    if page.kind == "round":
        return ROUND_WORDS
    if page.kind != "chapter":
        return {}
    has_timer = any(claim.mark is Mark.TIMER_WORD for claim in page.sequence)
    back = BACK_WORDS if claims.round is not None else {}
    return {**(TIMER_WORDS if has_timer else {}), **back}


def _pairs_of(template: str, faults: Faults) -> Iterator[tuple[str, str]]:
    whole = _WHOLE.fullmatch(template)
    inner, at = (whole["inner"], 0) if whole else ("", 0)
    while at < len(inner) and (word := _WORD.match(inner, at)):
        yield word["key"], " ".join(unescape(word["words"]).split())
        at = word.end()
    if whole is None or inner[at:].strip():
        rest = " ".join((inner[at:] or template).split())[:60]
        what = f"a template holds something else than words for scripts: `{rest}`"
        faults.add(rules.SCRIPT_WORDS_DIFFER, what, fix=_SEE_TEMPLATE)


def _add(faults: Faults, what: str, key: str) -> None:
    mark = f'data-script-word="{key}"'
    faults.add(rules.SCRIPT_WORDS_DIFFER, what, fix=_SEE_TEMPLATE, mark=mark)
