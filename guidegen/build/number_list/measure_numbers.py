"""Factors of the measures, and how finely each is printed.

Takes in the closed table of measures; gives out each factor as an exact fraction, and the steps.
Refuses nothing: the table is closed.
"""

import inspect
from collections.abc import Iterator

from guidegen.build.number_list.model import Ground, NumberEntry
from guidegen.build.number_list.source_lines import code_place
from guidegen.quantity import measures

_FACTORS = (
    "exact definitions of NIST SP 811 (2008) appendix B.8, and of NIST Handbook 44 for gallons"
)
_STEPS = "common practice, no source"


def factor_numbers() -> Iterator[NumberEntry]:
    """Yield for each measure how many base measures it makes, and its offset if it has one."""
    for name, measure in measures.MEASURES.items():
        numbers = [str(measure.factor)]
        if measure.offset:
            numbers.append(f"offset {measure.offset}")
        says = f"`{name}`: how many of the base measure of {measure.dimension.value} make one"
        yield NumberEntry(_place(name), tuple(numbers), says, _FACTORS, Ground.COMPUTED)


def step_numbers() -> Iterator[NumberEntry]:
    """Yield for each measure the finest step that is printed, and from where zeros are exact."""
    for name, measure in measures.MEASURES.items():
        numbers = (f"{measure.finest:f}", f"{measure.coarsest:f}")
        says = f"`{name}`: finest step printed; zeros of a whole number count from this step on"
        yield NumberEntry(_place(name), numbers, says, _STEPS, Ground.PRACTICE)


def _place(name: str) -> str:
    symbol = name.removesuffix(" difference")
    lines = inspect.getsource(measures).split("\n")
    at = [number for number, line in enumerate(lines, start=1) if f'"{symbol}", Dim' in line]
    at += [number for number, line in enumerate(lines, start=1) if line.strip() == f'"{symbol}",']
    return code_place(measures, at[-1 if name != symbol else 0])
