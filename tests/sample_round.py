"""An inspection round of the sample fleet's trucks with air brakes, made by hand."""

from collections.abc import Mapping

from sample_fleet import T_17

from guidegen.round.model import Change, Leg, Reason, ReasonKind, Round, Stop
from guidegen.round.positions import Axle, Footprint

_LEVEL, _SET = ("ground", "level"), ("parking_brake", "set")

DIESEL_ROUND = Round(
    stops=(
        Stop(
            number=1,
            procedure="walk-around",
            step=None,
            station="around",
            state=(_LEVEL, _SET, ("engine", "off_cold"), ("key", "out")),
            millimeters=28560,
            reasons=(Reason(ReasonKind.COLD, (("engine", "off_cold"),)),),
        ),
        Stop(
            number=2,
            procedure="drain-air-tanks",
            step=None,
            station="left_side",
            state=(_LEVEL, _SET, ("engine", "off_cold"), ("key", "out")),
            millimeters=0,
            reasons=(Reason(ReasonKind.ANY_TIME),),
        ),
        Stop(
            number=3,
            procedure="air-build-up",
            step=None,
            station="cab",
            state=(_LEVEL, _SET, ("engine", "off_cold"), ("key", "on")),
            millimeters=0,
            reasons=(Reason(ReasonKind.FOR, stops=(4, 5)),),
        ),
        Stop(
            number=4,
            procedure="oil-check",
            step=None,
            station="engine",
            state=(_LEVEL, _SET, ("engine", "off_warm"), ("key", "out")),
            millimeters=0,
            reasons=(Reason(ReasonKind.NEEDS, (("engine", "off_warm"),)),),
        ),
        Stop(
            number=5,
            procedure="oil-check",
            step="step-2",
            station="engine",
            state=(_LEVEL, _SET, ("engine", "off_warm"), ("key", "out")),
            millimeters=0,
            reasons=(
                Reason(ReasonKind.DONE_WITH, (("access", "open"),)),
                Reason(ReasonKind.SAME_PLACE),
            ),
        ),
    ),
    legs=(
        Leg(1700, ()),
        Leg(9000, ()),
        Leg(4000, (Change("key_on", "cab"),)),
        Leg(3400, (Change("warm_up", None), Change("engine_off_key_out", "cab"))),
        Leg(0, ()),
    ),
    changes=3,
    millimeters=46660,
    premises=("cold", "guessed", "length"),
    truck=Footprint(
        length=8500,
        width=2590,
        hood=1700,
        cab=4500,
        door=2400,
        engine=1000,
        axles=(
            Axle(1100, is_steered=True),
            Axle(6300, is_steered=False),
            Axle(7600, is_steered=False),
        ),
        is_length_known=False,
    ),
)
"""Holds what a page of a round can hold: stops with and without acts, a step, every signal word."""

ROUNDS: Mapping[str, Round] = {T_17.edition: DIESEL_ROUND}
"""By edition. The other trucks have none."""
