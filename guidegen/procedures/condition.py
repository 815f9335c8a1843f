"""Conditions as trainers type them.

Takes in a scalar such as ``fitted(clutch) and clutch.brake``; gives out its tree, every name and
literal checked against the catalog of facts.
Refuses whatever is not of the closed language: nothing typed here is ever run.
"""

from guidegen.finding import Findings
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import find_asked, is_section, shortened
from guidegen.procedures.condition_leaves import Literal, Question, check_alone, check_question
from guidegen.procedures.condition_model import (
    And,
    Asks,
    Compares,
    Condition,
    Holds,
    Not,
    Or,
    Predicate,
    Relation,
)
from guidegen.procedures.condition_tokens import (
    EXAMPLE,
    Token,
    TokenKind,
    Unreadable,
    tokens_of,
)
from guidegen.procedures.placement import Placement, place_text
from guidegen.source import Span
from guidegen.specs.equipment import FactField
from guidegen.yaml_nodes import Scalar

MAX_DEPTH = 20
"""Brackets and `not`s in one another. Nobody reads more, and our own stack is not the reader's."""

LONGEST_CONDITION = 1000
"""Characters; some twenty questions. Nobody checks more by eye."""

_PREDICATES = {predicate.value: predicate for predicate in Predicate}
_RELATIONS = {relation.value: relation for relation in Relation if relation is not Relation.IN}
_LITERALS = frozenset({TokenKind.TEXT, TokenKind.NUMBER})
_TRUE_OR_FALSE = frozenset({"yes", "no", "true", "false"})


def read_condition(scalar: Scalar, findings: Findings) -> Condition | None:
    """Return the condition that *scalar* holds.

    Args:
        scalar: As typed, in whatever quotes.
        findings: Takes the first thing that cannot be read, or else every name that is not in
            the catalog and every comparison that makes no sense.

    Returns:
        The condition; nothing if there is a finding.
    """
    if scalar.is_plain and not scalar.text:
        return None  # missing or refused, and the YAML reader has said so
    if len(scalar.text) > LONGEST_CONDITION:
        what = f"this condition has more than {LONGEST_CONDITION} characters"
        fix = "give the steps conditions of their own, each with fewer parts"
        findings.add(rules.UNREADABLE_CONDITION, scalar.span, what=what, fix=fix)
        return None
    placement = place_text(scalar)
    faults = Findings()
    try:
        condition = _Parser(tokens_of(scalar.text), placement, faults).read()
    except Unreadable as fault:
        span = placement.span(fault.start, fault.end)
        findings.add(rules.UNREADABLE_CONDITION, span, what=fault.what, fix=fault.fix)
        return None
    findings.extend(faults)
    return None if faults.has_errors else condition


