"""Conditions that stand under other conditions.

Takes in a procedure; gives out findings for conditions that the procedure's own condition, or
that of the step beside them, has already answered.
Refuses a caution that is printed on no truck on which the step that it guards is printed.
"""

from guidegen.finding import Findings
from guidegen.procedures.condition_check import (
    Given,
    Verdict,
    check_against,
    check_within,
    verdict_within,
)
from guidegen.procedures.condition_model import Condition
from guidegen.procedures.model import ProcedureTemplate, RoundStates


def check_scopes(template: ProcedureTemplate, findings: Findings) -> None:
    """Report conditions of *template* that are dead or needless where they stand."""
    applies = () if template.applies is None else (template.applies,)
    given = Given(applies, "the procedure applies")
    if applies:
        for when in _conditions(template):
            check_within(when, given, findings)
    steps = {step.id: step.when for step in template.steps}
    for caution in template.cautions:
        beside = steps.get(caution.guards)
        if caution.when is None or beside is None:
            continue
        if not applies or verdict_within(caution.when, given) is Verdict.SOMETIMES:
            both = Given((*applies, beside), f"step `{caution.guards}` stands")
            check_against(caution.when, both, findings)


def round_states(template: ProcedureTemplate) -> tuple[RoundStates, ...]:
    """Return all that *template* needs and leaves in the round, in the order of the file."""
    in_round = template.round
    if in_round is None:
        return ()
    later = in_round.later.leaves if in_round.later else ()
    return (*in_round.needs, *in_round.leaves, *later)


def conditions_of(template: ProcedureTemplate) -> tuple[Condition, ...]:
    """Return every condition of *template*, that of the whole procedure first."""
    applies = () if template.applies is None else (template.applies,)
    return (*applies, *_conditions(template))


def _conditions(template: ProcedureTemplate) -> tuple[Condition, ...]:
    timers = [step.timer for step in template.steps if step.timer is not None]
    conditions = (
        *(caution.when for caution in template.cautions),
        *(step.when for step in template.steps),
        *(when for timer in timers for when in (timer.when, *(e.when for e in timer.limits))),
        *(outcome.when for outcome in (*template.expect, *template.if_not)),
        template.figure.when if template.figure else None,
        *(station.when for station in template.stations),
        *(states.when for states in round_states(template)),
    )
    return tuple(when for when in conditions if when is not None)
