"""The order of procedures within a guide.

Takes in the order file of the library: for each chapter its procedures; gives out the library in
that order. Refuses a procedure that stands in no place or in two, since drivers work from top to
bottom.
"""

from collections.abc import Mapping
from types import MappingProxyType

from guidegen.finding import Findings, Rule, nearest
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.words import CHAPTERS
from guidegen.yaml_nodes import Listing, Scalar, read_yaml

WITHOUT_PLACE = Rule(
    "procedure-without-place", "a driver who works from top to bottom meets it at the wrong time"
)
PLACE_WITHOUT_PROCEDURE = Rule(
    "place-without-procedure", "the procedure that was meant here is missing from every guide"
)
OTHER_CHAPTER = Rule(
    "place-in-other-chapter", "the driver looks for it in one chapter, and it stands in another"
)


def read_order(path: str, raw: bytes, findings: Findings) -> tuple[tuple[str, Scalar], ...]:
    """Return chapter and procedure id of each place, in order."""
    table = read_yaml(path, raw, findings)
    places: list[tuple[str, Scalar]] = []
    for chapter, (key, node) in (table.entries if table else {}).items():
        if chapter not in CHAPTERS:
            near = nearest(chapter, CHAPTERS)
            findings.add(
                OTHER_CHAPTER,
                key.span,
                what=f"there is no chapter `{chapter}`",
                fix=f"did you mean `{near}`?" if near else f"chapters are {', '.join(CHAPTERS)}",
            )
        nodes = node.nodes if isinstance(node, Listing) else (node,)
        places += [(chapter, entry) for entry in nodes if isinstance(entry, Scalar)]
    return tuple(places)


def in_order(
    library: Mapping[str, ProcedureTemplate],
    places: tuple[tuple[str, Scalar], ...],
    findings: Findings,
) -> Mapping[str, ProcedureTemplate]:
    """Return *library* in the order of *places*."""
    ordered: dict[str, ProcedureTemplate] = {}
    for chapter, entry in places:
        template = library.get(entry.text)
        if template is None or entry.text in ordered:
            near = nearest(entry.text, set(library) - set(ordered))
            again = "has a second place" if template else "is no procedure of the library"
            findings.add(
                PLACE_WITHOUT_PROCEDURE,
                entry.span,
                what=f"`{entry.text}` {again}",
                fix=f"did you mean `{near}`?" if near else "delete this line",
            )
        elif template.chapter != chapter:
            findings.add(
                OTHER_CHAPTER,
                entry.span,
                what=f"`{entry.text}` belongs to the chapter `{template.chapter}`",
                fix=f"move this line below `{template.chapter}`",
            )
        else:
            ordered[entry.text] = template
    named = {entry.text for _, entry in places}
    for id_, template in library.items():
        if id_ not in named:
            findings.add(
                WITHOUT_PLACE,
                template.span,
                what=f"`{id_}` has no place in the order of procedures",
                fix=f"add `- {id_}` below `{template.chapter}` in procedure-order.yml",
            )
    return MappingProxyType(ordered)
