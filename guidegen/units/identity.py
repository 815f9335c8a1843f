"""What tells a truck from others of its edition.

Takes in what a unit file states as its own; gives out the identity: number, VIN, plate and yard
with their provenance. Small, and can be pickled.
Refuses nothing: whether the values can be is checked where they are read.
"""

from guidegen.specs.fleet import Fleet
from guidegen.specs.model import Spec
from guidegen.specs.profile import FACTS, NUMBER
from guidegen.specs.unit_form import OWN
from guidegen.units.model import Identity, Layer
from guidegen.units.resolve import fact_of, number_of


def identity_of(spec: Spec, fleet: Fleet) -> Identity:
    """Return the identity of the unit that *spec* states; all else in it is not looked at."""
    number = fact_of(NUMBER, Layer.UNIT, number_of(spec), fleet)
    own = (
        fact_of(FACTS[name], Layer.UNIT, spec.stated[name], fleet)
        for name in OWN
        if name in spec.stated
    )
    return Identity(spec.id, spec.span, (number, *own))


def has_yard_of(spec: Spec, fleet: Fleet) -> bool:
    """Whether the yard that *spec* states is one of *fleet*; also if it states none."""
    stated = spec.stated.get("identity.yard")
    return stated is None or any(yard.id == stated.value for yard in fleet.yards)
