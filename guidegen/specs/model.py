"""What one spec file states, flat.

Takes in the values of a file's sections; gives out facts by dotted name, as stated.
Refuses nothing: files have been checked before.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.pickling import numerous
from guidegen.source import Span
from guidegen.specs.fields import Stated


@numerous
@dataclass(frozen=True, slots=True)
class Spec:
    """One unit file, model file or jurisdiction profile."""

    id: str
    """Unit number, model id or jurisdiction."""

    model: str
    """Of a unit: its model. Of a model: itself."""

    span: Span
    """Where the id stands."""

    model_span: Span
    """Where the model's id stands."""

    stated: Mapping[str, Stated]
    """Values by dotted fact name; the file's own source is filled in."""

    given: Mapping[str, Span]
    """Sections that are given, by dotted name."""

    not_fitted: Mapping[str, Span]
    """Sections that the file says are not fitted, by dotted name."""
