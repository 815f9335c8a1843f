"""A fleet's own files beside a small library, for the tests of what a fleet may replace."""

from guidegen.finding import Finding, Findings
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.own.read import Originals, originals_of, read_own_procedures

LIBRARY = """\
id: drain-tanks
title: Drain the air tanks
chapter: air-brakes
applies: fitted(brakes.air)
state:
  parking_brake: set
  engine: "off"
station: left_side
cautions:
  - id: roll
    signal: DANGER
    guards: chock
    hazard: The truck can roll.
    consequence: It will crush a person.
    avoid: Chock the wheels.
  - id: blast
    signal: WARNING
    guards: open
    hazard: Air blows out hard.
    consequence: It can blind you.
    avoid: Keep your face away.
steps:
  - id: chock
    text: Chock the wheels.
  - id: open
    text: Open the drain of each tank.
  - id: watch
    text: Watch the gauges rise to {{ brakes.air.cut_out }}.
expect:
  - Water and air come out.
if_not:
  - Do not drive. Report it to the shop.
references:
  - Common practice, no source
"""

STEPS = """\
replaces: {procedure: drain-tanks, digest: DIGEST}
steps:
  - replaces: open
    text: Pull the ring of each tank.
"""


def digest() -> str:
    """Return the digest of the procedure of this library, as a fix tells it to the office."""
    findings = Findings()
    read_own_procedures(
        (), [("specs/own/steps/drain-tanks.yml", without_digest(STEPS))], _library(), findings
    )
    (finding,) = findings
    return finding.fix.rpartition("`digest: ")[2].rstrip("`")


def without_digest(text: str) -> bytes:
    return text.replace(", digest: DIGEST", "").encode()


def read_own(
    procedure: str = "", steps: str = "", name: str = "drain-tanks"
) -> tuple[tuple[OwnProcedure, ...], tuple[Finding, ...]]:
    """Return what comes of one file of each kind, of which either may be left out."""
    findings = Findings()
    known = digest()
    whole = [(f"specs/own/procedures/{name}.yml", procedure.replace("DIGEST", known).encode())]
    parts = [(f"specs/own/steps/{name}.yml", steps.replace("DIGEST", known).encode())]
    own = read_own_procedures(
        whole if procedure else (), parts if steps else (), _library(), findings
    )
    return own, tuple(findings)


def _library() -> Originals:
    return originals_of([("site_templates/procedures/drain-tanks.yml", LIBRARY.encode())])
