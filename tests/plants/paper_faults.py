"""All kinds of faults that are planted in printed cards."""

from collections.abc import Callable, Iterator, Mapping

from plants import (
    paper_code_faults,
    paper_file_faults,
    paper_head_faults,
    paper_look_faults,
    paper_word_faults,
)
from plants.paper_press import PaperPlant, Shop

PAPER_KINDS: Mapping[str, Callable[[Shop], Iterator[PaperPlant]]] = {
    sow.__name__: sow
    for kinds in (
        paper_word_faults.KINDS,
        paper_head_faults.KINDS,
        paper_look_faults.KINDS,
        paper_code_faults.KINDS,
        paper_file_faults.KINDS,
    )
    for sow in kinds
}
