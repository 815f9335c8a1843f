"""What the fleet has replaced, for a terminal and for programs.

Takes in the fleet's own procedures; gives out lines of text, or records that JSON can hold. Refuses
to leave out anything that the library's procedure says and the fleet's does not.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from guidegen.procedures.own.compare import words_of
from guidegen.procedures.own.model import Change, OwnProcedure, Replacement
from guidegen.source import Span


def format_replaced(own: Sequence[OwnProcedure]) -> str:
    """Return what each of *own* replaces, in the order given, as text."""
    replaced = [each for each in own if each.replacement is not None]
    new = [each for each in own if each.replacement is None]
    lamps = sum(each.template.lamp is not None for each in replaced)
    counted = f"{_counted(len(replaced) - lamps, 'procedure')}"
    counted += f" and {_counted(lamps, 'lamp')}" if lamps else ""
    lines = [f"{counted} of the library replaced, {len(new)} of the fleet's own"]
    for each in replaced:
        lines += ["", *_replaced(each)]
    if new:
        lines += ["", "the fleet's own procedures and house rules, beside the library:"]
        lines += [f"  {each.template.id}  {each.template.span.place}" for each in new]
    return "\n".join(lines) + "\n"


def replaced_as_json(own: Sequence[OwnProcedure]) -> dict[str, Any]:
    """Return what each of *own* replaces as records that JSON can hold."""
    return {
        "replaced": [
            _record(each, each.replacement) for each in own if each.replacement is not None
        ],
        "own": [
            {
                "procedure": each.template.id,
                "title": words_of(each.template.title),
                "place": each.template.span.place,
            }
            for each in own
            if each.replacement is None
        ],
    }


def answer_words(change: Change, replacement: Replacement) -> str:
    """Return who answers for what *change* gives up; empty if nobody need."""
    if not change.answered_by:
        return ""
    stated = replacement.statement_of(change)
    if stated is None:
        return "nobody answers for it"
    return f"{stated.reason} Approved by {stated.approved_by}, {stated.date}."


def extent_words(replacement: Replacement) -> str:
    """Say how much of the original is replaced."""
    if replacement.original.lamp is not None:
        return "words of the lamp"
    return "the whole procedure" if replacement.is_whole else "steps and cautions of it"


def headline(change: Change) -> str:
    """Return what changed, as ``caution `roll` gone``."""
    how = f" ({', '.join(change.how)})" if change.how else ""
    return f"{change.kind.value} `{change.name}` {change.verb}{how}"


def _replaced(own: OwnProcedure) -> Iterator[str]:
    replacement = own.replacement
    assert replacement is not None  # noqa: S101 -- asked for only where there is one
    yield f"{own.template.id} ({words_of(own.template.title)}): {extent_words(replacement)}"
    yield f"  by {replacement.span.place}"
    yield f"  in the place of {replacement.original.span.place}"
    if replacement.is_out_of_date:
        yield f"  the library's has changed since it was replaced; it is {replacement.digest} now"
    for change in replacement.changes:
        yield f"  {headline(change)}"
        yield from (f"    library: {change.was}{_at(change.was_at)}",) if change.was else ()
        yield from (f"    fleet:   {change.now}{_at(change.now_at)}",) if change.now else ()
        answer = answer_words(change, replacement)
        yield from (f"    {answer}",) if answer else ()


def _at(span: Span | None) -> str:
    return f"  {span.place}" if span else ""


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _record(own: OwnProcedure, replacement: Replacement) -> dict[str, Any]:
    return {
        "procedure": own.template.id,
        "title": words_of(own.template.title),
        "whole": replacement.is_whole,
        "place": replacement.span.place,
        "original": replacement.original.span.place,
        "digest": replacement.digest,
        "digest_stated": replacement.stated_digest.text,
        "out_of_date": replacement.is_out_of_date,
        "changes": [_change(change, replacement) for change in replacement.changes],
    }


def _change(change: Change, replacement: Replacement) -> dict[str, Any]:
    stated = replacement.statement_of(change) if change.answered_by else None
    answer = None
    if stated is not None:
        answer = {
            "reason": stated.reason,
            "approved_by": stated.approved_by,
            "date": stated.date,
            "place": stated.about.span.place,
        }
    return {
        "kind": change.kind.value,
        "name": change.name,
        "change": change.verb,
        "how": list(change.how),
        "library": change.was,
        "fleet": change.now,
        "library_place": change.was_at.place if change.was_at else "",
        "fleet_place": change.now_at.place if change.now_at else "",
        "given_up": bool(change.answered_by),
        "answer": answer,
    }
