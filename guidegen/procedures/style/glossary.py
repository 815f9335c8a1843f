"""The glossary of the library: one name for each thing, and the verbs of instructions.

Takes in the bytes of ``glossary.yml``; gives out the names with the synonyms that they keep out.
Refuses a word that is wanted and banned, or banned for two things.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.finding import Findings, Note, nearest
from guidegen.procedures.style import rules
from guidegen.source import Span
from guidegen.yaml_nodes import Listing, Node, Scalar, Table, read_yaml

PARTS = ("terms", "verbs")


@dataclass(frozen=True, slots=True)
class Glossary:
    """One name for each thing."""

    terms: Mapping[str, tuple[str, ...]]
    """Names that procedures use, each with the synonyms that they do not use."""

    verbs: frozenset[str]
    """Verbs that an instruction may begin with, in small letters."""

    @property
    def instead_of(self) -> Mapping[str, str]:
        """The name to use, by banned synonym."""
        pairs = ((word, term) for term, words in self.terms.items() for word in words)
        return MappingProxyType(dict(pairs))


def read_glossary(path: str, raw: bytes, findings: Findings) -> Glossary | None:
    """Return the glossary that the file holds, or nothing if it has faults.

    Args:
        path: For people: relative to the project, with forward slashes.
        raw: The file as it lies on the disk.
        findings: Takes its faults.
    """
    own = Findings()
    table = read_yaml(path, raw, own)
    glossary = None if table is None else _read(table, own)
    findings.extend(own)
    return None if own.has_errors else glossary


def _read(table: Table, findings: Findings) -> Glossary:
    for name, (key, _) in table.entries.items():
        if name not in PARTS:
            near = nearest(name, PARTS)
            fix = f"did you mean `{near}`?" if near else "its parts are `terms` and `verbs`"
            findings.add(
                rules.GLOSSARY_UNREADABLE,
                key.span,
                what=f"the glossary has no part `{name}`",
                fix=fix,
            )
    terms = table.get("terms")
    pairs = dict(_terms(terms, findings)) if isinstance(terms, Table) else {}
    if not isinstance(terms, Table):
        _report_kind(
            terms, table, "terms", "a table, as in `parking brake: [hand brake]`", findings
        )
    verbs = _words(table.get("verbs"), table, "verbs", findings)
    return Glossary(MappingProxyType(pairs), frozenset(verb.text.lower() for verb in verbs))


def _terms(table: Table, findings: Findings) -> Iterator[tuple[str, tuple[str, ...]]]:
    taken: dict[str, Span] = {}
    wanted = {name.lower(): key.span for name, (key, _) in table.entries.items()}
    for name, (_, node) in table.entries.items():
        words = _words(node, table, name, findings)
        for word in words:
            text = word.text.lower()
            if text in wanted or text in taken:
                _report_contradiction(word, wanted.get(text) or taken[text], findings)
            taken.setdefault(text, word.span)
        yield name, tuple(word.text for word in words)


def _words(node: Node | None, holder: Table, name: str, findings: Findings) -> tuple[Scalar, ...]:
    if isinstance(node, Listing):
        words = tuple(entry for entry in node.nodes if isinstance(entry, Scalar) and entry.text)
        if len(words) == len(node.nodes) and words:
            return words
    _report_kind(node, holder, name, f"a list of words, as in `{name}: [one, another]`", findings)
    return ()


def _report_kind(
    node: Node | None, holder: Table, name: str, wanted: str, findings: Findings
) -> None:
    findings.add(
        rules.GLOSSARY_UNREADABLE,
        node.span if node else holder.span,
        what=f"`{name}` in the glossary is not a {'table' if name == 'terms' else 'list'}",
        fix=f"write {wanted}",
    )


def _report_contradiction(word: Scalar, other: Span, findings: Findings) -> None:
    findings.add(
        rules.GLOSSARY_CONTRADICTS,
        word.span,
        what=f"`{word.text}` is banned here and has another place in the glossary",
        fix="keep one of the two",
        notes=[Note("the other stands at", other)],
    )
