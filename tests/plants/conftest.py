"""The published site that faults are planted in, and the count of them at the end of a run."""

import pytest
from hand_made_site import Site, hand_made_site
from plants.proving import Prover

PLANTED = "planted faults"


@pytest.fixture(scope="session")
def published() -> Site:
    """A whole site with its guides. Every test of planted faults goes by this one."""
    return hand_made_site()


@pytest.fixture(scope="session")
def prover(published: Site) -> Prover:
    return Prover.of(published)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    planted = caught = 0
    for reports in terminalreporter.stats.values():
        for report in reports:
            for name, value in getattr(report, "user_properties", ()):
                if name == PLANTED and report.when == "call":
                    planted, caught = planted + value[0], caught + value[1]
    if planted:
        terminalreporter.write_line(f"{planted} faults planted, {caught} caught")
