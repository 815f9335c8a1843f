"""The parts of a table in a procedure file.

Takes in a table and what its parts may be called; gives out each part in the kind that is asked
for, or a finding.
Refuses parts that nobody reads, parts left out and parts of another kind.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.finding import Findings, Note, Rule, nearest
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.source import Span
from guidegen.yaml_nodes import Listing, Node, Scalar, Table

ID_PATTERN = r"[a-z][a-z0-9]*(-[a-z0-9]+)*"


@dataclass(frozen=True, slots=True)
class TableReader:
    """One table and where its faults go."""

    table: Table
    owner: str
    """What the table is, for the words of findings: ``step `drain```."""

    findings: Findings

    @property
    def head(self) -> Span:
        """Where the table begins: its first name, or its braces if it is empty."""
        first = next(iter(self.table.entries.values()), None)
        return first[0].span if first else self.table.span

    def check_names(self, required: Mapping[str, str], optional: Iterable[str] = ()) -> None:
        """Report parts of other names, and required ones that are left out.

        Args:
            required: What to type for each, as an example.
            optional: Names that may be left out.
        """
        known = [*required, *optional]
        for name, (key, _) in self.table.entries.items():
            if name not in known:
                near = nearest(name, [part for part in known if part not in self.table.entries])
                fix = f"did you mean `{near}`?" if near else f"the parts are {listed(known)}"
                what = f"{self.owner} has no part `{shortened(name)}`"
                self.findings.add(rules.UNKNOWN_PART, key.span, what=what, fix=fix)
        for name, example in required.items():
            if name not in self.table.entries:
                self.add_missing(name, example)

    def add_missing(self, name: str, example: str, rule: Rule = rules.PART_MISSING) -> None:
        """Report that the part *name* is left out, or holds nothing."""
        what = f"{self.owner} does not state its `{name}`"
        node = self.table.get(name)
        span = node.span if node else self.head
        self.findings.add(rule, span, what=what, fix=f"add it, as in `{example}`")

    def text(self, name: str) -> Scalar | None:
        """Return the text of the part *name*; nothing if it has none."""
        node = self.table.get(name)
        if isinstance(node, Listing | Table):
            self.add_wrong_kind(node, f"`{name}`", "one text", f"write `{name}: …` on one line")
            return None
        return None if is_missing(node) else node

    def texts(self, name: str) -> tuple[Scalar, ...]:
        """Return the texts of the list *name*."""
        found = []
        for number, node in enumerate(self.nodes(name), start=1):
            if isinstance(node, Scalar):
                if not is_missing(node):
                    found.append(node)
            else:
                fix = "write one text after the dash; quotes around it if it holds `: `"
                self.add_wrong_kind(node, f"line {number} of `{name}`", "one text", fix)
        return tuple(found)

    def nodes(self, name: str) -> tuple[Node, ...]:
        """Return what stands in the list *name*; nothing if there is no list."""
        node = self.table.get(name)
        if isinstance(node, Listing):
            return node.nodes
        if node is not None and not is_missing(node):
            fix = f"begin each line below `{name}:` with a dash and a blank: `- …`"
            self.add_wrong_kind(node, f"`{name}`", "a list", fix)
        return ()

    def tables(self, name: str, kind: str, example: str) -> tuple["TableReader", ...]:
        """Return the tables of the list *name*, each called *kind* and its id or number."""
        found = []
        for number, node in enumerate(self.nodes(name), start=1):
            if isinstance(node, Table):
                own_id = node.get("id")
                called = f"`{own_id.text}`" if isinstance(own_id, Scalar) else str(number)
                found.append(TableReader(node, f"{kind} {called}", self.findings))
            elif not is_missing(node):
                self.add_wrong_kind(node, f"{kind} {number}", "a table", f"write it as `{example}`")
        return tuple(found)

    def add_wrong_kind(self, node: Node, part: str, wanted: str, fix: str) -> None:
        """Report that *node* is not of the kind that is *wanted*."""
        held = "a table" if isinstance(node, Table) else "a list"
        if isinstance(node, Scalar):
            held = f"the text `{shortened(node.text)}`"
        span = node.span
        if isinstance(node, Table) and node.entries:
            span = next(iter(node.entries.values()))[0].span
        self.findings.add(
            rules.PART_OF_WRONG_KIND, span, what=f"{part} holds {held}, not {wanted}", fix=fix
        )


def is_missing(node: Node | None) -> bool:
    """Whether there is nothing; of an empty plain scalar the YAML reader has said so."""
    return node is None or (isinstance(node, Scalar) and node.is_plain and not node.text)


def choose(
    scalar: Scalar | None, choices: Iterable[str], rule: Rule, kind: str, findings: Findings
) -> str | None:
    """Return the text of *scalar* if it is one of *choices*; else report it under *rule*.

    *kind* is what the choices are, with braces for the one that was typed, as ``chapter {}``.
    """
    if scalar is None:
        return None
    known = tuple(choices)
    if scalar.text in known:
        return scalar.text
    near = nearest(scalar.text, known) or nearest(scalar.text.upper(), known)
    fix = f"choose one of {listed(known)}"
    if near:
        fix = f"did you mean `{near}`? The list: {listed(known)}"
    what = f"there is no {kind.format(f'`{shortened(scalar.text)}`')}"
    findings.add(rule, scalar.span, what=what, fix=fix)
    return None


def check_id(scalar: Scalar, findings: Findings) -> bool:
    """Whether *scalar* can be an id; report it if not."""
    if re.fullmatch(ID_PATTERN, scalar.text):
        return True
    shown = shortened(scalar.text, 40)
    what = f"the id `{shown}` is not of small letters, digits and hyphens, a letter first"
    words = re.findall(r"[a-z0-9]+", scalar.text.lower())
    written = "-".join(words)
    fix = "write an id such as `drain-tanks`"
    if re.fullmatch(ID_PATTERN, written):
        fix = f"write `{written}`"
    findings.add(rules.ID_OF_WRONG_FORM, scalar.span, what=what, fix=fix)
    return False


def check_ids_differ(ids: Iterable[Scalar], kind: str, findings: Findings) -> None:
    """Report every id that stands above already; *kind* is of what, as ``step``."""
    first: dict[str, Scalar] = {}
    for scalar in ids:
        if scalar.text in first:
            findings.add(
                rules.ID_TWICE,
                scalar.span,
                what=f"two {kind}s have the id `{scalar.text}`",
                fix="give one of them another id",
                notes=(Note("first at", first[scalar.text].span),),
            )
        first.setdefault(scalar.text, scalar)