class _Parser:
    """Descends from `or` over `and` and `not` to single questions."""

    def __init__(self, tokens: tuple[Token, ...], placement: Placement, findings: Findings) -> None:
        self._tokens = tokens
        self._placement = placement
        self._findings = findings
        self._next = 0
        self._depth = 0

    def read(self) -> Condition:
        """Return the condition that all tokens make.

        Raises:
            Unreadable: They make none.
        """
        condition = self._read_or()
        if self._token.kind is not TokenKind.END:
            raise self._unreadable("`and`, `or` or the end of the condition")
        return condition

    def _read_or(self) -> Condition:
        members = [self._read_and()]
        while self._takes("or"):
            members.append(self._read_and())
        return members[0] if len(members) == 1 else Or(tuple(members))

    def _read_and(self) -> Condition:
        members = [self._read_not()]
        while self._takes("and"):
            members.append(self._read_not())
        return members[0] if len(members) == 1 else And(tuple(members))

    def _read_not(self) -> Condition:
        self._depth += 1
        if self._depth > MAX_DEPTH:
            token = self._token
            what = f"brackets and `not` stand more than {MAX_DEPTH} deep in one another"
            raise Unreadable(token.start, token.end, what, "write the condition shorter")
        condition = Not(self._read_not()) if self._takes("not") else self._read_question()
        self._depth -= 1
        return condition

    def _read_question(self) -> Condition:
        token = self._token
        if self._takes("("):
            inner = self._read_or()
            self._expect(")", "`and`, `or` or `)`")
            return inner
        if token.kind in _LITERALS:
            return self._read_membership()
        if token.kind is not TokenKind.NAME:
            raise self._unreadable("a fact or `fitted(…)`")
        self._next += 1
        if self._token.text == "(" and self._token.kind is TokenKind.SIGN:
            return self._read_predicate(token)
        if token.text in _PREDICATES:
            raise self._unreadable(f"`(` after `{token.text}`")
        return self._read_about_fact(token)

    def _read_predicate(self, called: Token) -> Condition:
        predicate = _PREDICATES.get(called.text)
        if predicate is None:
            what = f"a condition has no question `{called.text}(…)`"
            fix = "ask `fitted(…)` of a section or `on_record(…)` of a fact"
            raise Unreadable(called.start, called.end, what, fix)
        self._next += 1
        token = self._token
        if token.kind is not TokenKind.NAME:
            asked = "a section" if predicate is Predicate.FITTED else "a fact"
            raise self._unreadable(f"the name of {asked}")
        self._next += 1
        end = self._expect(")", "`)`").end
        span = self._span(token)
        if predicate is Predicate.FITTED:
            is_section(token.text, span, self._findings)
        else:
            find_asked(token.text, span, self._findings)
        return Asks(predicate, token.text, self._placement.span(called.start, end))

    def _read_about_fact(self, name: Token) -> Condition:
        fact = find_asked(name.text, self._span(name), self._findings)
        relation = self._takes_relation()
        if relation is not None:
            literal = self._read_literal()
            span = self._placement.span(name.start, self._token_before.end)
            self._check(fact, relation, literal, span)
            return Compares(name.text, relation, literal.text, span)
        if self._takes("in"):
            return self._read_alternatives(name, fact)
        if self._takes("not"):
            self._expect("in", "`in`")
            return Not(self._read_alternatives(name, fact))
        if fact is not None:
            check_alone(fact, self._span(name), self._findings)
        return Holds(name.text, self._span(name))

    def _read_alternatives(self, name: Token, fact: FactField | None) -> Condition:
        """Read the bracketed literals after `in`; each is a comparison of its own."""
        self._expect("(", "`(` and values with commas between them")
        literals = [self._read_literal()]
        while self._takes(","):
            literals.append(self._read_literal())
        end = self._expect(")", "`,` or `)`").end
        span = self._placement.span(name.start, end)
        for literal in literals:
            self._check(fact, Relation.EQUAL, literal, span)
        each = [Compares(name.text, Relation.EQUAL, literal.text, span) for literal in literals]
        return each[0] if len(each) == 1 else Or(tuple(each))

    def _read_membership(self) -> Condition:
        start = self._token
        literal = self._read_literal()
        if self._token.text in _RELATIONS:
            what = f"{start.shown} stands before `{self._token.text}`, where a fact belongs"
            fix = "put the fact first and the value after it"
            raise Unreadable(start.start, start.end, what, fix)
        is_negated = self._takes("not")
        self._expect("in", "`in` and a fact that is a list")
        name = self._token
        if name.kind is not TokenKind.NAME:
            raise self._unreadable("a fact that is a list")
        self._next += 1
        span = self._placement.span(start.start, name.end)
        fact = find_asked(name.text, self._span(name), self._findings)
        self._check(fact, Relation.IN, literal, span)
        condition = Compares(name.text, Relation.IN, literal.text, span)
        return Not(condition) if is_negated else condition

    def _read_literal(self) -> Literal:
        token = self._token
        if token.kind in _LITERALS:
            self._next += 1
            return Literal(token.text, token.kind is TokenKind.TEXT, self._span(token))
        if token.kind is TokenKind.NAME and "." not in token.text:
            what = f"`{token.text}` stands without quotes where a value belongs"
            fix = f'put the value in double quotes: `"{token.text}"`'
            if token.text in _TRUE_OR_FALSE:
                fix = "write a yes-or-no fact on its own, as in `brakes.abs` or `not brakes.abs`"
            raise Unreadable(token.start, token.end, what, fix)
        raise self._unreadable("a value in double quotes or a count")

    def _check(
        self, fact: FactField | None, relation: Relation, literal: Literal, span: Span
    ) -> None:
        if fact is not None:
            check_question(Question(fact, relation, literal, span), self._findings)

    def _takes_relation(self) -> Relation | None:
        token = self._token
        relation = _RELATIONS.get(token.text) if token.kind is TokenKind.SIGN else None
        if relation is not None:
            self._next += 1
        return relation

    @property
    def _token(self) -> Token:
        return self._tokens[self._next]

    @property
    def _token_before(self) -> Token:
        return self._tokens[self._next - 1]

    def _takes(self, word: str) -> bool:
        """Go past *word* if it comes next; say whether it did."""
        token = self._token
        if token.text != word or token.kind not in (TokenKind.KEYWORD, TokenKind.SIGN):
            return False
        self._next += 1
        return True

    def _expect(self, word: str, wanted: str) -> Token:
        if not self._takes(word):
            raise self._unreadable(wanted)
        return self._token_before

    def _span(self, token: Token) -> Span:
        return self._placement.span(token.start, token.end)

    def _unreadable(self, wanted: str) -> Unreadable:
        """Return the words for the next token, where *wanted* had to stand."""
        token = self._token
        before = self._token_before if self._next else token
        if before.kind is TokenKind.NUMBER and token.kind is TokenKind.NAME:
            amount = f"{before.text} {token.text}"
            what = f"the amount `{amount}` stands without quotes"
            fix = f'put it in double quotes: `"{amount}"`'
            return Unreadable(before.start, token.end, what, fix)
        what = f"{token.shown} stands where {wanted} belongs"
        return Unreadable(token.start, token.end, shortened(what, 120), _cure(token, wanted))


def _cure(token: Token, wanted: str) -> str:
    """Return what to type, for the slips that are known."""
    if token.kind is TokenKind.END and wanted.endswith("`)`"):
        return "write `)` here, or delete the bracket that it would close"
    if token.text.lower() in {"and", "or", "not", "in"} and token.kind is TokenKind.NAME:
        return f"write `{token.text.lower()}` in small letters"
    if token.text in {"is", "equals"}:
        return f"write `==` instead of `{token.text}`"
    return f"write it as in `{EXAMPLE}`"
