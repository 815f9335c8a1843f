"""The demo fleet's guides, and the rounds planned for them."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.procedures.model import ProcedureTemplate
from guidegen.round.model import Round
from guidegen.round.plan import plan_round

NUMBERS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")


@pytest.fixture(scope="session")
def loaded(project_root: Path) -> Loaded:
    findings = Findings()
    fleet = load_fleet(open_project(project_root), findings)
    assert [finding.what for finding in findings] == []
    assert fleet is not None
    return fleet


@pytest.fixture(scope="session")
def guides(loaded: Loaded) -> Mapping[str, Guide]:
    return loaded.guides


@pytest.fixture(scope="session")
def library(loaded: Loaded) -> Mapping[str, ProcedureTemplate]:
    return loaded.library


@pytest.fixture(scope="session")
def tours(
    guides: Mapping[str, Guide], library: Mapping[str, ProcedureTemplate]
) -> Mapping[str, Round]:
    found = {}
    for number, guide in guides.items():
        findings = Findings()
        tour = plan_round(guide, library, findings)
        assert [finding.what for finding in findings] == []
        assert tour is not None
        found[number] = tour
    return found


@pytest.fixture(params=NUMBERS)
def number(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def guide(number: str, guides: Mapping[str, Guide]) -> Guide:
    return guides[number]


@pytest.fixture
def tour(number: str, tours: Mapping[str, Round]) -> Round:
    return tours[number]
