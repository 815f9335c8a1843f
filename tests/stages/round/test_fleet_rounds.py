"""Every edition has its round, and what contradicts itself holds back the trucks it is about."""

from collections.abc import Mapping
from dataclasses import replace

from guidegen.build.load import Loaded
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.procedures.model import ProcedureTemplate
from guidegen.round.fleet_rounds import plan_rounds
from guidegen.round.model import Round

Library = Mapping[str, ProcedureTemplate]


def contradictory(guide: Guide) -> Guide:
    """Return *guide* with a state in its first procedure that no truck can be in."""
    first, *others = guide.chapters
    broken = replace(first.procedures[0], state=(("engine", "idling"), ("key", "out")))
    chapter = replace(first, procedures=(broken, *first.procedures[1:]))
    return replace(guide, chapters=(chapter, *others), edition=f"{guide.edition}-broken")


def test_trucks_of_one_edition_share_one_round(
    guides: Mapping[str, Guide], library: Library, tours: Mapping[str, Round]
) -> None:
    fleet = {**guides, "T-99": replace(guides["T-17"], number="T-99")}
    findings = Findings()

    planned = plan_rounds(fleet, library, findings)

    assert list(findings) == []
    assert dict(planned.guides) == fleet
    assert len(planned.rounds) == len(fleet) - 1
    assert planned.rounds[fleet["T-99"].edition] == tours["T-17"]
    assert {n: planned.rounds[g.edition] for n, g in guides.items()} == dict(tours)


def test_the_loaded_fleet_holds_the_round_of_every_edition(
    loaded: Loaded, tours: Mapping[str, Round]
) -> None:
    assert {n: loaded.rounds[g.edition] for n, g in loaded.guides.items()} == dict(tours)


def test_a_contradiction_holds_back_its_trucks_only(
    guides: Mapping[str, Guide], library: Library
) -> None:
    fleet = {**guides, "E-02": contradictory(guides["E-02"])}
    findings = Findings()

    planned = plan_rounds(fleet, library, findings)

    assert set(guides) - set(planned.guides) == {"E-02"}
    assert fleet["E-02"].edition not in planned.rounds
    (finding,) = findings
    assert (finding.rule.name, finding.unit) == ("state-contradicts-itself", "E-02")
    assert finding.span == guides["E-02"].chapters[0].procedures[0].span


def test_a_contradiction_of_many_trucks_is_told_once_and_names_them(
    guides: Mapping[str, Guide], library: Library
) -> None:
    fleet = {number: contradictory(guide) for number, guide in guides.items()}
    findings = Findings()

    planned = plan_rounds(fleet, library, findings)

    assert dict(planned.guides) == {}
    assert dict(planned.rounds) == {}
    (finding,) = findings
    assert finding.unit == ""
    assert finding.notes[-1].text == f"this holds for {', '.join(fleet)}"


def test_a_fleet_without_any_place_in_a_round_has_guides_and_no_rounds(
    guides: Mapping[str, Guide], library: Library
) -> None:
    without = {name: replace(template, round=None) for name, template in library.items()}
    findings = Findings()

    planned = plan_rounds(guides, without, findings)

    assert list(findings) == []
    assert list(planned.guides) == list(guides)
    assert dict(planned.rounds) == {}
