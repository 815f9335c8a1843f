"""Printings made by hand."""

import hashlib

from guidegen.printings.model import Act, PrintedCard, Printing


def printed(unit: str, date: str, *cards: str) -> Printing:
    """Return a printing of *cards*, each of which says something of its own."""
    said = {id_: hashlib.sha256(f"{unit} {id_} {date}".encode()).hexdigest() for id_ in cards}
    return Printing(
        act=Act.PRINTED,
        date=date,
        unit=unit,
        cards=tuple(PrintedCard(id_, "4x6", said[id_]) for id_ in cards),
        yard="Mill Yard",
        revision="2",
        edition="0123456789ab",
        deck=hashlib.sha256(b"words").hexdigest(),
        copies=1,
    )


def collected(unit: str, date: str, *cards: str) -> Printing:
    return Printing(Act.COLLECTED, date, unit, tuple(map(PrintedCard, cards)))
