"""A site of three trucks, written by hand: two of one edition, and an electric one.

The pages stand in ``specimens/hand_made_site`` and owe nothing to the templates, so that the proof
and the printing are not tested against each other only.
"""

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from hand_made_quiz import quiz_of
from sample_fleet import FALL, RISE, SPAN, Warn, guide, procedure
from sample_revisions import CHANGES, DATES, revision

from guidegen.decks.model import CardKind
from guidegen.differences.offer import Offer, offer_known
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.photos.model import Photo
from guidegen.procedures.figure_kinds import LAMP_SYMBOL
from guidegen.procedures.model import LampSign, Signal
from guidegen.procedures.script_words import BACK_WORDS, ROUND_WORDS, TIMER_WORDS
from guidegen.revisions.model import Draft, FleetHistory, UnitHistory
from guidegen.round.model import Change, Leg, Reason, ReasonKind, Round, Stop
from guidegen.round.positions import Axle, Footprint
from guidegen.training.model import Quiz

FOLDER = Path(__file__).resolve().parent / "specimens" / "hand_made_site"


@dataclass(frozen=True, slots=True)
class Site:
    """A published site, and the guides that it must say."""

    guides: tuple[Guide, ...]
    files: Mapping[str, bytes]
    """By path from the root of the site."""

    held_back: tuple[str, ...] = ()
    trained_on: tuple[str, ...] | None = None
    """As the fleet file has it."""

    rounds: Mapping[str, Round] = field(default_factory=dict)
    """By edition."""

    quizzes: Mapping[str, Quiz] = field(default_factory=dict)
    """By edition."""

    cards: Mapping[str, Sequence[CardKind]] = field(default_factory=dict)
    """By number of the unit."""

    history: FleetHistory | None = None

    has_packs: bool = False
    """Whether tablets can keep its trucks."""

    @property
    def offer(self) -> Offer:
        """The trucks that drivers may pick as known."""
        return offer_known(self.guides, self.trained_on)

    @property
    def read(self) -> Callable[[str], bytes | None]:
        """A reader as the proof takes it."""
        return self.files.get

    def guide(self, number: str) -> Guide:
        """Return the guide of the unit *number*."""
        return next(each for each in self.guides if each.number == number)

    def of_unit(self, number: str) -> dict[str, bytes]:
        """Return the files of one unit."""
        return {p: raw for p, raw in self.files.items() if p.startswith(f"{number}/")}

    def changed(self, path: str, raw: bytes | None) -> "Site":
        """Return the site with one file other, new, or gone."""
        others = {name: old for name, old in self.files.items() if name != path}
        changed = others if raw is None else {**others, path: raw}
        return replace(self, files=changed)


_OIL_IN_WORDS = procedure(
    "oil-check",
    "Check the engine oil",
    [
        Warn(
            Signal.CAUTION,
            "Parts near the dipstick stay hot & sharp.",
            "They can burn your hand.",
            "Wear gloves, and wait {engine.oil_check_wait} after you stop the engine.",
        ),
        "Pull the dipstick {engine.dipstick_location}, wipe it, push it in and pull it again.",
        Warn(
            Signal.NOTICE,
            "Too much oil foams.",
            "It damages the engine.",
            "Do not fill over the FULL mark.",
        ),
        "If the level is at ADD, put in {engine.oil_between_marks} of {engine.oil_grade}.",
    ],
    station="engine",
    state=(("ground", "level"), ("engine", "off_warm")),
    expect=("The level is between ADD and FULL.",),
    if_not=("Do not start the engine.", "Call the fleet office."),
)
_OIL = replace(_OIL_IN_WORDS, figure="engine_dipstick")


def _photo(name: str, step: str, alt: str, caption: str = "") -> Photo:
    raw = (FOLDER / f"{name}.jpg").read_bytes()
    digest = hashlib.sha256(raw).hexdigest()
    return Photo("tire-check", step, alt, caption, 64, 48, digest, SPAN, raw)


PHOTOS = (
    _photo(
        "valve",
        "step-2",
        "The valve of the inner tire, through the upper hand hole.",
        "The valve of the inner tire",
    ),
    _photo("tires", "", "All six wheels from the left & from the rear."),
)
"""Of both trucks with air brakes."""

