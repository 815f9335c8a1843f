"""Which sheets a workbook has, and the columns of each.

Takes in the catalog of facts and sections; gives out a sheet per topic with a column for each
fact and for each thing that can be missing. Refuses to leave a section out: one that no topic
names gets a sheet of its own.
"""

from collections.abc import Iterator

from guidegen.quantity.spellings import usual_spellings
from guidegen.specs.equipment import EQUIPMENT_FACTS, EQUIPMENT_SECTIONS, FactField
from guidegen.specs.fields import (
    NOT_FITTED,
    AmountField,
    AnyField,
    ChoiceField,
    ChoicesField,
    CountField,
    DateField,
    FlagField,
    TextField,
)
from guidegen.specs.fleet import Yard
from guidegen.workbook.model import BY, ON, SOURCE, Column, Role

TRUCKS, MODELS, SOURCES = "Trucks", "Models", "Sources"
FITTED = "fitted"
FITTED_WORDS = (FITTED, NOT_FITTED)

_TOPICS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Engine",
        ("engine", "cooling", "air_cleaner", "engine_brake", "idle_adjustment", "cruise"),
    ),
    ("Fuel and exhaust", ("fuel_tanks", "gas_fuel", "def_system", "aftertreatment")),
    ("High voltage", ("high_voltage",)),
    ("Brakes", ("brakes", "parking_brake")),
    ("Driveline", ("transmission", "clutch", "pto")),
    (
        "Axles and steering",
        (
            *("axles", "suspension", "differential_lock", "inter_axle_lock", "fifth_wheel"),
            *("power_steering", "steering_column"),
        ),
    ),
    ("Tires", ("tires", "wheels")),
    ("Lights and lamps", ("lights", "horn", "lamps")),
    ("Cab", ("wipers", "mirrors", "seat", "cab_access")),
    ("Electric", ("battery", "battery_switch", "block_heater")),
)
_ON_FIRST_SHEETS = "identity"
YARD = "identity.yard"

_DAY, _BY = DateField("Recorded on"), TextField("Recorded by")
_HOW_DAY = "As 2026-03-02: year, month, day."
_FILE_COLUMNS = (
    Column(
        Role.SOURCE,
        SOURCE,
        "Source",
        "The document that the values of this row were copied from, such as: unit plate, read"
        f" 2026-03-02. It goes for every value of the row, on all sheets, that has no source of its"
        f" own on the sheet {SOURCES}.",
    ),
    Column(
        Role.SOURCE,
        ON,
        "Recorded on",
        f"The day on which the values of this row were looked up. {_HOW_DAY} It goes for every"
        f" value of the row that has no day of its own on the sheet {SOURCES}.",
        kind=_DAY,
    ),
    Column(
        Role.SOURCE,
        BY,
        "Recorded by",
        "Who looked them up. Leave it empty if that is not to be on record; it needs a day.",
        kind=_BY,
    ),
)
SOURCE_COLUMNS = (
    Column(Role.NAMED, "fact", "Name", "Under which name the value stands on its topic's sheet."),
    Column(Role.CALLED, "called", "What it is", "What people call it."),
    Column(
        Role.SHOWN,
        "value",
        "Value",
        "As it is on record. It is changed on the sheet of its topic, not here.",
    ),
    Column(
        Role.ORIGIN,
        SOURCE,
        "Source",
        "The document that this one value was copied from. Empty: that of the truck's or model's"
        " row holds.",
        kind=TextField("Source"),
    ),
    Column(
        Role.ORIGIN,
        ON,
        "Recorded on",
        f"The day on which this one value was looked up. {_HOW_DAY}",
        kind=_DAY,
    ),
    Column(Role.ORIGIN, BY, "Recorded by", "Who looked it up; it needs a day.", kind=_BY),
)
_KIND_COLUMN = Column(Role.KIND, "kind", "Truck or model", "Whether the row is a truck or a model.")


def topics() -> Iterator[tuple[str, tuple[Column, ...]]]:
    """Yield title and value columns of each topic's sheet, in order."""
    named = {section for _, sections in _TOPICS for section in sections} | {_ON_FIRST_SHEETS}
    left = [name for name in EQUIPMENT_SECTIONS if "." not in name and name not in named]
    for title, sections in (*_TOPICS, *((EQUIPMENT_SECTIONS[n].label[:31], (n,)) for n in left)):
        yield title, tuple(c for section in sections for c in _columns_of(section))


