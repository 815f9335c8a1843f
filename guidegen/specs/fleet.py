"""What is true of the whole fleet.

Takes in the fields of ``fleet.yml``; gives out the fleet with its yards, contacts and measures.
Refuses a fleet without a jurisdiction: limits of the law are never mixed or guessed.
"""

from dataclasses import dataclass
from typing import Annotated

from guidegen.quantity.measures import MEASURES
from guidegen.quantity.model import Measure, System
from guidegen.source import Span
from guidegen.specs.fields import ChoiceField, DateField, Stated, TextField
from guidegen.specs.paper import CardSection
from guidegen.specs.section import Section
from guidegen.specs.unit_list import UnitList

JURISDICTIONS = {
    "us": "United States",
    "us-california": "California, United States",
    "ontario": "Ontario, Canada",
    "british-columbia": "British Columbia, Canada",
    "uk": "United Kingdom",
    "eu": "European Union",
}
RECHECK_FORM = r"[1-9][0-9]{0,2} (month|year)s?"
_MONTHS_IN_A_YEAR = 12
_SYSTEMS = {"us": "US customary", "metric": "metric"}


class MeasuresSection(Section):
    """Which measures are printed first, and which second."""

    first: Annotated[Stated | None, ChoiceField("First", _SYSTEMS)] = None
    """Printed large."""

    second: Annotated[
        Stated | None, ChoiceField("Second", {**_SYSTEMS, "none": "no second measure"})
    ] = None
    """Printed in parentheses behind it."""

    pressure: Annotated[
        Stated | None, ChoiceField("Metric pressure", {"kPa": "kilopascal", "bar": "bar"})
    ] = None
    """Which metric measure gauges have."""


class YardSection(Section):
    """A place where trucks are kept."""

    id: Annotated[Stated, TextField("Yard id", r"[a-z0-9-]+", "small letters, digits and hyphens")]
    """What unit files name."""

    name: Annotated[Stated, TextField("Yard")]
    """As people say it."""

    phone: Annotated[Stated | None, TextField("Phone")] = None
    """Of the yard."""


class ContactSection(Section):
    """Someone a driver can call."""

    role: Annotated[Stated, TextField("Role")]
    """What to call about."""

    name: Annotated[Stated | None, TextField("Name")] = None
    """Who."""

    phone: Annotated[Stated, TextField("Phone")]
    """Number."""


class FleetFile(Section):
    """The fleet: its name, place, measures, yards and contacts."""

    name: Annotated[Stated, TextField("Fleet")]
    """As printed on every page."""

    jurisdiction: Annotated[Stated, ChoiceField("Jurisdiction", JURISDICTIONS)]
    """Whose limits hold."""

    measures: MeasuresSection | None = None
    """Which measures come first."""

    yards: tuple[YardSection, ...] = ()
    """Where trucks are kept."""

    contacts: tuple[ContactSection, ...] = ()
    """Whom a driver can call."""

    trained_on: UnitList | None = None
    """Units that drivers are signed off on. For these, each truck's pages say what differs."""

    address: Annotated[
        Stated | None,
        TextField("Web address", r"https?://[!-~]+/", "a web address that ends with a slash"),
    ] = None
    """Where the site is hosted: the codes on cards lead there."""

    issued: Annotated[Stated | None, DateField("Issued")] = None
    """Date that cards and booklets carry."""

    cards: tuple[CardSection, ...] = ()
    """The fleet's own cards; one with the id of a library card replaces it."""

    recheck_after: Annotated[
        Stated | None,
        TextField("Recheck after", RECHECK_FORM, "a number of months or years, as in `24 months`"),
    ] = None
    """Age at which the fleet wants a recorded value to be checked again."""

    source: Annotated[Stated | None, TextField("Source")] = None
    """Who keeps this file."""


@dataclass(frozen=True, slots=True)
class Yard:
    """A place where trucks are kept."""

    id: str
    name: str
    phone: str


@dataclass(frozen=True, slots=True)
class Contact:
    """Someone a driver can call."""

    role: str
    name: str
    phone: str


@dataclass(frozen=True, slots=True)
class Fleet:
    """The units of one owner, without the units."""

    name: str
    jurisdiction: str
    """Key of `JURISDICTIONS`."""

    first: System
    second: System | None
    pressure: Measure
    """Metric measure of pressure."""

    yards: tuple[Yard, ...]
    contacts: tuple[Contact, ...]
    trained_on: tuple[Stated, ...] | None
    """Numbers of the units that drivers are signed off on; none if nobody has said."""

    span: Span
    """Of its name."""

    address: str = ""
    """Where the site is hosted, with a slash at its end; empty if nobody has said."""

    issued: str = ""
    """Date for print, as ``2026-11-20``; empty if nobody has said."""

    cards: tuple[CardSection, ...] = ()
    """The fleet's own."""

    recheck_months: int | None = None
    """Months after which a recorded value is to be checked again; none if nobody has said."""

    def yard_name(self, yard: str) -> str:
        """Return what people call the yard with the id *yard*."""
        return next((known.name for known in self.yards if known.id == yard), yard)


def fleet_from(file: FleetFile) -> Fleet:
    """Return the fleet that *file* describes; US customary first and metric second by default."""
    measures = file.measures or MeasuresSection()
    second = _word(measures.second) or "metric"
    return Fleet(
        name=_word(file.name),
        jurisdiction=_word(file.jurisdiction),
        first=System(_word(measures.first) or "us"),
        second=None if second == "none" else System(second),
        pressure=MEASURES[_word(measures.pressure) or "kPa"],
        yards=tuple(Yard(_word(y.id), _word(y.name), _word(y.phone)) for y in file.yards),
        contacts=tuple(
            Contact(_word(c.role), _word(c.name), _word(c.phone)) for c in file.contacts
        ),
        trained_on=None if file.trained_on is None else file.trained_on.numbers,
        span=file.name.span,
        address=_word(file.address),
        issued=_word(file.issued),
        cards=file.cards,
        recheck_months=_months(file.recheck_after),
    )


def _months(stated: Stated | None) -> int | None:
    if stated is None:
        return None
    count, measure = str(stated.value).split()
    return int(count) * (_MONTHS_IN_A_YEAR if measure.startswith("year") else 1)


def _word(stated: Stated | None) -> str:
    return "" if stated is None else str(stated.value)
