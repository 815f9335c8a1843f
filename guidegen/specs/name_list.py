"""A list of names, such as the procedures of a card.

Takes in a located list as typed; gives out the names, each with its place.
Refuses tables and lists within the list, and a name that stands there twice.
"""

from dataclasses import dataclass
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from guidegen.specs import rules
from guidegen.specs.fields import Refused, Stated
from guidegen.yaml_nodes import Listing, Scalar, Table


@dataclass(frozen=True, slots=True)
class NameList:
    """Names in the order typed; whether there is such a thing is for others to say."""

    names: tuple[Stated, ...]

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: object, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(cls._validate)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "array", "items": {"type": "string"}, "uniqueItems": True}

    @classmethod
    def _validate(cls, given: Scalar | Listing | Table, info: ValidationInfo[Any]) -> "NameList":
        field = info.field_name or ""
        nodes = given.nodes if isinstance(given, Listing) else (given,)
        names: list[Stated] = []
        for node in nodes:
            if not isinstance(node, Scalar):
                raise Refused(
                    rules.NOT_A_NAME_LIST,
                    node.span,
                    f"`{field}` holds something else than names",
                    f"write `{field}: [one-name, another-name]`",
                )
            if any(node.text == other.value for other in names):
                raise Refused(
                    rules.CHOICE_TWICE,
                    node.span,
                    f"`{field}` names `{node.text}` twice",
                    "delete one of the two",
                )
            names.append(Stated(node.text, node.span))
        return cls(tuple(names))
