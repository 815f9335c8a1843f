"""The demo fleet's cards."""

from pathlib import Path

import pytest
from plants.paper_press import Shop


@pytest.fixture(scope="session")
def shop(project_root: Path) -> Shop:
    return Shop.at(project_root)
