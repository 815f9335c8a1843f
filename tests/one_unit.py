"""One truck, from the text of its unit file, in the fleet of some jurisdiction."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.finding import Findings
from guidegen.plausibility.check import plausible_units
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.specs.model import Spec
from guidegen.specs.read import read_fleet, read_model, read_profile, read_unit
from guidegen.units.model import Unit
from guidegen.units.resolve import FleetSpecs, resolve_units

PROFILES = Path(__file__).resolve().parents[1] / "site_templates" / "profiles"
HEAD = "unit: T-1\nmodel: m\n"


@dataclass(frozen=True)
class Looked:
    """What came of looking at a fleet."""

    units: Mapping[str, Unit]
    """Those that are not held back."""

    findings: Findings

    @property
    def rules(self) -> set[str]:
        return {finding.rule.name for finding in self.findings}

    def what(self, rule: str) -> str:
        """The words of the one finding of *rule*."""
        (only,) = [finding.what for finding in self.findings if finding.rule.name == rule]
        return only


def look_at(unit: str, jurisdiction: str = "us", model: str = "") -> Looked:
    """Resolve a unit whose file holds *unit* below its number and model, and look it over."""
    return look_at_fleet({"T-1": unit}, jurisdiction, model)


def look_at_fleet(units: Mapping[str, str], jurisdiction: str = "us", model: str = "") -> Looked:
    findings = Findings()
    read = {number: _read(number, text, findings) for number, text in units.items()}
    if findings.has_errors:
        return Looked({}, findings)
    fleet_text = f"name: F\njurisdiction: {jurisdiction}\n"
    fleet = read_fleet("specs/fleet.yml", fleet_text.encode(), findings)
    model_text = f"model: m\n{model or 'identity: {make: Corvane}'}\n"
    shared = read_model("specs/models/m.yml", model_text.encode(), findings)
    path = PROFILES / f"{jurisdiction}.yml"
    profile = read_profile(path.name, path.read_bytes(), findings)
    assert fleet is not None
    assert shared is not None, [finding.what for finding in findings]
    assert profile is not None
    specs = FleetSpecs(fleet, {n: s for n, s in read.items() if s}, {"m": shared}, profile)
    resolved = resolve_units(specs, findings)
    kept = plausible_units(resolved, profile.stated, RULEBOOK, findings)
    return Looked(kept, findings)


def _read(number: str, text: str, findings: Findings) -> Spec | None:
    file = f"unit: {number}\nmodel: m\n{text}"
    return read_unit(f"specs/units/{number}.yml", file.encode(), findings)
