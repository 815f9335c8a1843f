import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field

import pytest

from guidegen.pickling import frozen, numerous
from guidegen.proof.model import Counts
from guidegen.source import SourceFile, Span


@dataclass(frozen=True, slots=True)
class _Short:
    one: int


@dataclass(frozen=True, slots=True)
class _Counting:
    one: int
    two: int = field(default=2, init=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    one: int
    two: int


def test_a_frozen_mapping_comes_back_as_it_was() -> None:
    mapping = frozen({"cold": 100, "warm": frozen({"hot": 3})})

    assert pickle.loads(pickle.dumps(mapping)) == mapping  # noqa: S301 -- own bytes


@pytest.mark.parametrize("protocol", range(2, pickle.HIGHEST_PROTOCOL + 1))
def test_values_of_which_there_are_many_come_back_as_they_were(protocol: int) -> None:
    value = (Span(SourceFile("T-17.yml", "id: T-17\n"), 1, 2, 3, 4), Counts(pages=3))

    back = pickle.loads(pickle.dumps(value, protocol))  # noqa: S301 -- own bytes

    assert back == value == copy.deepcopy(value)
    assert type(back[0]) is Span
    with pytest.raises(FrozenInstanceError):
        back[0].line = 2  # type: ignore[misc]  # which is the point


@pytest.mark.parametrize("odd", [_Short, _Counting, _Named])
def test_a_class_that_is_not_made_from_its_fields_in_their_order_is_refused(odd: type) -> None:
    with pytest.raises(TypeError, match="is not made from its fields"):
        numerous(odd)
