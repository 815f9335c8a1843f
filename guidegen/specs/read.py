"""From the text of a spec file to what it states.

Takes in the path and bytes of a file; gives out a spec, or nothing and the findings why.
Refuses unknown fields, values of the wrong kind and files named for another truck; reports all
faults of a file together.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath
from types import MappingProxyType
from typing import Any, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from guidegen.finding import Findings, nearest
from guidegen.source import Span
from guidegen.specs import rules
from guidegen.specs.agree import (
    check_identity,
    check_pressures,
    check_quotes,
    check_sources,
    check_unit_number,
)
from guidegen.specs.equipment import ModelFile, RecordedSection, UnitFile, inner_sections
from guidegen.specs.fields import NOT_FITTED, Recorded, Refused, Stated
from guidegen.specs.fleet import Fleet, FleetFile, fleet_from
from guidegen.specs.model import Spec
from guidegen.specs.paper import CardSection, CardsFile
from guidegen.specs.photos import PhotoSection, PhotosFile
from guidegen.specs.profile import ProfileFile
from guidegen.specs.section import NotFitted, Section
from guidegen.specs.substances import SubstancesFile
from guidegen.specs.theme import ThemeFile
from guidegen.yaml_nodes import Listing, Node, Scalar, Table, read_yaml

S = TypeVar("S", bound=Section)


def read_fleet(path: str, raw: bytes, findings: Findings) -> Fleet | None:
    """Return the fleet of ``fleet.yml``, or nothing if it has faults."""
    file = _read(path, raw, FleetFile, findings)
    return None if file is None else fleet_from(file)


def read_cards(path: str, raw: bytes, findings: Findings) -> tuple[CardSection, ...] | None:
    """Return the cards of the library, or nothing if the file has faults."""
    file = _read(path, raw, CardsFile, findings)
    return None if file is None else file.cards


def read_theme(path: str, raw: bytes, findings: Findings) -> ThemeFile | None:
    """Return how printed matter looks, or nothing if the file has faults."""
    return _read(path, raw, ThemeFile, findings)


def read_photos(path: str, raw: bytes, findings: Findings) -> tuple[PhotoSection, ...] | None:
    """Return the photos that the list states, or nothing if it has faults."""
    file = _read(path, raw, PhotosFile, findings)
    return None if file is None else file.photos


def read_unit(path: str, raw: bytes, findings: Findings) -> Spec | None:
    """Return what a unit file states, or nothing if it has faults."""
    return _read_spec(path, raw, UnitFile, lambda file: (file.unit, file.model), findings)


def read_model(path: str, raw: bytes, findings: Findings) -> Spec | None:
    """Return what a model file states, or nothing if it has faults."""
    return _read_spec(path, raw, ModelFile, lambda file: (file.model, file.model), findings)


def read_profile(path: str, raw: bytes, findings: Findings) -> Spec | None:
    """Return the limits of a jurisdiction, or nothing if the file has faults."""
    file = _read(path, raw, ProfileFile, findings)
    if file is None or file.law.name is None:
        return None
    stated = _sourced(file, findings)
    name = PurePosixPath(path).stem
    none: Mapping[str, Span] = MappingProxyType({})
    span = file.law.name.span
    return None if stated is None else Spec(name, name, span, span, stated, none, none)


def read_substances(path: str, raw: bytes, findings: Findings) -> Mapping[str, Stated] | None:
    """Return what the library knows of fluids by fact name, or nothing if the file has faults."""
    file = _read(path, raw, SubstancesFile, findings)
    return None if file is None else _sourced(file, findings)


def _sourced(file: Section, findings: Findings) -> Mapping[str, Stated] | None:
    """Return what a file of the library states, or nothing if a value lacks its document."""
    stated, _, _ = _flatten(file, _Origin())
    own = Findings()
    check_sources(stated, own)
    check_quotes(stated, own)
    findings.extend(own)
    return None if own.has_errors else MappingProxyType(stated)


U = TypeVar("U", UnitFile, ModelFile)


def _read_spec(
    path: str,
    raw: bytes,
    shape: type[U],
    names: Callable[[U], tuple[Stated, Stated]],
    findings: Findings,
) -> Spec | None:
    own = Findings()
    file = _read(path, raw, shape, own)
    if file is None:
        findings.extend(own)
        return None
    id_, model = names(file)
    source = str(file.source.value) if file.source else ""
    stated, given, not_fitted = _flatten(file, _Origin(source, _recorded_in(file)))
    spec = Spec(
        str(id_.value),
        str(model.value),
        id_.span,
        model.span,
        MappingProxyType({k: v for k, v in stated.items() if "." in k}),
        MappingProxyType(given),
        MappingProxyType(not_fitted),
    )
    check_own(path, spec, own)
    check_pressures(spec.stated, own)
    check_quotes(spec.stated, own)
    findings.extend(own)
    return None if own.has_errors else spec


def check_own(path: str, spec: Spec, findings: Findings) -> None:
    """Report what cannot be true of the number, the VIN and the year of *spec* in the file *path*.

    Looks at nothing else, so that files which share all else are checked for this alone.
    """
    _check_file_name(path, spec, findings)
    check_unit_number(spec, findings)
    check_identity(spec, findings)


def _check_file_name(path: str, spec: Spec, findings: Findings) -> None:
    stem = PurePosixPath(path).stem
    if stem != spec.id:
        findings.add(
            rules.FILE_NAME_DIFFERS,
            spec.span,
            what=f"the file is named `{stem}` and describes `{spec.id}`",
            fix=f"rename the file to `{spec.id}.yml`, or correct the name in it",
        )


def _read(path: str, raw: bytes, shape: type[S], findings: Findings) -> S | None:
    own = Findings()
    table = read_yaml(path, raw, own)
    file: S | None = None
    if table is not None:
        given = _loosen(table, shape, own)
        try:
            file = shape.model_validate(given)
        except ValidationError as error:
            for details in error.errors(include_url=False, include_input=False):
                _report(details, table, shape, own)
    findings.extend(own)
    return None if own.has_errors else file


def _loosen(table: Table, shape: type[Section], findings: Findings) -> dict[str, Any]:
    """Return *table* as the nested dictionaries that pydantic reads, leaves left located."""
    inner = inner_sections(shape)
    loose: dict[str, Any] = {}
    for key, (key_scalar, node) in table.entries.items():
        section = inner.get(key)
        if section is None:
            loose[key] = node
            continue
        match node:
            case Table():
                loose[key] = _loosen(node, section, findings)
            case Listing() if all(isinstance(entry, Table) for entry in node.nodes):
                entries = [entry for entry in node.nodes if isinstance(entry, Table)]
                loose[key] = [_loosen(entry, section, findings) for entry in entries]
            case Scalar(text=text) if text == NOT_FITTED:
                loose[key] = node
            case _:
                _report_no_table(key, node, key_scalar, findings)
    return loose


def _report_no_table(key: str, node: Node, key_scalar: Scalar, findings: Findings) -> None:
    text = f": {node.text}" if isinstance(node, Scalar) else ""
    findings.add(
        rules.VALUE_WHERE_TABLE,
        node.span if isinstance(node, Scalar) else key_scalar.span,
        what=f"`{key}{text}` is not a section",
        fix=f"write its fields below `{key}:`, indented by two blanks, or `{key}: {NOT_FITTED}`",
    )


def _report(details: ErrorDetails, table: Table, shape: type[Section], findings: Findings) -> None:
    path = [step for step in details["loc"] if step not in ("given", "not_fitted")]
    error = details.get("ctx", {}).get("error")
    if isinstance(error, Refused):
        findings.add(error.rule, error.span, what=error.what, fix=error.fix)
        return
    key = str(path[-1])
    holder, holder_shape = _walk(table, shape, path[:-1])
    if details["type"] == "missing":
        findings.add(
            rules.FIELD_MISSING,
            holder.span,
            what=f"`{key}` is missing",
            fix=f"add `{key}: …`; {_description(holder_shape, key)}",
        )
        return
    near = nearest(key, holder_shape.model_fields)
    listed = ", ".join(f"`{name}`" for name in holder_shape.model_fields)
    within = f"`{path[-2]}`" if len(path) > 1 else "this file"
    findings.add(
        rules.UNKNOWN_FIELD,
        holder.key_span(key),
        what=f"{within} has no field `{key}`",
        fix=f"did you mean `{near}`?" if near else f"its fields are {listed}",
    )


def _description(shape: type[Section], key: str) -> str:
    field = shape.model_fields.get(key)
    return (field.description or "").rstrip(".").lower() if field else ""


def _walk(table: Table, shape: type[Section], path: list[int | str]) -> tuple[Table, type[Section]]:
    node: Node = table
    for step in path:
        if isinstance(step, int):
            node = node.nodes[step] if isinstance(node, Listing) else node
            continue
        shape = inner_sections(shape).get(step, shape)
        node = (node.get(step) if isinstance(node, Table) else None) or node
    return (node if isinstance(node, Table) else table), shape


@dataclass(frozen=True, slots=True)
class _Origin:
    """What a file says of all of its values that do not say so themselves."""

    source: str = ""
    recorded: Recorded | None = None

    def fill_in(self, stated: Stated) -> Stated:
        """Return *stated* with what it leaves to the file."""
        return Stated(
            stated.value,
            stated.span,
            stated.source or self.source,
            stated.quoted,
            stated.recorded or self.recorded,
        )


def _recorded_in(file: UnitFile | ModelFile) -> Recorded | None:
    said = file.recorded
    if said is None:
        return None
    return Recorded(str(said.on.value), str(said.by.value) if said.by else "", said.on.span)


def _flatten(
    section: Section, origin: _Origin, prefix: str = ""
) -> tuple[dict[str, Stated], dict[str, Span], dict[str, Span]]:
    stated: dict[str, Stated] = {}
    given: dict[str, Span] = {}
    not_fitted: dict[str, Span] = {}
    for name in type(section).model_fields:
        value = getattr(section, name)
        dotted = prefix + name
        if isinstance(value, Stated):
            stated[dotted] = origin.fill_in(value)
        elif isinstance(value, NotFitted):
            not_fitted[dotted] = value.span
        elif isinstance(value, Section) and not isinstance(value, RecordedSection):
            parts = _flatten(value, origin, f"{dotted}.")
            spans = [one.span for one in parts[0].values()]
            spans += [*parts[1].values(), *parts[2].values()]
            if spans:
                given[dotted] = spans[0]
            stated |= parts[0]
            given |= parts[1]
            not_fitted |= parts[2]
    return stated, given, not_fitted
