"""All that a unit or model file may hold, and the facts that come of it.

Takes in the topics; gives out the shape of a unit file, of a model file and the catalog of
facts by dotted name. Refuses two facts of one name by construction.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Annotated, get_args

from pydantic.fields import FieldInfo

from guidegen.specs.fields import (
    AmountField,
    AnyField,
    ChoiceField,
    ChoicesField,
    CountField,
    DateField,
    FlagField,
    Stated,
    TextField,
)
from guidegen.specs.section import Fitted, Section
from guidegen.specs.topics.brakes import Brakes, ParkingBrake
from guidegen.specs.topics.cab import (
    CabAccess,
    Horn,
    Lights,
    Mirrors,
    PowerSteering,
    Seat,
    SteeringColumn,
    WarningLamps,
    Wipers,
)
from guidegen.specs.topics.driveline import Clutch, Pto, Transmission
from guidegen.specs.topics.electric import Battery, BatterySwitch, BlockHeater, HighVoltage
from guidegen.specs.topics.identity import Identity
from guidegen.specs.topics.powertrain import (
    Aftertreatment,
    AirCleaner,
    Cooling,
    Cruise,
    DefSystem,
    Engine,
    EngineBrake,
    FuelTanks,
    GasFuel,
    IdleAdjustment,
)
from guidegen.specs.topics.running_gear import (
    AxleLock,
    Axles,
    FifthWheel,
    Suspension,
    TirePositions,
    Wheels,
)

UNIT_NUMBER = TextField(
    "Unit number", r"[A-Z0-9]+(-[A-Z0-9]+)*", "capitals, digits and single hyphens, as T-17"
)
MODEL_ID = TextField("Model id", r"[a-z0-9]+(-[a-z0-9]+)*", "small letters, digits and hyphens")


class Equipment(Section):
    """The sections that both unit and model files may hold."""

    identity: Identity | None = None
    """Which truck it is, and how big."""

    engine: Annotated[Fitted[Engine] | None, "section"] = None
    """Engine"""

    cooling: Annotated[Fitted[Cooling] | None, "section"] = None
    """Cooling system"""

    air_cleaner: Annotated[Fitted[AirCleaner] | None, "section"] = None
    """Air cleaner"""

    fuel_tanks: Annotated[Fitted[FuelTanks] | None, "section"] = None
    """Fuel tanks"""

    gas_fuel: Annotated[Fitted[GasFuel] | None, "section"] = None
    """Gas fuel"""

    def_system: Annotated[Fitted[DefSystem] | None, "section"] = None
    """Diesel exhaust fluid (DEF)"""

    aftertreatment: Annotated[Fitted[Aftertreatment] | None, "section"] = None
    """Exhaust aftertreatment"""

    high_voltage: Annotated[Fitted[HighVoltage] | None, "section"] = None
    """High voltage"""

    brakes: Annotated[Fitted[Brakes] | None, "section"] = None
    """Brakes"""

    parking_brake: Annotated[Fitted[ParkingBrake] | None, "section"] = None
    """Parking brake"""

    engine_brake: Annotated[Fitted[EngineBrake] | None, "section"] = None
    """Engine brake"""

    transmission: Annotated[Fitted[Transmission] | None, "section"] = None
    """Transmission"""

    clutch: Annotated[Fitted[Clutch] | None, "section"] = None
    """Clutch"""

    power_steering: Annotated[Fitted[PowerSteering] | None, "section"] = None
    """Power steering"""

    axles: Annotated[Fitted[Axles] | None, "section"] = None
    """Axles"""

    tires: Annotated[Fitted[TirePositions] | None, "section"] = None
    """Tires"""

    wheels: Annotated[Fitted[Wheels] | None, "section"] = None
    """Wheels"""

    suspension: Annotated[Fitted[Suspension] | None, "section"] = None
    """Suspension"""

    differential_lock: Annotated[Fitted[AxleLock] | None, "section"] = None
    """Differential lock"""

    inter_axle_lock: Annotated[Fitted[AxleLock] | None, "section"] = None
    """Inter-axle lock"""

    fifth_wheel: Annotated[Fitted[FifthWheel] | None, "section"] = None
    """Fifth wheel"""

    cruise: Annotated[Fitted[Cruise] | None, "section"] = None
    """Cruise control"""

    idle_adjustment: Annotated[Fitted[IdleAdjustment] | None, "section"] = None
    """Idle adjustment"""

    pto: Annotated[Fitted[Pto] | None, "section"] = None
    """Power take-off"""

    lights: Annotated[Fitted[Lights] | None, "section"] = None
    """Lights"""

    wipers: Annotated[Fitted[Wipers] | None, "section"] = None
    """Wipers and washer"""

    mirrors: Annotated[Fitted[Mirrors] | None, "section"] = None
    """Mirrors"""

    seat: Annotated[Fitted[Seat] | None, "section"] = None
    """Seat"""

    steering_column: Annotated[Fitted[SteeringColumn] | None, "section"] = None
    """Steering column"""

    horn: Annotated[Fitted[Horn] | None, "section"] = None
    """Horns"""

    cab_access: Annotated[Fitted[CabAccess] | None, "section"] = None
    """Hood and cab"""

    battery: Annotated[Fitted[Battery] | None, "section"] = None
    """Batteries"""

    battery_switch: Annotated[Fitted[BatterySwitch] | None, "section"] = None
    """Battery switch"""

    block_heater: Annotated[Fitted[BlockHeater] | None, "section"] = None
    """Block heater"""

    lamps: Annotated[Fitted[WarningLamps] | None, "section"] = None
    """Warning lamps"""


class RecordedSection(Section):
    """When the values of a file were recorded, and who did."""

    on: Annotated[Stated, DateField("Recorded on")]
    """The day, as year, month and day."""

    by: Annotated[Stated | None, TextField("Recorded by")] = None
    """Name of whoever copied or read them."""


class UnitFile(Equipment):
    """A truck: its number, its model, and what is its own."""

    unit: Annotated[Stated, UNIT_NUMBER]
    """Number on the door."""

    model: Annotated[Stated, MODEL_ID]
    """Id of its model file."""

    source: Annotated[Stated | None, TextField("Source")] = None
    """Document that values without a source of their own were copied from."""

    recorded: RecordedSection | None = None
    """When, and by whom, values that do not say so themselves were recorded."""


class ModelFile(Equipment):
    """What all trucks of a model share."""

    model: Annotated[Stated, MODEL_ID]
    """Id, the same as the file's name."""

    source: Annotated[Stated | None, TextField("Source")] = None
    """Document that values without a source of their own were copied from."""

    recorded: RecordedSection | None = None
    """When, and by whom, values that do not say so themselves were recorded."""


