"""The published sites that faults are planted in, and the count of them at the end of a run."""

from pathlib import Path

import pytest
from plants.fields import PLANTED, SITES, Field
from plants.proving import Prover


@pytest.fixture(scope="session", params=SITES)
def published(
    request: pytest.FixtureRequest, project_root: Path, tmp_path_factory: pytest.TempPathFactory
) -> Field:
    """A whole published site with its guides, proved once."""
    folder = tmp_path_factory.mktemp("published")
    site, units, most = SITES[request.param](project_root, folder)
    return Field(site, Prover.of(site), units, most)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    planted = caught = 0
    for reports in terminalreporter.stats.values():
        for report in reports:
            for name, value in getattr(report, "user_properties", ()):
                if name == PLANTED and report.when == "call":
                    planted, caught = planted + value[0], caught + value[1]
    if planted:
        terminalreporter.write_line(f"{planted} faults planted, {caught} caught")
