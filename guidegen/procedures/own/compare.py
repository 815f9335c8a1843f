"""What a replacement has otherwise than the procedure of the library.

Takes in both templates; gives out every change, cautions first. Refuses to weigh words: a caution
that is worded otherwise warns less until somebody says that it does not.
"""

import re
from collections.abc import Iterator, Mapping

from guidegen.procedures.condition_model import Condition
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.model import (
    CautionTemplate,
    OutcomeTemplate,
    Placeholder,
    ProcedureTemplate,
    Signal,
    StepTemplate,
    TextTemplate,
)
from guidegen.procedures.own.model import Change, Kind
from guidegen.procedures.texts import texts_of
from guidegen.source import Span

_GRAVEST_FIRST = tuple(Signal)
_NUMBER = re.compile(r"[0-9]+(?:[.,/][0-9]+)*")


def compare(old: ProcedureTemplate, new: ProcedureTemplate) -> tuple[Change, ...]:
    """Return what *new* has otherwise than *old*, each in the order of the file."""
    return (
        *_cautions(old, new),
        *_steps(old, new),
        *_numbers(old, new),
        *_states(old, new),
        *_outcomes("expect", old.expect, new.expect),
        *_outcomes("if_not", old.if_not, new.if_not),
        *_others(old, new),
    )


def words_of(text: TextTemplate) -> str:
    """Return *text* as typed, placeholders in braces."""
    parts = (f"{{{{ {p.fact} }}}}" if isinstance(p, Placeholder) else p.text for p in text.parts)
    return " ".join("".join(parts).split())