_TIRES_WITHOUT_PHOTOS = procedure(
    "tire-check",
    "Check the tires at {tires.steer.cold_pressure}",
    [
        "Check the steer tires: {tires.steer.cold_pressure} cold.",
        "Check the drive tires: {tires.drive.cold_pressure} cold.",
        "Check that the door says {identity.number}.",
    ],
    station="around",
    state=(("parking_brake", "set"),),
    expect=("No tire is low.",),
    if_not=("Do not drive.",),
)
_TIRES = replace(_TIRES_WITHOUT_PHOTOS, photos=PHOTOS)
_AIR = procedure(
    "air-build-up",
    "Build up the air",
    [
        "Start the engine and let it idle.",
        Warn(
            Signal.DANGER,
            "With low air the spring brakes come on at {brakes.air.spring_apply}.",
            "The truck will stop in traffic, and you will be struck.",
            "Do not move until both gauges read over {brakes.air.low_air_warning}.",
        ),
        Warn(
            Signal.WARNING,
            "Exhaust gas fills a closed building fast.",
            "It can kill you.",
            "Do this check outdoors.",
        ),
        "Watch both gauges rise to {brakes.air.cut_out}.",
        (
            "Look up: the truck is {identity.overall_height} high and stops engine braking when "
            "{engine_brake.drops_out}."
        ),
    ],
    state=(("parking_brake", "set"), ("engine", "idling")),
    timers={2: RISE, 3: FALL},
    expect=("The pressure stops at {brakes.air.cut_out}.",),
    if_not=("Do not drive.",),
)
_PEDAL = procedure(
    "pedal-check",
    "Check the brake pedal",
    [
        Warn(
            Signal.WARNING,
            "A pedal that sinks shows a leak.",
            "The brakes could fail and people could die.",
            "Do not drive a truck whose pedal sinks.",
        ),
        "Hold the pedal down. The fluid is {brakes.hydraulic.fluid}.",
    ],
    state=(("wheels", "chocked"),),
    expect=("The pedal does not sink.",),
    if_not=("Do not drive.",),
)
_SHUT_OFF = procedure(
    "high-voltage-shut-off",
    "Shut off the high voltage",
    [
        Warn(
            Signal.DANGER,
            "The orange cables carry {high_voltage.nominal_voltage}.",
            "Touching a bare part will kill you.",
            "Never touch orange cables.",
        ),
        "Work the {high_voltage.shutoff} {high_voltage.shutoff_location}.",
        "Wait {high_voltage.discharge_wait} before anyone comes near.",
    ],
    station="left_side",
    state=(("key", "out"),),
    expect=("No lamp is on.",),
    if_not=("Keep away, and call 911.",),
)


def _lamp(lamp: str, color: str, act: str, title: str, *said: str) -> Procedure:
    """What a lamp asks for: its steps, and after them what it means."""
    id_ = f"lamp-{lamp.replace('_', '-')}"
    made = procedure(id_, title, said[:-1], state=(), expect=said[-1:])
    return replace(made, lamp=LampSign(lamp, color, act), figure=LAMP_SYMBOL)


_LAMPS = Chapter(
    "warning-lamps",
    (
        _lamp(
            *("stop_engine", "red", "stop_now", "Stop engine"),
            "Stop at the nearest safe place.",
            "A fault will soon ruin the engine.",
        ),
        _lamp(
            *("oil_pressure", "red", "stop_now", "Engine oil pressure"),
            "Stop at the nearest safe place.",
            "Shut the engine off at once.",
            "The oil pressure is too low.",
        ),
        _lamp(
            *("abs", "amber", "report", "Anti-lock brakes"),
            "Report it to the shop.",
            "The anti-lock brakes are off.",
        ),
    ),
)

_AIR_TRUCK: Mapping[str, str | list[str]] = {
    "identity.make": "Corvane",
    "identity.model_name": "HX-9",
    "identity.year": "2019",
    "identity.overall_height": "13 ft 6 in",
    "identity.gvwr": "54,000 lb",
    "engine.oil_grade": "SAE 15W-40, API CK-4",
    "engine.oil_capacity": "44.0 qt",
    "engine.oil_between_marks": "4 qt",
    "engine.oil_check_state": "warm",
    "engine.oil_check_wait": "15 min",
    "engine.dipstick_location": "on the left, behind the driver's step",
    "brakes.air.cut_out": "135 psi",
    "brakes.air.low_air_warning": "65 psi",
    "brakes.air.spring_apply": "20 to 45 psi",
    "brakes.air.tank_count": "3",
    "brakes.air.air_dryer": "yes",
    "brakes.abs": "no",
    "engine_brake.drops_out": ["accelerator", "clutch", "abs"],
    "tires.steer.cold_pressure": "110 psi",
    "tires.drive.cold_pressure": "100 psi",
    "block_heater.voltage": "120 V",
    "block_heater.power": "1,500 W",
    "block_heater.use_below": "-10 °F",
    "law.name": "United States",
    "law.air_build_up_time": "45 s",
    "law.air_static_loss_single": "2 psi",
    "law.air_static_loss_combination": "3 psi",
    "law.air_loss_time": "1 min",
}
_AIR_CHAPTERS = (
    Chapter("before-the-day", (_OIL, _TIRES)),
    Chapter("air-brakes", (_AIR,)),
    _LAMPS,
)
_NOT_ON_AIR_TRUCKS = frozenset({"brakes.hydraulic", "high_voltage"})

