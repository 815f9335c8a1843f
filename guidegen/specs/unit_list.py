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
from guidegen.specs.name_list import read_names
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
        field = info.field_name or ""
        wrong = Refused(
            rules.NOT_A_UNIT_LIST,
            given.span,
            f"`{field}` holds something else than unit numbers",
            f"write `{field}: [T-17, T-18]`",
        )
        return cls(read_names(given, field, wrong, lambda node: UNIT_NUMBER.read(node, field)))