def truck_columns(yards: tuple[Yard, ...]) -> tuple[Column, ...]:
    """Return the columns of the sheet of trucks."""
    key = Column(
        Role.KEY, "unit", "Truck number", "The number on the door: capitals, digits and hyphens."
    )
    model = Column(Role.MODEL, "model", "Model", "Its model, from the list of the sheet Models.")
    return (key, model, *_FILE_COLUMNS, *_columns_of(_ON_FIRST_SHEETS, yards))


def model_columns(yards: tuple[Yard, ...]) -> tuple[Column, ...]:
    """Return the columns of the sheet of models."""
    key = Column(
        Role.KEY,
        "model",
        "Model id",
        "Small letters, digits and hyphens, such as drumlin-72. Trucks name their model by it.",
    )
    return (key, *_FILE_COLUMNS, *_columns_of(_ON_FIRST_SHEETS, yards))


def topic_keys() -> tuple[Column, ...]:
    """Return the columns that say whose row it is on a topic's sheet."""
    return (
        _KIND_COLUMN,
        Column(Role.KEY, "key", "Number or id", "The truck's number, or the model's id."),
        Column(Role.MODEL, "model", "Model", "The model that a truck inherits from."),
    )


def has_presence(section: str) -> bool:
    """Whether a truck can lack *section*, so that it has a column of its own."""
    return section in EQUIPMENT_SECTIONS and section != _ON_FIRST_SHEETS


def _columns_of(section: str, yards: tuple[Yard, ...] = ()) -> Iterator[Column]:
    group = EQUIPMENT_SECTIONS[section].label
    if has_presence(section):
        note = (
            f"{group}: fitted or not. Choose “{NOT_FITTED}” for a truck without it; its values"
            " then go. Clear a “not fitted” to take it back."
        )
        yield Column(Role.SECTION, section, f"{group}: fitted?", note, group)
    for name, fact in EQUIPMENT_FACTS.items():
        if fact.section == section:
            label = _header(fact)
            yield Column(Role.FACT, name, label, _note(fact, yards), group, fact.field)
    for name in EQUIPMENT_SECTIONS:
        if name.rpartition(".")[0] == section:
            yield from _columns_of(name, yards)


def _header(fact: FactField) -> str:
    kind = fact.field
    if not isinstance(kind, AmountField):
        return kind.label
    return f"{kind.label} ({' or '.join(_measures(kind))})"


def _measures(kind: AmountField) -> tuple[str, ...]:
    first = kind.low.lstrip("0123456789.,- ").replace("ft 0 in", "ft in")
    others = tuple(s for s in usual_spellings(kind.dimension) if s not in first)
    return (first, *others[-1:])


def _note(fact: FactField, yards: tuple[Yard, ...]) -> str:
    kind = fact.field
    text = fact.description
    if fact.name == YARD and yards:
        return text + "\n" + "\n".join(f"{yard.id} = {yard.name}" for yard in yards)
    return text + "\n" + _how_typed(kind) if _how_typed(kind) else text


def _how_typed(kind: AnyField) -> str:
    match kind:
        case AmountField(low=low, high=high):
            return f"Number and measure, as {low}. Believable: {low} to {high}."
        case ChoiceField(choices=choices):
            return "Choose:\n" + "\n".join(_word(key, says) for key, says in choices.items())
        case ChoicesField(choices=choices):
            return "Several words, with commas between:\n" + ", ".join(choices)
        case CountField(low=low, high=high):
            return f"A whole number, {low} to {high}."
        case FlagField():
            return "yes or no"
        case _:
            return ""


def _word(key: str, says: str) -> str:
    return key if key == says else f"{key} = {says}"


def listed_choices(column: Column, yards: tuple[Yard, ...]) -> tuple[str, ...]:
    """Return what the drop-down of *column* offers; nothing for free text."""
    if column.role is Role.SECTION:
        return FITTED_WORDS
    if column.name == YARD:
        return tuple(yard.id for yard in yards)
    match column.kind:
        case ChoiceField(choices=choices):
            return tuple(choices)
        case FlagField():
            return ("yes", "no")
        case _:
            return ()
