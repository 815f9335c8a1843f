"""What a section of a spec is: given, not fitted, or absent.

Takes in a table or the words ``not fitted``; gives out a section's stated values, or the mark
that the truck does not have the thing. Refuses anything else, since a blank is not an answer.
"""

from dataclasses import dataclass
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, Discriminator, GetCoreSchemaHandler, Tag
from pydantic import GetJsonSchemaHandler as JsonHandler
from pydantic_core import CoreSchema, core_schema

from guidegen.source import Span
from guidegen.specs.described import descriptions
from guidegen.specs.fields import NOT_FITTED
from guidegen.yaml_nodes import Scalar


class Section(BaseModel):
    """Fields that belong together. A field that is left out is not on record."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        # A run reads files of a few shapes; sections are built as parts of these alone.
        defer_build=True,
    )

    @classmethod
    def __pydantic_init_subclass__(cls, **_given: object) -> None:
        for name, words in descriptions(cls).items():
            cls.model_fields[name].description = words


@dataclass(frozen=True, slots=True)
class NotFitted:
    """The truck does not have the thing."""

    span: Span

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: object, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(cls._validate)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, _schema: CoreSchema, _handler: JsonHandler
    ) -> dict[str, Any]:
        return {"const": NOT_FITTED}

    @classmethod
    def _validate(cls, given: Scalar) -> "NotFitted":
        return cls(given.span)


def _state(given: object) -> str:
    return "not_fitted" if isinstance(given, Scalar) else "given"


S = TypeVar("S", bound=Section)

Fitted = Annotated[
    Annotated[S, Tag("given")] | Annotated[NotFitted, Tag("not_fitted")], Discriminator(_state)
]
"""A section in either of its stated states; a third, absent, is the field's default."""