T_17 = guide(
    {"number": "T-17", "vin": "1M8GDM9AXKP042788", "plate": "BLF 4417", "yard": "north-yard"},
    _AIR_TRUCK,
    _AIR_CHAPTERS,
    _NOT_ON_AIR_TRUCKS,
)
T_18 = guide(
    {"number": "T-18", "vin": "1J9RP1A36A1644345", "plate": "BLF 0918", "yard": "river-street"},
    _AIR_TRUCK,
    _AIR_CHAPTERS,
    _NOT_ON_AIR_TRUCKS,
)
E_04 = guide(
    {"number": "E-04", "vin": "1FACP45EXLF192944", "yard": "north-yard"},
    {
        "identity.make": "Quillon",
        "identity.model_name": "Mule E",
        "brakes.hydraulic.fluid": "DOT 5",
        "high_voltage.nominal_voltage": "650 V",
        "high_voltage.shutoff": "pull_handle",
        "high_voltage.shutoff_location": "behind the left step",
        "high_voltage.discharge_wait": "5 min",
    },
    (
        Chapter("hydraulic-brakes", (_PEDAL,)),
        _LAMPS,
        Chapter("when-something-is-wrong", (_SHUT_OFF,)),
    ),
    frozenset({"engine", "aftertreatment", "aftertreatment.parked_regeneration"}),
)


_SET = ("parking_brake", "set")
ROUND = Round(
    stops=(
        Stop(
            number=1,
            procedure="tire-check",
            step=None,
            station="around",
            state=(_SET, ("key", "out")),
            millimeters=28560,
            reasons=(Reason(ReasonKind.FIRST),),
        ),
        Stop(
            number=2,
            procedure="air-build-up",
            step=None,
            station="cab",
            state=(_SET, ("key", "on")),
            millimeters=0,
            reasons=(Reason(ReasonKind.NEEDS, (("key", "on"), _SET)),),
        ),
        Stop(
            number=3,
            procedure="oil-check",
            step=None,
            station="engine",
            state=(_SET, ("engine", "off_warm"), ("key", "out")),
            millimeters=0,
            reasons=(Reason(ReasonKind.FOR, stops=(2, 4)), Reason(ReasonKind.ON_THE_WAY)),
        ),
        Stop(
            number=4,
            procedure="oil-check",
            step="step-2",
            station="engine",
            state=(_SET, ("engine", "off_warm"), ("key", "out")),
            millimeters=0,
            reasons=(
                Reason(ReasonKind.DONE_WITH, (("access", "open"),)),
                Reason(ReasonKind.SAME_PLACE),
            ),
        ),
    ),
    legs=(
        Leg(1700, ()),
        Leg(1700, (Change("key_on", "cab"),)),
        Leg(3400, (Change("warm_up", None), Change("engine_off_key_out", "cab"))),
        Leg(0, ()),
    ),
    changes=3,
    millimeters=35360,
    premises=("cold", "guessed"),
    truck=Footprint(
        length=8500,
        width=2590,
        hood=1700,
        cab=3300,
        door=2400,
        engine=1000,
        axles=(Axle(1100, is_steered=True), Axle(6375, is_steered=False)),
        is_length_known=True,
    ),
)
"""Of the trucks with air brakes; nothing was planned to come to it. The electric one has none."""

_YARDS = {"north-yard": "North Yard", "river-street": "River Street"}
_STAMPS = {
    "T-17": "T-18",
    "1M8GDM9AXKP042788": "1J9RP1A36A1644345",
    "BLF 4417": "BLF 0918",
    "North Yard": "River Street",
}
_TITLES = {
    "index.html": "",
    "data.html": " · Data",
    "round.html": " · Inspection round",
    "lamp-finder.html": " · A lamp is lit",
    "warning-lamps.html": " · Warning lamps",
    "quiz.html": " · Quiz",
    "search.html": " · Search",
    "before-the-day.html": " · Before the day",
    "air-brakes.html": " · Air brakes",
    "hydraulic-brakes.html": " · Hydraulic brakes",
    "when-something-is-wrong.html": " · When something is wrong",
    "differences.html": " · If you know another truck",
    "from-E-04.html": " · If you know E-04",
    "from-T-17.html": " · If you know T-17",
}
_EDITIONS = {"T-17": T_17.edition, "T-18": T_17.edition, "E-04": E_04.edition}


