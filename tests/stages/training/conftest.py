"""The demo fleet's guides, and what their quizzes need to know of the fleet."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from guidegen.build.load import load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.training.write_quiz import FleetKnowledge

NUMBERS = ("D-31", "E-02", "K-22", "R-12", "T-04", "T-17", "T-18", "V-08")


@pytest.fixture(scope="session")
def guides(project_root: Path) -> Mapping[str, Guide]:
    findings = Findings()
    loaded = load_fleet(open_project(project_root), findings)
    assert [finding.what for finding in findings] == []
    assert loaded is not None
    assert tuple(sorted(loaded.guides)) == NUMBERS
    return loaded.guides


@pytest.fixture(scope="session")
def fleet(guides: Mapping[str, Guide]) -> FleetKnowledge:
    return FleetKnowledge.of(guides.values())


@pytest.fixture(params=NUMBERS)
def guide(request: pytest.FixtureRequest, guides: Mapping[str, Guide]) -> Guide:
    return guides[request.param]
