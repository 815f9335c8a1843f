"""The proof of a site with one changed file, without proving all the rest again."""

import hashlib
from dataclasses import dataclass, field, replace
from unittest.mock import patch

from hand_made_site import Site
from plants.plant import Plant

from guidegen.proof import prove
from guidegen.proof.fleet_claims import FleetClaims, claims_of_fleet
from guidegen.proof.model import Failure, FileVerdict, UnitVerdict
from guidegen.proof.prove import conclude, prove_unit
from guidegen.proof.prove_file import FileProving
from guidegen.proof.unit_record import UnitRecord, record_of


class KeptProving(FileProving):
    """Proves even a file of which siblings can share nothing once, while it stays as it is.

    Nobody proves one unit twice but tests, whose faults each leave the page with the trucks to
    pick, say, as it was. Kept beside what the edition keeps, so as long and for the same claims.
    """

    def prove_alone(self, path: str, raw: bytes) -> FileVerdict:
        """Return the verdict on *raw*; one with failures is found anew."""
        proved, key = self.subject.edition.proved, (f"alone {self.subject.path(path)}", raw)
        if key in proved:
            return proved[key]
        verdict = super().prove_alone(path, raw)
        if not verdict.failures:
            proved[key] = verdict
        return verdict


@dataclass(frozen=True, slots=True)
class Prover:
    """A site that was proved, and what was found."""

    site: Site
    fleet: FleetClaims
    verdicts: tuple[UnitVerdict, ...]
    _broken: dict[tuple[str, str, bytes], frozenset[str]] = field(
        default_factory=dict, compare=False, repr=False
    )

    @classmethod
    def of(cls, site: Site) -> "Prover":
        """Prove the whole of *site*."""
        fleet = _claims_of(site)
        verdicts = tuple(prove_unit(each, site.of_unit(each.number), fleet) for each in site.guides)
        return cls(site, fleet, verdicts)

    @property
    def records(self) -> tuple[UnitRecord, ...]:
        """What the proof of the whole needs of each truck."""
        return tuple(map(record_of, self.site.guides))

    @property
    def failures(self) -> tuple[Failure, ...]:
        """Failures of the site as it is."""
        return conclude(self.records, self.verdicts, self.site.read, self.fleet).all_failures

    def failures_of(self, plant: Plant) -> tuple[Failure, ...]:
        """Return the failures of the site with *plant* in it.

        Files of other units are as they were, and so are their verdicts; the claims of the fleet
        are made anew if a stylesheet or the list of files is another.
        """
        site = self.site.changed(plant.path, plant.raw)
        fleet = self.fleet
        is_shared = plant.path.partition("/")[0] not in fleet.numbers
        if is_shared or set(site.files) != set(self.site.files):
            fleet = self._with_what_holds(_claims_of(site))
        with patch.object(prove, "FileProving", KeptProving):
            verdicts = [
                prove_unit(site.guide(each.unit), site.of_unit(each.unit), fleet)
                if each.unit == plant.unit
                else each
                for each in self.verdicts
            ]
        return conclude(self.records, verdicts, site.read, fleet).all_failures

    def _with_what_holds(self, fleet: FleetClaims) -> FleetClaims:
        """Return *fleet* with what was proved before, if pages must say and look the same.

        What all pages load is looked at with the lists of packs, and with all files of a unit
        together: nothing of that is taken over.
        """
        proved = self.fleet._editions  # noqa: SLF001 -- nobody else takes it over in part
        kept = {key: replace(each, wholes={}) for key, each in proved.items()}
        before = replace(self.fleet, shell=fleet.shell, _editions=kept)
        return before if before == fleet else fleet

    def rules_of(self, plant: Plant) -> frozenset[str]:
        """Return the names of the rules that *plant* breaks; each file is proved once."""
        digest = b"" if plant.raw is None else hashlib.sha256(plant.raw).digest()
        key = plant.path, plant.unit, digest
        if key not in self._broken:
            found = frozenset(each.rule.name for each in self.failures_of(plant))
            self._broken[key] = found
        return self._broken[key]


def _claims_of(site: Site) -> FleetClaims:
    """Return the claims of the fleet, of which every edition keeps what was proved of it.

    So each fault costs the proof of one file, even of a truck that has its edition to itself.
    """
    fleet = claims_of_fleet(
        site.guides,
        site.read,
        site.files,
        site.held_back,
        site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
        cards=site.cards,
        history=site.history,
        has_packs=site.has_packs,
    )
    return replace(fleet, shared_editions=frozenset(guide.edition for guide in site.guides))
