"""What came of one unit's folder.

Takes in nothing; gives out what was made and proved as frozen values, small and ready to be sent
or kept. Refuses to hold pages: they are in the folder.
"""

from dataclasses import dataclass

from guidegen.build.off_card import OffCard
from guidegen.decks.model import CardKind
from guidegen.finding import Finding
from guidegen.paper_proof.model import PaperVerdict
from guidegen.pickling import numerous
from guidegen.proof.model import UnitVerdict
from guidegen.proof.unit_record import UnitRecord
from guidegen.site.truck_line import TruckLine


@numerous
@dataclass(frozen=True, slots=True)
class UnitMade:
    """What came of one unit whose folder was made."""

    number: str
    line: TruckLine
    """What drivers find it by."""

    record: UnitRecord
    """What the proof of the whole site needs of it."""

    verdict: UnitVerdict
    printed: PaperVerdict
    held: tuple[CardKind, ...]
    """Cards that are held back, since something on them fits on no side."""

    findings: tuple[Finding, ...]
    """Why."""

    hashes: bytes
    """Of all files of its folder: lines as of `guidegen.build.manifest`."""

    state: str
    """Of its folder as it was left: names, sizes and times of all files."""

    asked: frozenset[str]
    """Facts whose values in other trucks its quiz was drawn from."""

    quiz: str
    """Digest of its quiz."""

    off_cards: tuple[OffCard, ...] = ()
    """Photos that have no room on its cards; no reason to make them again."""

    @property
    def is_clean(self) -> bool:
        """Whether nothing was found, so that it need not be looked at again."""
        return not (self.findings or self.held or self.verdict.failures or self.printed.failures)


@dataclass(frozen=True, slots=True)
class UnitBroken:
    """A unit whose folder could not be made, through a fault of the program."""

    number: str
    why: str
    """The end of the trace."""


@numerous
@dataclass(frozen=True, slots=True)
class UnitKept:
    """A unit whose folder stands in the site, and what it was made of."""

    made: UnitMade
    key: str
    """Hash of all that its folder is made of, but for what its quiz asks of other trucks."""

    pools: tuple[tuple[str, str], ...]
    """Facts that its quiz asks of other trucks, each with the hash of all values in the fleet."""

    claims_digest: str
    """Of what the proof knew of the site."""
