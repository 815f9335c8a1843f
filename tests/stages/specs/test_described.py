"""The words below fields are those that pydantic itself finds.

Pydantic's ``use_attribute_docstrings`` is the reference: it looks through the source of each class.
"""

import pytest
from pydantic import BaseModel, ConfigDict

from guidegen.specs.described import descriptions
from guidegen.specs.equipment import Equipment, UnitFile
from guidegen.specs.section import Section


class ByPydantic(BaseModel):
    """A class of a module that has others beside it."""

    model_config = ConfigDict(use_attribute_docstrings=True)

    plain: int = 0
    """One line."""

    long: str = ""
    """Two lines, of which
    the second is set in.

        And more.
    """

    bare: bool = False
    other: bool = False  # a remark
    """Behind a remark."""

    def method(self) -> None:
        """No field's."""

    class Inner(BaseModel):
        """Not looked into."""

        plain: int = 1
        """Of another class."""

    last: tuple[int, ...] = ()
    """The last."""


class Heir(ByPydantic):
    """Names one field anew."""

    plain: int = 2
    """Said anew."""


@pytest.mark.parametrize("shape", [ByPydantic, Heir])
def test_each_field_has_the_words_that_pydantic_finds(shape: type[BaseModel]) -> None:
    found = {name: field.description for name, field in shape.model_fields.items()}
    inherited = {} if shape is ByPydantic else descriptions(ByPydantic)

    assert {**inherited, **descriptions(shape)} == {k: v for k, v in found.items() if v}


def test_a_class_without_source_has_no_words() -> None:
    assert not descriptions(type("Made", (), {"__module__": __name__}))
    assert not descriptions(int)


def test_sections_have_the_words_of_their_own_and_of_inherited_fields() -> None:
    assert UnitFile.model_fields["unit"].description == "Number on the door."
    assert UnitFile.model_fields["engine"].description == "Engine"
    assert all(field.description for field in Equipment.model_fields.values())


def test_a_section_made_in_a_function_can_be_read_all_the_same() -> None:
    class Made(Section):
        """Its fields have no words, and need none."""

        plain: int = 0

    assert Made.model_validate({"plain": 3}).plain == 3
