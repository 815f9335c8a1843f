"""The unit files of a fleet, each form of file read once.

Takes in paths and bytes; gives out a small record of each file. Works on any part of a fleet, in
any process: what it gives out can be pickled.
Refuses to save on faults: a file in which anything is wrong is read as if it were the only one.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.finding import Finding, Findings
from guidegen.pickling import numerous
from guidegen.source import SourceFile, Span
from guidegen.source_text import read_text
from guidegen.specs.equipment import EQUIPMENT_FACTS, UNIT_NUMBER
from guidegen.specs.fields import Refused, Stated
from guidegen.specs.model import Spec
from guidegen.specs.read import check_own, read_unit
from guidegen.specs.unit_form import NUMBER, OWN, YARD, UnitForm, blanked, form_of, span_in
from guidegen.yaml_nodes import Scalar

_NAMING = (NUMBER, "identity.vin", "identity.plate")
_KINDS = {NUMBER: UNIT_NUMBER, **{name: EQUIPMENT_FACTS[name].field for name in OWN}}


@numerous
@dataclass(frozen=True, slots=True)
class UnitRecord:
    """What one unit file states."""

    path: str
    form: UnitForm | None
    """None if the file has faults."""

    typed: tuple[str, ...] = ()
    """What stands in the form's places, as typed."""

    findings: tuple[Finding, ...] = ()
    """Of the file; also warnings of one that can be used."""

    @property
    def is_usable(self) -> bool:
        """Whether the file states a truck."""
        return self.form is not None

    @property
    def number(self) -> str:
        """Unit number; empty if the file has faults."""
        if self.form is None:
            return ""
        return dict(zip(self.form.names, self.typed, strict=True)).get(NUMBER, self.form.spec.id)

    @property
    def model(self) -> str:
        """Id of its model; empty if the file has faults."""
        return "" if self.form is None else self.form.spec.model

    @property
    def signature(self) -> str:
        """The same for all files that state the same but for number, VIN, plate and yard."""
        return "" if self.form is None else self.form.signature

    @property
    def own_parts(self) -> tuple[str, ...]:
        """All that tells the truck apart from others of its signature, and where it is from.

        A value that the form could not leave out is among them too.
        """
        form = self._usable
        typed = dict(zip(form.names, self.typed, strict=True))
        parts = [typed.get(NUMBER, form.spec.id)]
        for name in OWN:
            stated = form.spec.stated.get(name)
            if stated is not None:
                value = typed.get(name, str(stated.value))
                parts.append(f"{name}\0{value}\0{stated.source!r}")
        return tuple(parts)

    def names(self) -> Iterator[str]:
        """Yield what names the truck: its number, and its VIN and plate if they are stated."""
        yield from filter(None, map(self._own_value, _NAMING))

    @property
    def yard(self) -> str:
        """Id of the truck's yard; empty if none is stated, or the file has faults."""
        return "" if self.form is None else self._own_value(YARD)

    @property
    def file(self) -> SourceFile:
        """The file, its text put together anew."""
        return SourceFile(self.path, self._usable.text(self.typed))

    def own(self) -> Spec:
        """Return what the file states as its truck's own: number, and facts of `OWN`.

        Cheap, with every place in this file and no other. The rest is in `spec`.
        """
        return _own(self._usable, self.path, self.typed)

    def spec(self) -> Spec:
        """Return all that the file states, every place in this file: it is read again."""
        form = self._usable
        if self.path == form.spec.span.file.path:
            return form.spec
        spec = read_unit(self.path, form.text(self.typed).encode(), Findings())
        if spec is None:
            raise ValueError(self.path)
        return spec

    def _own_value(self, name: str) -> str:
        """Return the value of `NUMBER`, or of a fact of `OWN`; empty if it is not stated."""
        form = self._usable
        typed = dict(zip(form.names, self.typed, strict=True))
        if name in typed:
            text = Scalar(typed[name], form.spec.span, is_plain=True)
            return str(_KINDS[name].read(text, name))
        if name == NUMBER:
            return form.spec.id
        stated = form.spec.stated.get(name)
        return "" if stated is None else str(stated.value)

    @property
    def _usable(self) -> UnitForm:
        if self.form is None:
            raise ValueError(self.path)
        return self.form


def read_batch(files: Iterable[tuple[str, bytes]]) -> tuple[UnitRecord, ...]:
    """Return a record of each of *files*, in their order.

    Findings are those that `read_unit` has for each file alone.
    """
    return tuple(_records(files))


def _records(files: Iterable[tuple[str, bytes]]) -> Iterator[UnitRecord]:
    forms: dict[str, UnitForm] = {}
    for path, raw in files:
        unread = Findings()
        file = read_text(path, raw, unread)
        if file is None:
            yield UnitRecord(path, None, (), tuple(_found(path, raw)))
            continue
        cut = blanked(file.text)
        form = forms.get(cut.key)
        if form is not None and form.names and _is_clean(form, path, cut.values):
            yield UnitRecord(path, form, cut.values)
            continue
        own = Findings()
        spec = read_unit(path, raw, own)
        if spec is None:
            yield UnitRecord(path, None, (), tuple(own))
            continue
        made = form_of(spec, spec.span.file, cut)
        if not len(own) and made.names:
            forms.setdefault(cut.key, made)
        yield UnitRecord(path, made, cut.values if made.names else (), tuple(own))


def _found(path: str, raw: bytes) -> Findings:
    own = Findings()
    read_unit(path, raw, own)
    return own


def _is_clean(form: UnitForm, path: str, values: tuple[str, ...]) -> bool:
    """Whether the file says of itself what it may."""
    try:
        own = _own(form, path, values)
    except Refused:
        return False
    found = Findings()
    check_own(path, own, found)
    return not len(found)


def _own(form: UnitForm, path: str, values: tuple[str, ...]) -> Spec:
    """Return a spec of what is a truck's own, and of the year, which its VIN is checked with.

    Raises:
        Refused: A value is none of its kind.
    """
    file = SourceFile(path, form.text(values))
    first = form.spec
    typed = dict(zip(form.names, values, strict=True))
    places: dict[str, Span] = {}
    said: dict[str, str] = {}
    for name, text in typed.items():
        at = first.span if name == NUMBER else first.stated[name].span
        places[name] = span_in(file, at, _between(at), _quoted_like(at, text))
        said[name] = str(_KINDS[name].read(Scalar(text, places[name], is_plain=True), name))
    stated: dict[str, Stated] = {}
    for name in (*OWN, "identity.year"):
        known = first.stated.get(name)
        if known is None:
            continue
        place = places.get(name, _moved(known.span, file))
        value = said.get(name, known.value)
        stated[name] = Stated(value, place, known.source, known.quoted, known.recorded)
    none = MappingProxyType[str, Span]({})
    return Spec(
        said.get(NUMBER, first.id),
        first.model,
        places.get(NUMBER, _moved(first.span, file)),
        _moved(first.model_span, file),
        MappingProxyType(stated),
        none,
        none,
    )


def _between(span: Span) -> str:
    """Return the text that stands at *span*, which is on one line."""
    return span.file.line(span.line)[span.column - 1 : span.end_column - 1]


def _quoted_like(span: Span, text: str) -> str:
    quote = _between(span)[:1]
    return f"{quote}{text}{quote}" if quote in {"'", '"'} else text


def _moved(span: Span, file: SourceFile) -> Span:
    return Span(file, span.line, span.column, span.end_line, span.end_column)
