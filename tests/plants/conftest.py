"""The published sites that faults are planted in."""

from pathlib import Path

import pytest
from plants.fields import SITES, Field
from plants.proving import Prover


@pytest.fixture(scope="session", params=SITES)
def published(
    request: pytest.FixtureRequest, project_root: Path, tmp_path_factory: pytest.TempPathFactory
) -> Field:
    """A whole published site with its guides, proved once."""
    folder = tmp_path_factory.mktemp("published")
    site, units, most = SITES[request.param](project_root, folder)
    return Field(site, Prover.of(site), units, most)
