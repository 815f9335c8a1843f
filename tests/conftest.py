"""Fixtures that several folders of tests share."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def project_root() -> Path:
    return ROOT


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    named = os.environ.get("GUIDEGEN_BROWSER")
    known = ("chromium", "chromium-browser", "google-chrome")
    path = named or next(filter(None, map(shutil.which, known)), None)
    assert path, "install Chromium, or name it in GUIDEGEN_BROWSER"
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(
            executable_path=path, args=["--no-sandbox", "--disable-gpu"]
        )
        yield running
        running.close()