def _cautions(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    now = {caution.id: caution for caution in new.cautions}
    for caution in old.cautions:
        other = now.pop(caution.id, None)
        if other is None:
            yield Change(Kind.CAUTION, caution.id, _caution_words(caution), "", caution.span)
            continue
        how = tuple(_weaker(caution, other, old, new))
        was, is_ = _caution_words(caution), _caution_words(other)
        if how or was != is_:
            yield Change(Kind.CAUTION, caution.id, was, is_, caution.span, other.span, how)
    for caution in now.values():
        yield Change(Kind.CAUTION, caution.id, "", _caution_words(caution), None, caution.span)


def _weaker(
    was: CautionTemplate, now: CautionTemplate, old: ProcedureTemplate, new: ProcedureTemplate
) -> Iterator[str]:
    """Yield in what *now* may warn less than *was*."""
    if _GRAVEST_FIRST.index(now.signal) > _GRAVEST_FIRST.index(was.signal):
        yield f"{now.signal.value} instead of {was.signal.value}"
    for name in ("hazard", "consequence", "avoid"):
        if words_of(getattr(was, name)) != words_of(getattr(now, name)):
            yield f"another {name}"
    if not _is_as_wide(was.when, now.when):
        yield "another condition"
    steps, others = _by_id(old), _by_id(new)
    guarded = steps.get(was.guards)
    guards = others.get(now.guards)
    if guards is not None and not _is_as_wide(guarded.when if guarded else None, guards.when):
        yield f"its step `{now.guards}` stands under another condition"
    late = [name for name in _from(was.guards, old) if name in set(_before(now.guards, new))]
    if late:
        yield f"it comes after {', '.join(f'`{name}`' for name in late)}"


def _is_as_wide(was: Condition | None, now: Condition | None) -> bool:
    """Whether *now* surely holds wherever *was* does."""
    return now is None or (was is not None and as_typed(was) == as_typed(now))


def _from(guards: str, template: ProcedureTemplate) -> list[str]:
    """Return the ids of the steps that a caution before *guards* comes before."""
    ids = [step.id for step in template.steps]
    return ids[ids.index(guards) :] if guards in ids else []


def _before(guards: str, template: ProcedureTemplate) -> list[str]:
    ids = [step.id for step in template.steps]
    return ids[: ids.index(guards)] if guards in ids else []


def _by_id(template: ProcedureTemplate) -> Mapping[str, StepTemplate]:
    return {step.id: step for step in template.steps}


def _steps(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    now = dict(_by_id(new))
    for step in old.steps:
        other = now.pop(step.id, None)
        was, is_ = _step_words(step), _step_words(other) if other else ""
        if was != is_:
            span = other.text.span if other else None
            yield Change(Kind.STEP, step.id, was, is_, step.text.span, span)
    for step in now.values():
        yield Change(Kind.STEP, step.id, "", _step_words(step), None, step.text.span)
    kept = [step.id for step in old.steps if step.id in _by_id(new)]
    order = [step.id for step in new.steps if step.id in _by_id(old)]
    if kept != order:
        yield Change(Kind.STEP, "order", ", ".join(kept), ", ".join(order), old.span, new.span)


def _step_words(step: StepTemplate) -> str:
    timed = f" [{step.timer.kind.value}]" if step.timer else ""
    return f"{words_of(step.text)}{timed}{_when(step.when)}"


def _caution_words(caution: CautionTemplate) -> str:
    said = " ".join(map(words_of, (caution.hazard, caution.consequence, caution.avoid)))
    return f"{caution.signal.value}: {said} [before {caution.guards}]{_when(caution.when)}"


def _when(condition: Condition | None) -> str:
    return "" if condition is None else f" [when {as_typed(condition)}]"


def _numbers(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    was, now = dict(_numbers_of(old)), dict(_numbers_of(new))
    for name, (where, span) in was.items():
        if name not in now:
            yield Change(Kind.NUMBER, name, where, "", span)
    for name, (where, span) in now.items():
        if name not in was:
            yield Change(Kind.NUMBER, name, "", where, None, span)


def _numbers_of(template: ProcedureTemplate) -> Iterator[tuple[str, tuple[str, Span]]]:
    """Yield facts and typed numbers, with the id of the text or step that has each."""
    for text in texts_of(template):
        where = text.id.partition(".")[2]
        for part in text.parts:
            if isinstance(part, Placeholder):
                yield part.fact, (where, part.span)
            else:
                yield from ((typed, (where, text.span)) for typed in _NUMBER.findall(part.text))
    for step in template.steps:
        where = f"timer of {step.id}"
        if step.timer is not None:
            facts = (step.timer.time, *(limit.fact for limit in step.timer.limits))
            yield from ((f"{fact} (timer)", (where, step.timer.span)) for fact in facts if fact)


def _states(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    was = {part.aspect: part for part in old.state}
    now = {part.aspect: part for part in new.state}
    for aspect in dict.fromkeys((*was, *now)):
        before, after = was.get(aspect), now.get(aspect)
        words = before.state if before else "", after.state if after else ""
        if words[0] != words[1]:
            spans = before.span if before else None, after.span if after else None
            yield Change(Kind.STATE, aspect, *words, *spans)


def _outcomes(
    name: str, old: tuple[OutcomeTemplate, ...], new: tuple[OutcomeTemplate, ...]
) -> Iterator[Change]:
    was = {f"{words_of(each.text)}{_when(each.when)}": each.text.span for each in old}
    now = {f"{words_of(each.text)}{_when(each.when)}": each.text.span for each in new}
    yield from (
        Change(Kind.OUTCOME, name, words, "", span)
        for words, span in was.items()
        if words not in now
    )
    yield from (
        Change(Kind.OUTCOME, name, "", words, None, span)
        for words, span in now.items()
        if words not in was
    )


def _others(old: ProcedureTemplate, new: ProcedureTemplate) -> Iterator[Change]:
    parts = {
        "title": (words_of(old.title), words_of(new.title)),
        "chapter": (old.chapter, new.chapter),
        "station": (_stations(old), _stations(new)),
        "figure": (_figure(old), _figure(new)),
        "round": (_round(old), _round(new)),
    }
    for name, (was, now) in parts.items():
        if was != now:
            yield Change(Kind.OTHER, name, was, now, old.span, new.span)


def _stations(template: ProcedureTemplate) -> str:
    some = [f"{each.station}{_when(each.when)}" for each in template.stations]
    return ", ".join((*some, template.station))


def _figure(template: ProcedureTemplate) -> str:
    return f"{template.figure.kind}{_when(template.figure.when)}" if template.figure else ""


def _round(template: ProcedureTemplate) -> str:
    return template.round.part.value if template.round else ""