def hand_made_site() -> Site:
    """Return the site with all its files."""
    files = {
        f"assets/{path.name}": path.read_bytes() for path in sorted((FOLDER / "assets").iterdir())
    }
    files["index.html"] = (FOLDER / "index.html").read_bytes()
    guides = tuple(_in_its_yard(each) for each in (T_17, T_18, E_04))
    for number in ("T-17", "E-04"):
        files |= {path: text.encode() for path, text in _unit_files(number, number)}
    for path in [path for path in files if path.startswith("T-17/")]:
        text = files[path].decode()
        for old, new in _STAMPS.items():
            text = text.replace(old, new)
        files[path.replace("T-17", "T-18")] = text.encode()
    files |= {path: text.encode() for path, text in _unit_files("T-18", "T-17")}
    files |= {f"{n}/{photo.path}": photo.raw for n in ("T-17", "T-18") for photo in PHOTOS}
    quizzes = {T_17.edition: quiz_of(T_17)}
    return Site(guides, files, ("T-22",), rounds={T_17.edition: ROUND}, quizzes=quizzes)


HISTORY = FleetHistory(
    {
        "T-17": UnitHistory(
            (
                revision("T-17", 1, "aaaa1111aaaa"),
                revision("T-17", 2, T_17.edition, CHANGES),
            )
        ),
        "T-18": UnitHistory(
            (revision("T-18", 1, "bbbb2222bbbb"),),
            Draft(T_17.edition, ("Engine oil grade SAE 10W-30 → SAE 15W-40, API CK-4",)),
        ),
        "E-04": UnitHistory((revision("E-04", 1, E_04.edition),)),
    },
    DATES[-1],
)
"""Two trucks of one edition with revisions of their own."""

_IN_BAR = {"T-17": "2", "E-04": "1"}


def revision_in_bar(number: str) -> str:
    """Return which revision the bar of the unit *number* says; one of them is a draft."""
    return _IN_BAR.get(number, f"draft {_EDITIONS[number][:8]}")


def site_with_revisions() -> Site:
    """Return the site of a fleet that keeps a record: each start page tells its revisions."""
    site = replace(hand_made_site(), history=HISTORY)
    for number, edition in _EDITIONS.items():
        bar = f"<b data-issue>{edition[:8]}</b>"
        said = f"<b data-issue>{revision_in_bar(number)}</b>"
        for path, raw in site.of_unit(number).items():
            site = site.changed(path, raw.replace(bar.encode(), said.encode()))
        told = (FOLDER / number / "revisions.html").read_text(encoding="utf-8")
        told = told.replace("@digits@", edition[:8])
        path = f"{number}/index.html"
        before = '<p data-label="handbook_first">'
        page = site.files[path].decode()
        assert page.count(before) == 1
        site = site.changed(path, page.replace(before, told + before).encode())
    return site


def _unit_files(number: str, like: str) -> Iterator[tuple[str, str]]:
    """Yield the files in the folder of *number*; navigation and index are those of *like*."""
    folder = FOLDER / number
    frame = (FOLDER / "frame.html").read_text(encoding="utf-8")
    navigation, tools = (
        (FOLDER / like / name).read_text(encoding="utf-8") for name in ("nav.html", "tools.html")
    )
    frame = frame.replace("@revision@", _EDITIONS[number][:8]).replace("@tools@", tools)
    for path in sorted(folder.glob("*.html")):
        if path.name in ("nav.html", "tools.html", "revisions.html"):
            continue
        body = path.read_text(encoding="utf-8").replace("@edition@", _EDITIONS[number])
        known = path.stem.removeprefix("from-")
        body = _with_words(body)
        body = body.replace("@known@", _EDITIONS.get(known, ""))
        page = frame.replace("@title@", f"{number}{_TITLES[path.name]}")
        page = page.replace("@number@", number).replace("@nav@", navigation)
        yield f"{number}/{path.name}", page.replace("@body@", body)
    if number == like:
        data = (folder / "search-data.js").read_text(encoding="utf-8")
        yield f"{number}/search-data.js", data


def _with_words(body: str) -> str:
    """Return *body* with the words of scripts where it asks for them."""
    for name, words in _SCRIPT_WORDS.items():
        lines = [f'<p data-script-word="{key}">{text}</p>' for key, text in words.items()]
        template = f"<template data-script-words>{''.join(lines)}</template>"
        body = body.replace(f"@words-{name}@", template)
    return body


_SCRIPT_WORDS = {"round": ROUND_WORDS, "timers": TIMER_WORDS, "back": BACK_WORDS}


def _in_its_yard(made: Guide) -> Guide:
    yard = made.facts["identity.yard"]
    named = replace(yard, value=_YARDS[str(yard.value)])
    return replace(made, facts={**made.facts, yard.name: named})
