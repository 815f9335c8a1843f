"""The published sites that faults are planted in."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from plants.fields import SITES, Field
from plants.proving import Prover


@pytest.fixture(scope="session")
def field_of(
    project_root: Path, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[str], Field]:
    """Give a whole published site with its guides by name, proved once."""

    @cache
    def make(name: str) -> Field:
        site, units, most = SITES[name](project_root, tmp_path_factory.mktemp("published"))
        return Field(site, Prover.of(site), units, most)

    return make


@pytest.fixture(scope="session", params=SITES)
def published(request: pytest.FixtureRequest, field_of: Callable[[str], Field]) -> Field:
    """Every one of them."""
    return field_of(request.param)
