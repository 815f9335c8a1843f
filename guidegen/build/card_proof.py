"""The proof of printed cards, read in when the first card comes.

Takes in cards of one truck after another, with what was drawn; gives out what the proof finds of
them. Refuses to be read in where nothing is printed: half of the program then reads no PDF, no
picture and no code.
"""

from collections.abc import Iterable
from importlib import import_module
from typing import Any

from guidegen.decks.model import Card, Issue
from guidegen.guide.model import Guide
from guidegen.paper_proof.logo import LogoRead
from guidegen.paper_proof.model import PaperVerdict


class CardProof:
    """What one process keeps from truck to truck; let trucks of one edition come together."""

    def __init__(self) -> None:
        self._known: Any = None

    def prove(
        self,
        drawn: Iterable[tuple[Card, bytes]],
        guide: Guide,
        issue: Issue,
        logo: LogoRead | None,
    ) -> PaperVerdict:
        """Return what the proof finds of all cards of one truck; see `prove_cards`."""
        from guidegen.paper_proof.prove import prove_cards  # noqa: PLC0415 -- see above
        from guidegen.paper_proof.siblings import ProvedCards  # noqa: PLC0415 -- see above

        if self._known is None:
            self._known = ProvedCards()
        return prove_cards(drawn, guide, issue, self._known, logo)


def read_in() -> None:
    """Read in all that it takes to print cards and to prove them, and is not needed otherwise.

    For a process of which copies are to be made: each of them would have to do it.
    """
    for name in ("guidegen.paper_proof.prove", "fontTools.ttLib", "pikepdf", "segno"):
        import_module(name)
