"""A list of unit numbers.

Takes in a located list as typed; gives out the numbers, each with its place.
Refuses what cannot be a unit number, and a number that stands there twice.
"""

from dataclasses import dataclass
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from guidegen.specs import rules
from guidegen.specs.equipment import UNIT_NUMBER
from guidegen.specs.fields import Refused, Stated
from guidegen.yaml_nodes import Listing, Scalar, Table


@dataclass(frozen=True, slots=True)
class UnitList:
    """Numbers of units, in the order typed."""

    numbers: tuple[Stated, ...]

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: object, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(cls._validate)

    @classmethod
    def __get_pydantic_json_schema__(
        cls, _schema: CoreSchema, _handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        number = {"type": "string", "pattern": f"^{UNIT_NUMBER.pattern}$"}
        return {"type": "array", "items": number, "uniqueItems": True}

    @classmethod
    def _validate(cls, given: Scalar | Listing | Table, info: ValidationInfo[Any]) -> "UnitList":
        name = info.field_name or ""
        nodes = given.nodes if isinstance(given, Listing) else (given,)
        numbers: list[Stated] = []
        for node in nodes:
            if not isinstance(node, Scalar):
                raise Refused(
                    rules.NOT_A_UNIT_LIST,
                    node.span,
                    f"`{name}` holds something else than unit numbers",
                    f"write `{name}: [T-17, T-18]`",
                )
            number = UNIT_NUMBER.read(node, name)
            if any(number == other.value for other in numbers):
                raise Refused(
                    rules.CHOICE_TWICE,
                    node.span,
                    f"`{name}` names `{number}` twice",
                    "delete one of the two",
                )
            numbers.append(Stated(number, node.span))
        return cls(tuple(numbers))
