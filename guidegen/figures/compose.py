"""From a procedure to its figure.

Takes in a procedure fitted to a truck and the truck's facts; gives out the figure it asks for.
Refuses nothing: whether the facts are on record was settled when the procedure was fitted.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from guidegen.figures.air_gauge import sketch_air_gauge
from guidegen.figures.cord_table import sketch_cord_table
from guidegen.figures.dipstick import (
    sketch_engine_dipstick,
    sketch_power_steering_level,
    sketch_transmission_level,
)
from guidegen.figures.lamp_symbol import sketch_lamp
from guidegen.figures.model import Figure
from guidegen.figures.parking_control import sketch_parking_control
from guidegen.figures.segment_gauge import (
    sketch_charge_gauge,
    sketch_def_gauge,
    sketch_fuel_gauge,
)
from guidegen.figures.sketch import Facts, Sketch
from guidegen.figures.tire_plan import sketch_tire_plan
from guidegen.figures.triangles import sketch_hill, sketch_one_way, sketch_two_way
from guidegen.guide.model import Procedure, Text

SKETCHES: Mapping[str, Callable[[Facts], Sketch]] = MappingProxyType(
    {
        "air_gauge": sketch_air_gauge,
        "def_gauge": sketch_def_gauge,
        "fuel_gauge": sketch_fuel_gauge,
        "charge_gauge": sketch_charge_gauge,
        "engine_dipstick": sketch_engine_dipstick,
        "power_steering_level": sketch_power_steering_level,
        "transmission_level": sketch_transmission_level,
        "tire_plan": sketch_tire_plan,
        "parking_control": sketch_parking_control,
        "warning_devices_two_way": sketch_two_way,
        "warning_devices_one_way": sketch_one_way,
        "warning_devices_hill": sketch_hill,
        "cord_table": sketch_cord_table,
    }
)
"""What draws each kind, but for the symbols of lamps."""


def figure_of(procedure: Procedure, facts: Facts) -> Figure | None:
    """Return the figure of *procedure*, or nothing if it has none."""
    if procedure.figure is None:
        return None
    if procedure.lamp is not None:
        sketch = sketch_lamp(procedure.lamp)
    else:
        sketch = SKETCHES[procedure.figure](facts)
    id_ = f"{procedure.id}.figure"
    return Figure(
        id=id_,
        kind=procedure.figure,
        alt=Text(id_, tuple(sketch.caption), procedure.span),
        width=sketch.width,
        height=sketch.height,
        shapes=tuple(sketch.shapes),
        writing=tuple(sketch.writing),
    )