@dataclass(frozen=True, slots=True)
class FactField:
    """One fact that a unit can have."""

    name: str
    """Dotted, from big to small: ``brakes.air.cut_out``."""

    field: AnyField
    section: str
    """Dotted name of the section that holds it."""

    description: str
    """Where the office finds it."""

    @property
    def label(self) -> str:
        """What the guide calls it."""
        return self.field.label


@dataclass(frozen=True, slots=True)
class SectionField:
    """One section that a unit can have."""

    name: str
    label: str


def walk_sections(
    shape: type[Section], prefix: str = ""
) -> Iterator[tuple[str, FieldInfo, type[Section] | None]]:
    """Yield every field of *shape* by dotted name; with the inner shape if it is a section."""
    for name, info in shape.model_fields.items():
        inner = _section_of(info)
        yield prefix + name, info, inner
        if inner is not None:
            yield from walk_sections(inner, f"{prefix}{name}.")


@lru_cache(maxsize=128)
def inner_sections(shape: type[Section]) -> Mapping[str, type[Section]]:
    """Return the fields of *shape* that are sections themselves, with their shapes."""
    pairs = ((name, _section_of(info)) for name, info in shape.model_fields.items())
    return MappingProxyType({name: inner for name, inner in pairs if inner is not None})


def _section_of(info: FieldInfo) -> type[Section] | None:
    pending = [info.annotation]
    while pending:
        annotation = pending.pop()
        if isinstance(annotation, type) and issubclass(annotation, Section):
            return annotation
        pending.extend(get_args(annotation))
    return None


def _kind_of(info: FieldInfo) -> AnyField | None:
    kinds = (AmountField, ChoiceField, ChoicesField, TextField, CountField, FlagField)
    return next((mark for mark in info.metadata if isinstance(mark, kinds)), None)


def catalog_facts(shape: type[Section], prefix: str = "") -> Mapping[str, FactField]:
    """Return the facts that *shape* can state, by dotted name, in its order."""
    facts = {}
    for name, info, inner in walk_sections(shape, prefix):
        kind = _kind_of(info)
        if inner is None and kind is not None:
            section = name.rpartition(".")[0]
            facts[name] = FactField(name, kind, section, info.description or "")
    return MappingProxyType(facts)


def catalog_sections(shape: type[Section]) -> Mapping[str, SectionField]:
    """Return the sections of *shape* by dotted name, in its order."""
    return MappingProxyType(
        {
            name: SectionField(name, (info.description or name).rstrip("."))
            for name, info, inner in walk_sections(shape)
            if inner is not None
        }
    )


EQUIPMENT_FACTS = catalog_facts(Equipment)
EQUIPMENT_SECTIONS = catalog_sections(Equipment)

_OF_AN_ENGINE = (
    *("air_cleaner", "fuel_tanks", "gas_fuel", "def_system", "aftertreatment"),
    *("engine_brake", "idle_adjustment", "block_heater"),
)


def goes_without_saying(section: str) -> str:
    """Return the section whose absence says that *section* is not fitted either; or nothing.

    A device that is not there has no parts, and without an engine there is nothing that feeds
    one or cleans what comes out of it.

    >>> goes_without_saying("aftertreatment.parked_regeneration"), goes_without_saying("def_system")
    ('aftertreatment', 'engine')
    """
    return "engine" if section in _OF_AN_ENGINE else section.rpartition(".")[0]
