"""What stands below the fields of a class, in its module's source.

Takes in a class; gives out the docstring of each field by name.
Refuses nothing: where there is no source, nothing is said of a field.
"""

import ast
import inspect
import sys
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import pairwise


def descriptions(shape: type) -> Mapping[str, str]:
    """Return the docstrings of the fields that *shape* itself names, by name.

    Pydantic finds them too, but reads the source anew for each class, and looks through it: that
    took as long as all else in making the classes of specs.
    """
    return _in_module(shape.__module__).get(shape.__qualname__, {})


@lru_cache(maxsize=1)
def _in_module(name: str) -> Mapping[str, Mapping[str, str]]:
    """Return the docstrings of fields in the module *name*, by class; kept until the next one."""
    try:
        source = inspect.getsource(sys.modules[name])
    except (OSError, TypeError):
        return {}
    return {
        statement.name: dict(_of_fields(statement.body))
        for statement in ast.parse(source).body
        if isinstance(statement, ast.ClassDef)
    }


def _of_fields(body: list[ast.stmt]) -> Iterator[tuple[str, str]]:
    for field, below in pairwise(body):
        match field, below:
            case (
                ast.AnnAssign(target=ast.Name(id=name)),
                ast.Expr(value=ast.Constant(value=str(text))),
            ):
                yield name, inspect.cleandoc(text)
            case _:
                pass
