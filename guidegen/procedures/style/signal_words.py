"""Whether a signal word says as much as its caution.

Takes in a caution; gives out a finding if what can happen is more, or less, than the word means.
Refuses death under CAUTION, and injury under NOTICE.

Source: ANSI Z535.6 (2007 and later). DANGER will, and WARNING could, cause death or serious
injury; CAUTION could cause minor or moderate injury; NOTICE is not about injury.
"""

import re
from collections.abc import Iterator

from guidegen.finding import Findings
from guidegen.procedures.model import CautionTemplate, Signal, TextTemplate
from guidegen.procedures.style import rules
from guidegen.procedures.style.texts import plain_text

_SERIOUS = re.compile(
    r"\b(?:kill(?:s|ed)?|dies?|death|dead|crush(?:es|ed)?|maim(?:s|ed)?|blind(?:s|ed)?|drown|"
    r"suffocate|paralyze|cut off|tear off|serious(?:ly)?|burns? \w+(?: \w+){0,3} badly|badly burn|"
    r"break your bones|run over|freeze (?:your )?skin|burn you badly|lose (?:a|an|your) "
    r"(?:hand|arm|leg|foot|finger|eye|sight))\b",
    re.IGNORECASE,
)
_LESSER = re.compile(
    r"\b(?:hurts?|burn|scald|sting|sore|cut|bruise|sprain|slip|trip|fall|pinch|scratch|graze|"
    r"tear a \w+|break a bone|sick|injur\w+)\b",
    re.IGNORECASE,
)
_TO_PEOPLE = re.compile(
    r"\b(?:kill(?:s|ed)?|dies?|death|injur\w+|maim\w*|blind\w*|drown|suffocate|"
    r"(?:hurt|crush|burn|cut|hit|scald) (?:you|him|her|them|a person|people|others|your)|"
    r"your (?:skin|eyes?|face|hands?|arms?|fingers?|foot|feet|legs?|head|ears?|lungs))\b",
    re.IGNORECASE,
)
_CERTAIN = re.compile(r"\bwill\b", re.IGNORECASE)
"""Of DANGER; a WARNING says can or could."""


def check_signal_word(caution: CautionTemplate, findings: Findings) -> None:
    """Report each way in which the signal word of *caution* does not fit its text."""
    for text, what, fix in _faults(caution):
        findings.add(rules.SIGNAL_WORD_UNFIT, text.span, what=what, fix=fix)


def _faults(caution: CautionTemplate) -> Iterator[tuple[TextTemplate, str, str]]:
    match caution.signal:
        case Signal.NOTICE:
            yield from _faults_of_notice(caution)
        case Signal.CAUTION:
            yield from _faults_of_caution(caution)
        case Signal.WARNING | Signal.DANGER:
            yield from _faults_of_gravest(caution)


def _faults_of_notice(caution: CautionTemplate) -> Iterator[tuple[TextTemplate, str, str]]:
    for text in (caution.hazard, caution.consequence):
        found = _TO_PEOPLE.search(plain_text(text))
        if found:
            yield (
                text,
                f"NOTICE `{caution.id}` speaks of injury: `{found.group()}`",
                "write `signal: CAUTION` or `signal: WARNING`, or say what is damaged",
            )


def _faults_of_caution(caution: CautionTemplate) -> Iterator[tuple[TextTemplate, str, str]]:
    written = plain_text(caution.consequence)
    grave = _SERIOUS.search(written)
    if grave:
        yield (
            caution.consequence,
            f"CAUTION `{caution.id}` speaks of death or serious injury: `{grave.group()}`",
            "write `signal: WARNING`",
        )
    elif not _LESSER.search(written):
        yield (
            caution.consequence,
            f"CAUTION `{caution.id}` names no injury",
            "say how a person can get hurt; if only things are damaged, write `signal: NOTICE`",
        )


def _faults_of_gravest(caution: CautionTemplate) -> Iterator[tuple[TextTemplate, str, str]]:
    word, written = caution.signal.value, plain_text(caution.consequence)
    if not _SERIOUS.search(written):
        yield (
            caution.consequence,
            f"{word} `{caution.id}` names neither death nor serious injury",
            "say how a person can be killed or badly hurt, or write a milder signal word",
        )
        return
    is_certain = bool(_CERTAIN.search(written))
    if is_certain != (caution.signal is Signal.DANGER):
        yield (
            caution.consequence,
            f"{word} `{caution.id}` says that it {'will' if is_certain else 'can'} happen",
            "DANGER says `will`, WARNING says `can`: change the one that is not meant",
        )
