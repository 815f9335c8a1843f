"""What a replacement may not lose silently.

Takes in a replacement; gives out findings: cautions, states and trucks that it gives up and nobody
answers for, answers for what is not given up, and an original that has changed since.
Refuses nothing that somebody has put his name to: that stands in the report.
"""

from guidegen.finding import Findings, Note, Rule
from guidegen.procedures.condition_words import as_typed
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.own import rules
from guidegen.procedures.own.compare_lamps import answerable
from guidegen.procedures.own.model import Change, Kind, Replacement, Statement
from guidegen.procedures.own.read_parts import STATEMENTS


def check_given_up(
    replacement: Replacement, template: ProcedureTemplate, findings: Findings
) -> None:
    """Report what *replacement* gives up and nobody answers for.

    Args:
        replacement: With all changes.
        template: The procedure of the fleet.
        findings: Takes the faults.
    """
    for change in replacement.changes:
        if change.answered_by and replacement.statement_of(change) is None:
            _report_lost(replacement, change, findings)
    for statement in replacement.statements:
        _check_statement(replacement, statement, findings)
    _check_applies(replacement, template, findings)
    if replacement.is_out_of_date:
        _report_changed(replacement, findings)


def _report_lost(replacement: Replacement, change: Change, findings: Findings) -> None:
    id_, part = replacement.original.id, change.answered_by
    about = f"{{{STATEMENTS[part]}: {change.name}, reason: …, approved_by: …, date: …}}"
    restore = "write the library's state again"
    if change.kind is Kind.CAUTION:
        restore = "write the library's caution again, word for word,"
    notes = [Note(f"in the library: {change.was}", change.was_at)]
    findings.add(
        _rule_of(change),
        change.now_at or replacement.span,
        what=_lost_words(change, id_),
        fix=f"{restore} or have it answered for: `{part}: [{about}]`",
        notes=notes,
    )


def _rule_of(change: Change) -> Rule:
    if change.kind is Kind.STATE:
        return rules.STATE_LOST
    return rules.CAUTION_WEAKENED if change.now else rules.CAUTION_LOST


def _lost_words(change: Change, id_: str) -> str:
    if change.kind is Kind.STATE:
        now = f"is `{change.now}`" if change.now else "is not stated"
        return f"`{id_}` begins with `{change.name}: {change.was}`, and here it {now}"
    if not change.now:
        return f"the caution `{change.name}` of `{id_}` is gone"
    return f"the caution `{change.name}` of `{id_}` may warn less: {', '.join(change.how)}"


def _check_statement(replacement: Replacement, statement: Statement, findings: Findings) -> None:
    name, original = statement.about.text, replacement.original
    if statement.part == "changes_state":
        known = {part.aspect for part in original.state}
    else:
        known = {caution.id for caution in original.cautions}
        if original.lamp is not None:
            known = set(answerable(original))
    kind = STATEMENTS[statement.part]
    if name not in known:
        findings.add(
            rules.REPLACES_NOTHING,
            statement.about.span,
            what=f"`{original.id}` of the library has no {kind} `{name}`",
            fix=f"name one of {', '.join(f'`{each}`' for each in sorted(known)) or 'none'}"
            if known
            else "delete this entry",
            notes=(Note("it stands at", original.span),),
        )
    elif not any(replacement.statement_of(change) is statement for change in replacement.changes):
        findings.add(
            rules.STATEMENT_NEEDLESS,
            statement.about.span,
            what=f"`{statement.part}` answers for `{name}`, which is not given up that way",
            fix="delete this entry, or move it to the list that fits",
        )


def _check_applies(
    replacement: Replacement, template: ProcedureTemplate, findings: Findings
) -> None:
    was, now = replacement.original.applies, template.applies
    if now is None or (was is not None and as_typed(was) == as_typed(now)):
        return
    typed = f"write `applies: {as_typed(was)}`" if was else "delete `applies`"
    findings.add(
        rules.APPLIES_CHANGED,
        replacement.span,
        what=f"it applies to other trucks than `{template.id}` of the library",
        fix=f"{typed}; steps for some trucks have a `when`",
        notes=(Note("the library's stands at", replacement.original.span),),
    )


def _report_changed(replacement: Replacement, findings: Findings) -> None:
    original = replacement.original
    named = (_names(replacement, kind) for kind in (Kind.CAUTION, Kind.STEP))
    others = "; ".join(filter(None, named))
    notes = [Note("it stands at", original.span)]
    if others:
        notes.append(Note(f"other than in it are now: {others}"))
    findings.add(
        rules.ORIGINAL_CHANGED,
        replacement.stated_digest.span,
        what=f"`{original.id}` of the library has changed since it was replaced",
        fix=f"compare the two with `guidegen replaced {original.id}`, take over what is right for "
        f"your trucks, then write `digest: {replacement.digest}`",
        notes=notes,
    )


def _names(replacement: Replacement, kind: Kind) -> str:
    names = [f"`{change.name}`" for change in replacement.changes if change.kind is kind]
    return f"{kind.value}s {', '.join(names)}" if names else ""
