"""How grave a difference is, and why.

Takes in nothing; gives out the closed lists of ranks and reasons, with the words that guides
print for them. Refuses a reason without words: a driver who is not told why reads on.
"""

import enum
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Rank(enum.Enum):
    """What a difference touches, that which can hurt first coming first."""

    BRAKES = "brakes"
    DANGERS = "dangers"
    CONTROLS = "controls"
    LIMITS = "limits"
    FLUIDS = "fluids"
    WORK = "work"
    VALUES = "values"
    CONVENIENCES = "conveniences"


class Reason(enum.Enum):
    """What happens if the driver goes by the other truck, in the order within a rank."""

    STOPPING = "stopping"
    HOLDING = "holding"
    BRAKE_LAMPS = "brake_lamps"
    HIGH_VOLTAGE = "high_voltage"
    GAS = "gas"
    SHUT_OFF = "shut_off"
    RED_LAMPS = "red_lamps"
    REACH = "reach"
    HANDLING = "handling"
    CLEARANCE = "clearance"
    WEIGHT = "weight"
    TIRES = "tires"
    LIMIT = "limit"
    LAW = "law"
    WAIT = "wait"
    FUEL = "fuel"
    FLUID = "fluid"
    READING = "reading"
    PLACE = "place"
    AMOUNT = "amount"
    OTHER_LAMPS = "other_lamps"
    NAME = "name"
    COMFORT = "comfort"
    WORK = "work"


RANKS: Mapping[str, str] = MappingProxyType(
    {
        Rank.BRAKES.value: "Brakes",
        Rank.DANGERS.value: "High voltage, gas and red lamps",
        Rank.CONTROLS.value: "Controls",
        Rank.LIMITS.value: "Limits",
        Rank.FLUIDS.value: "Fuel and fluids",
        Rank.WORK.value: "Checks and other work",
        Rank.VALUES.value: "Other values",
        Rank.CONVENIENCES.value: "Conveniences",
    }
)
"""Headings, gravest first."""

REASONS: Mapping[str, str] = MappingProxyType(
    {
        Reason.STOPPING.value: "You count on this to stop the truck.",
        Reason.HOLDING.value: "You count on this to keep the truck where you park it.",
        Reason.BRAKE_LAMPS.value: "This tells you that the brakes need you.",
        Reason.HIGH_VOLTAGE.value: "High voltage can kill.",
        Reason.GAS.value: "Gas under pressure can burn and burst.",
        Reason.SHUT_OFF.value: "In an emergency there is no time to look for this.",
        Reason.RED_LAMPS.value: "When this comes on, you must act at once.",
        Reason.REACH.value: "Your hand goes where this is on the other truck.",
        Reason.HANDLING.value: "This works in another way than your hands expect.",
        Reason.CLEARANCE.value: "A bridge or yard that fits one truck may not fit the other.",
        Reason.WEIGHT.value: "What one truck carries can be too much for the other.",
        Reason.TIRES.value: "A tire that is right for one truck can fail on the other.",
        Reason.LIMIT.value: "Past this limit something breaks or gets out of hand.",
        Reason.LAW.value: "The law sets this limit.",
        Reason.WAIT.value: "A wait cut short does damage or gives a wrong reading.",
        Reason.FUEL.value: "The wrong fuel stops the truck and can wreck it.",
        Reason.FLUID.value: "Never swap fluids: the wrong one does damage that you see too late.",
        Reason.READING.value: "Read at the wrong time or place, a level tells you nothing.",
        Reason.PLACE.value: "This is in another place than you remember.",
        Reason.AMOUNT.value: "This is another number than you remember.",
        Reason.OTHER_LAMPS.value: "These lamps are not on both trucks.",
        Reason.NAME.value: "These tell the trucks apart.",
        Reason.COMFORT.value: "These make the day easier. Nothing goes wrong without them.",
        Reason.WORK.value: "This work is not the same on both trucks.",
    }
)
"""What stands before the differences that have the reason."""


class Standing(NamedTuple):
    """Where a difference stands among others, and why."""

    rank: Rank
    reason: Reason

    @property
    def order(self) -> tuple[int, int]:
        """Sort key: gravest first."""
        return _RANK_ORDER[self.rank], _REASON_ORDER[self.reason]


_RANK_ORDER = {rank: place for place, rank in enumerate(Rank)}
_REASON_ORDER = {reason: place for place, reason in enumerate(Reason)}
