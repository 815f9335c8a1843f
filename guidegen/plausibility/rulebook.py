"""All rules of plausibility, in the order in which a truck is looked over.

Takes in nothing; gives out the rules and their pages.
Refuses two rules of one name by construction.
"""

from guidegen.plausibility.air.cut_in import CUT_IN_BELOW_RULE
from guidegen.plausibility.air.cut_out import CUT_OUT_OUTSIDE_RULE
from guidegen.plausibility.air.governor_gap import GOVERNOR_GAP
from guidegen.plausibility.air.low_air_warning import LOW_AIR_WARNING
from guidegen.plausibility.air.order import ORDER_PAGE
from guidegen.plausibility.air.spring_brakes import SPRING_BRAKES
from guidegen.plausibility.air.usual_cut_out import USUAL_CUT_OUT
from guidegen.plausibility.capacities.def_tank import DEF_TANK
from guidegen.plausibility.capacities.oil_marks import OIL_MARKS
from guidegen.plausibility.electric.cord_gauge import CORD_GAUGE
from guidegen.plausibility.electric.cord_order import CORD_ORDER
from guidegen.plausibility.electric.heater_circuit import HEATER_CIRCUIT
from guidegen.plausibility.electric.heater_current import HEATER_CURRENT
from guidegen.plausibility.exhaust.gauge_segments import GAUGE_SEGMENTS
from guidegen.plausibility.exhaust.regeneration_time import REGENERATION_TIME
from guidegen.plausibility.fittings.brake_systems import BRAKE_SYSTEMS
from guidegen.plausibility.fittings.check_states import CHECK_STATES
from guidegen.plausibility.fittings.coupling import COUPLING
from guidegen.plausibility.fittings.engine_parts import ENGINE_PARTS
from guidegen.plausibility.fittings.fuel import FUEL_TANKS
from guidegen.plausibility.fittings.named_things import NAMED_THINGS
from guidegen.plausibility.fittings.one_place import ONE_PLACE
from guidegen.plausibility.fittings.power_source import POWER_SOURCE
from guidegen.plausibility.fluids.antifreeze import ANTIFREEZE
from guidegen.plausibility.fluids.brake_fluid import BRAKE_FLUID
from guidegen.plausibility.fluids.coolant_kind import COOLANT_KIND
from guidegen.plausibility.fluids.dot_number import DOT_NUMBER
from guidegen.plausibility.fluids.oil_and_filter import OIL_AND_FILTER
from guidegen.plausibility.fluids.oil_category import OIL_CATEGORY
from guidegen.plausibility.fluids.oil_for_fuel import OIL_FOR_FUEL
from guidegen.plausibility.fluids.oil_thickness import OIL_THICKNESS
from guidegen.plausibility.fluids.oil_together import OIL_TOGETHER
from guidegen.plausibility.fluids.silicone import SILICONE_WITH_ABS
from guidegen.plausibility.fluids.viscosity import VISCOSITY
from guidegen.plausibility.fluids.wrong_kind import WRONG_KIND
from guidegen.plausibility.identity.axle_ratings import AXLE_RATINGS
from guidegen.plausibility.identity.height import HEIGHT_ABOVE_ROADS
from guidegen.plausibility.identity.model_year import MODEL_YEAR
from guidegen.plausibility.identity.weight_class import WEIGHT_CLASS
from guidegen.plausibility.lamps.lamp_without_thing import LAMP_WITHOUT_THING
from guidegen.plausibility.lamps.thing_without_lamp import THING_WITHOUT_LAMP
from guidegen.plausibility.wheels.load_range import LOAD_RANGE
from guidegen.plausibility.wheels.tire_count import TIRE_COUNT

RULEBOOK = (
    MODEL_YEAR,
    AXLE_RATINGS,
    WEIGHT_CLASS,
    HEIGHT_ABOVE_ROADS,
    POWER_SOURCE,
    FUEL_TANKS,
    ENGINE_PARTS,
    BRAKE_SYSTEMS,
    COUPLING,
    NAMED_THINGS,
    ONE_PLACE,
    CHECK_STATES,
    LOW_AIR_WARNING,
    CUT_IN_BELOW_RULE,
    CUT_OUT_OUTSIDE_RULE,
    USUAL_CUT_OUT,
    GOVERNOR_GAP,
    SPRING_BRAKES,
    LOAD_RANGE,
    TIRE_COUNT,
    VISCOSITY,
    OIL_CATEGORY,
    OIL_FOR_FUEL,
    OIL_TOGETHER,
    OIL_THICKNESS,
    OIL_AND_FILTER,
    WRONG_KIND,
    BRAKE_FLUID,
    DOT_NUMBER,
    SILICONE_WITH_ABS,
    COOLANT_KIND,
    ANTIFREEZE,
    OIL_MARKS,
    DEF_TANK,
    GAUGE_SEGMENTS,
    REGENERATION_TIME,
    HEATER_CURRENT,
    HEATER_CIRCUIT,
    CORD_GAUGE,
    CORD_ORDER,
    LAMP_WITHOUT_THING,
    THING_WITHOUT_LAMP,
)

PAGES = (ORDER_PAGE, *(each.page for each in RULEBOOK))
"""Also of the rule that is checked while pressures are read."""
