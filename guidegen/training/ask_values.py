"""Questions for values.

Takes in a guide and the values of its fleet; gives out drafts of questions for what the guide
gives for a fact.
Refuses invented numbers: wrong answers are what models of the fleet state, and a
fact with too few of them is not asked for.
"""

from collections.abc import Iterator, Mapping

from guidegen.differences.rank import FACT_STANDINGS
from guidegen.differences.standing import Reason, Standing
from guidegen.guide.model import Caution, FactRef, Guide, Procedure, Text
from guidegen.training.draft import WEIGHTS, Asking, Draft, Placed, Write, placed_procedures
from guidegen.training.fleet_values import FEWEST_WRONG, FleetValues
from guidegen.training.lots import Lots
from guidegen.training.model import (
    DATA,
    Question,
    QuestionKind,
    Term,
    TermKind,
    TruckValue,
    Where,
    fact_key,
)
from guidegen.training.once import once_a_procedure
from guidegen.units.model import Fact

_UNASKED = frozenset({Reason.NAME, Reason.COMFORT, Reason.LAW})
"""What tells trucks apart, makes the day easier, or is the same for every truck of the place."""


def value_drafts(guide: Guide, values: FleetValues) -> Iterator[Draft]:
    """Yield a draft for each fact of *guide* that is worth asking for."""
    places = _places(guide)
    for name, fact in guide.facts.items():
        standing = FACT_STANDINGS.get(name)
        if standing is None or standing.reason in _UNASKED or isinstance(fact.value, bool | tuple):
            continue
        where = places.get(name, Where(DATA, "", name))
        yield Draft(
            kind=QuestionKind.VALUE,
            subject=name,
            weight=WEIGHTS[standing.rank],
            write=_writer(fact, where, standing, values),
        )


def _writer(fact: Fact, where: Where, standing: Standing, values: FleetValues) -> Write:
    def write(lots: Lots) -> Question | None:
        others = values.others(fact, lots)
        if len(others) < FEWEST_WRONG:
            return None
        name = fact.name
        asking = Asking(
            kind=QuestionKind.VALUE,
            subject=name,
            about=(Term(TermKind.SECTION, fact.field.section), Term(TermKind.FACT, name)),
            where=where,
            standing=standing,
            asks=frozenset({fact_key(name)}),
        )
        return asking.answered(TruckValue(fact), others, lots)

    return write


def _places(guide: Guide) -> Mapping[str, Where]:
    """Return the first place in the procedures of each value that they say."""
    places: dict[str, Where] = {}
    for placed in reversed(tuple(placed_procedures(guide))):
        places |= _places_in(placed)
    return places


@once_a_procedure
def _places_in(placed: Placed) -> Mapping[str, Where]:
    places: dict[str, Where] = {}
    for text in _texts(placed.procedure):
        for part in text.parts:
            if isinstance(part, FactRef):
                where = Where(placed.chapter, placed.procedure.id, text.id)
                places.setdefault(part.name, where)
    return places


def _texts(procedure: Procedure) -> Iterator[Text]:
    for block in procedure.blocks:
        if isinstance(block, Caution):
            yield from (block.hazard, block.consequence, block.avoid)
        else:
            yield block.text
    yield from procedure.expect
    yield from procedure.if_not
