"""A fleet loaded unit by unit, each file read and each truck fitted for itself.

What the program saves itself by loading trucks that state the same only once is judged by this.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.build.load_group import FleetBase
from guidegen.finding import Findings, Note
from guidegen.guide.assemble import assemble_guide
from guidegen.guide.model import Guide
from guidegen.plausibility.check import plausible_units
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.round.fleet_rounds import plan_rounds
from guidegen.round.model import Round
from guidegen.specs import rules
from guidegen.specs.model import Spec
from guidegen.specs.read import read_unit
from guidegen.units.model import Unit
from guidegen.units.resolve import resolve_units


@dataclass(frozen=True)
class PlainlyLoaded:
    units: Mapping[str, Unit]
    guides: Mapping[str, Guide]
    rounds: Mapping[str, Round]
    findings: Findings


def load_plainly(files: Sequence[tuple[str, bytes]], base: FleetBase) -> PlainlyLoaded:
    findings = Findings()
    specs: dict[str, Spec] = {}
    for path, raw in files:
        spec = read_unit(path, raw, findings)
        if spec is None:
            continue
        first = specs.setdefault(spec.id, spec)
        if first is not spec:
            findings.add(
                rules.UNIT_TWICE,
                spec.span,
                what=f"`{spec.id}` has two files",
                fix="delete one of the two",
                notes=[Note("the other is", first.span)],
                unit=spec.id,
            )
    resolved = resolve_units(replace(base.specs, units=specs), findings)
    units = plausible_units(resolved, base.specs.profile.stated, RULEBOOK, findings)
    # One by one: trucks that are assembled together share what is fitted alike.
    found = [assemble_guide(unit, base.library, findings) for unit in units.values()]
    guides = {guide.number: guide for guide in found if guide is not None}
    planned = plan_rounds(guides, base.library, findings)
    return PlainlyLoaded(units, planned.guides, planned.rounds, findings)
