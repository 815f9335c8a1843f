"""Whether the eye reads in the order of the file.

Takes in the texts of one side in the order of the file; records those that stand above or left of
what comes before them. Refuses no columns: what is further up must stand right of all before it.
"""

from collections.abc import Collection, Sequence

from guidegen.paper_proof import rules
from guidegen.paper_proof.sheet_model import TextRead
from guidegen.proof.faults import Faults

_SLACK = 1.0
"""Points that lines may be apart and still be one line, and that letters may reach over."""


def compare_flow(
    texts: Sequence[TextRead], in_figures: Collection[int], mark: str, faults: Faults
) -> None:
    """Look whether *texts* are read in this order.

    A text must stand below each that comes before it, or right of it.

    Args:
        texts: The body of one side, in the order of the file.
        in_figures: Places of the writing in drawings, which has no lines.
        mark: Of the side.
        faults: Takes what differs.
    """
    before = list[TextRead]()
    lowest = float("inf")
    for text in texts:
        if not text.text.strip():
            continue
        if text.baseline > lowest - _SLACK:
            above = next((e for e in before if _is_ahead(text, e, in_figures)), None)
            if above is not None:
                faults.add(
                    rules.READING_ORDER_DIFFERS,
                    f"`{text.text.strip()}` is read before `{above.text.strip()}` on paper, and "
                    "after it in the file",
                    fix="repair the template that places them",
                    mark=mark,
                )
                return
        before.append(text)
        lowest = min(lowest, text.baseline)


def _is_ahead(text: TextRead, earlier: TextRead, in_figures: Collection[int]) -> bool:
    """Whether *text* stands where the eye comes to before *earlier*."""
    if text.place in in_figures and earlier.place in in_figures:
        return False
    return earlier.baseline <= text.baseline + _SLACK and earlier.box.right > text.box.left + _SLACK
