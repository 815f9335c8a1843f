"""Where something stands in guidegen's own code.

Takes in a module and a line; gives out the place as people read it.
Refuses paths of this machine: a place begins with the package.
"""

from types import ModuleType


def code_place(module: ModuleType, line: int) -> str:
    """Return ``guidegen/units/cords.py:20``."""
    path = module.__name__.replace(".", "/")
    is_package = hasattr(module, "__path__")
    return f"{path}/__init__.py:{line}" if is_package else f"{path}.py:{line}"
