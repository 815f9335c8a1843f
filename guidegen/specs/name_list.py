"""A list of names, such as the procedures of a card.

Takes in a located list as typed; gives out the names, each with its place.
Refuses tables and lists within the list, and a name that stands there twice.
"""

from collections.abc import Callable
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
        wrong = Refused(
            rules.NOT_A_NAME_LIST,
            given.span,
            f"`{field}` holds something else than names",
            f"write `{field}: [one-name, another-name]`",
        )
        return cls(read_names(given, field, wrong, lambda node: node.text))


def read_names(
    given: Scalar | Listing | Table, field: str, wrong: Refused, read: Callable[[Scalar], str]
) -> tuple[Stated, ...]:
    """Return the names in *given*, each with its place; one name may stand without a list.

    Args:
        given: As typed.
        field: What it is called there, for the words of findings.
        wrong: What is raised, with the place put right, for an entry that is no name.
        read: Returns a name, or raises what is wrong with it.

    Raises:
        Refused: If an entry is no name, or a name stands there twice.
    """
    names: list[Stated] = []
    for node in given.nodes if isinstance(given, Listing) else (given,):
        if not isinstance(node, Scalar):
            raise Refused(wrong.rule, node.span, wrong.what, wrong.fix)
        name = read(node)
        if any(name == other.value for other in names):
            raise Refused(
                rules.CHOICE_TWICE,
                node.span,
                f"`{field}` names `{name}` twice",
                "delete one of the two",
            )
        names.append(Stated(name, node.span))
    return tuple(names)
