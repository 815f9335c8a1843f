"""From editions to the finished and proved folders of their units.

Takes in what all units of a site share and a batch of editions; gives out the files of each unit,
written and read back, with what the proof found in them. Refuses to let one unit stop the others:
what breaks is told and held back.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.load import Loaded
from guidegen.build.print_shop import PrintShop
from guidegen.decks.model import CardKind
from guidegen.finding import Finding
from guidegen.paper_proof.model import PaperVerdict
from guidegen.proof.fleet_claims import FleetClaims
from guidegen.proof.model import UnitVerdict
from guidegen.site.pack import PackedFile
from guidegen.training.model import Quiz


@dataclass(frozen=True, slots=True)
class SitePlan:
    """What all units of a site share."""

    loaded: Loaded
    quizzes: Mapping[str, Quiz]
    shop: PrintShop | None
    frames: Mapping[str, str]
    templates: Path
    shared: Sequence[PackedFile]
    claims: FleetClaims
    folder: Path
    """In which the units' folders are made."""


@dataclass(frozen=True, slots=True)
class UnitMade:
    """One unit's folder, as it came out."""

    number: str
    verdict: UnitVerdict
    printed: PaperVerdict
    held: tuple[CardKind, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class UnitBroken:
    """A unit that could not be made, through a fault of the program."""

    number: str
    why: str
    """The end of the trace."""
