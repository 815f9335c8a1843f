"""States that cannot be, or cannot be reached, or cannot be reached in one round.

Takes in procedures, tasks and worlds; gives out findings.
Refuses to blame a procedure that another one keeps from being done: where two exclude each other,
both are named.
"""

from collections.abc import Iterable

from guidegen.finding import Findings, Note
from guidegen.guide.model import Guide
from guidegen.procedures.model import RoundPart
from guidegen.procedures.words import STATES
from guidegen.round import rules
from guidegen.round.bounds import Bounds
from guidegen.round.fewest import Fewest
from guidegen.round.model import State
from guidegen.round.states import can_all_hold, meets, needs_of
from guidegen.round.tasks import Task
from guidegen.round.worlds import Worlds
from guidegen.source import Span


def report_contradictions(guide: Guide, tasks: Iterable[Task], findings: Findings) -> None:
    """Report every state of a procedure, or of its part in the round, that no truck can be in."""
    reported = set()
    for procedure in (each for chapter in guide.chapters for each in chapter.procedures):
        if not can_all_hold(needs_of(procedure.state)):
            reported.add(procedure.id)
            asked = f"`{procedure.id}` asks for"
            _add_contradiction(asked, procedure.state, procedure.span, guide, findings)
    for task in tasks:
        if task.procedure not in reported and not can_all_hold(task.needs):
            asked = f"`{task.procedure}` asks for"
            _add_contradiction(asked, task.asks, task.span, guide, findings)
        if not can_all_hold(needs_of(task.effects)):
            left = f"`{task.procedure}` leaves"
            _add_contradiction(left, task.effects, task.span, guide, findings)


def report_out_of_reach(guide: Guide, worlds: Worlds, bounds: Bounds, findings: Findings) -> None:
    """Report every task that can be done in no world that the round can come into."""
    able = ending = 0
    for world, tasks in enumerate(bounds.doable):
        able |= tasks
        ending |= tasks if bounds.comes_to_rest(world) else 0
    for number, task in enumerate(worlds.tasks):
        if not task.is_wanted:
            continue
        if not able >> number & 1:
            _add_out_of_reach(guide, worlds, task, findings)
        elif not ending >> number & 1:
            findings.add(
                rules.LEFT_OPEN,
                task.span,
                what=f"`{task.procedure}` needs `access: open`, and nothing shuts it afterwards",
                fix="give the procedure that shuts it `part: means` and `leaves: [{access: shut}]`",
                unit=guide.number,
            )


def report_exclusion(guide: Guide, worlds: Worlds, fewest: Fewest, findings: Findings) -> None:
    """Report checks of which each can be done, but not all in one round: as few as show it."""
    kept = worlds.wanted
    checks = [n for n, task in enumerate(worlds.tasks) if task.part is RoundPart.CHECK]
    for number in checks:
        if fewest.changes(kept & ~(1 << number)) is None:
            kept &= ~(1 << number)
    # What comes first must come anyway, so it is to blame only if nothing else is.
    blamed = [number for number in checks if kept >> number & 1]
    tasks = [worlds.tasks[number] for number in blamed] or _firsts(worlds)
    names = " and ".join(f"`{task.procedure}`" for task in tasks)
    findings.add(
        rules.CHECKS_EXCLUDE_ONE_ANOTHER,
        tasks[0].span,
        what=f"{names} cannot be done in one round of {guide.number}",
        fix="look at what each needs and leaves; take one out of the round, or change its `round`",
        notes=[Note(f"`{task.procedure}` needs {_words(task.asks)}", task.span) for task in tasks],
        unit=guide.number,
    )


def _firsts(worlds: Worlds) -> list[Task]:
    return [task for task in worlds.tasks if task.part is RoundPart.FIRST]


def _add_contradiction(
    begin: str, states: tuple[State, ...], span: Span, guide: Guide, findings: Findings
) -> None:
    findings.add(
        rules.STATE_CONTRADICTS_ITSELF,
        span,
        what=f"{begin} {_words(_least(states))}, which no truck can be in at once",
        fix="delete one of them",
        unit=guide.number,
    )


def _add_out_of_reach(guide: Guide, worlds: Worlds, task: Task, findings: Findings) -> None:
    never = [
        state
        for state in task.asks
        if not any(meets(world, needs_of([state])) for world in worlds.worlds)
    ]
    asked = never or list(task.asks)
    together = "" if len(asked) == 1 else " at once"
    findings.add(
        rules.STATE_OUT_OF_REACH,
        task.span,
        what=f"`{task.procedure}` needs {_words(tuple(asked))}{together}, and nothing in the round "
        f"of {guide.number} brings that about",
        fix="add it to the `leaves` of the procedure that does, with `round: {part: means}`",
        unit=guide.number,
    )


def _least(states: tuple[State, ...]) -> tuple[State, ...]:
    """Return as few of *states* as still contradict one another."""
    kept = list(states)
    for state in states:
        without = [other for other in kept if other is not state]
        if not can_all_hold(needs_of(without)):
            kept = without
    return tuple(kept)


def _words(states: tuple[State, ...]) -> str:
    words = [f"`{aspect}: {state}` ({STATES[aspect][state]})" for aspect, state in states]
    return " and ".join(words)
