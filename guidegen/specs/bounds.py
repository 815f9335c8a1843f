"""What a jurisdiction asks of trucks, to check specs against.

Takes in the ``bounds`` of a profile; gives out values that specs are compared with, each with its
source. Refuses to print them: a driver works to the truck's own values, and the office answers
for those that do not meet the rule.
"""

from typing import Annotated

from guidegen.quantity.model import Dimension, Sense
from guidegen.specs.fields import AmountField, Stated
from guidegen.specs.section import Section

PSI = Dimension.PRESSURE


class Bounds(Section):
    """Between which values a truck of the jurisdiction lies."""

    low_air_warning_least: Annotated[
        Stated | None, AmountField("Least low-air warning", PSI, "40 psi", "80 psi", Sense.AT_LEAST)
    ] = None
    """The warning comes on at this pressure or a higher one."""

    low_air_warning_most: Annotated[
        Stated | None, AmountField("Most low-air warning", PSI, "50 psi", "90 psi", Sense.AT_MOST)
    ] = None
    """The warning comes on at this pressure or a lower one."""

    cut_in_least: Annotated[
        Stated | None, AmountField("Least cut-in", PSI, "60 psi", "120 psi", Sense.AT_LEAST)
    ] = None
    """The compressor starts again at this pressure or a higher one."""

    cut_out_least: Annotated[
        Stated | None, AmountField("Least cut-out", PSI, "80 psi", "130 psi", Sense.AT_LEAST)
    ] = None
    """The compressor stops at this pressure or a higher one."""

    cut_out_most: Annotated[
        Stated | None, AmountField("Most cut-out", PSI, "110 psi", "160 psi", Sense.AT_MOST)
    ] = None
    """The compressor stops at this pressure or a lower one."""

    cut_out_usual: Annotated[
        Stated | None, AmountField("Usual cut-out", PSI, "100 psi", "150 psi", Sense.RANGE)
    ] = None
    """Where the compressor of most trucks stops."""

    safety_valve: Annotated[
        Stated | None, AmountField("Safety valve opens", PSI, "140 psi", "200 psi", Sense.AT_MOST)
    ] = None
    """The compressor stops below this pressure, or the valve blows."""

    spring_apply: Annotated[
        Stated | None, AmountField("Spring brakes apply", PSI, "10 psi", "60 psi", Sense.RANGE)
    ] = None
    """Within this range the spring brakes come on by themselves."""

    height_most: Annotated[
        Stated | None,
        AmountField("Height that roads allow", Dimension.LENGTH, "12 ft", "16 ft", Sense.AT_MOST),
    ] = None
    """Above this a truck needs a permit or a road of its own."""
