"""Scripts of many jobs made one.

Takes in the texts of classic scripts in order; gives out one text, each script in a block of its
own. Refuses to change any of them: what is joined runs as the files would, one after another.
"""

from collections.abc import Iterable


def join_scripts(scripts: Iterable[str]) -> str:
    r"""Return all *scripts* as one; a line between them ends what one of them left open.

    >>> join_scripts(["(function () {})()\n", "let a = 1;"])
    '(function () {})()\n;\nlet a = 1;\n;\n'
    """
    return "".join(f"{script.strip()}\n;\n" for script in scripts)
