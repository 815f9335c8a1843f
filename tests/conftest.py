"""Fixtures that several folders of tests share."""

import gc
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from plants.fields import PLANTED
from playwright.sync_api import Browser, expect, sync_playwright
from wait_in_page import PATIENCE
from windows import Windows

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def project_root() -> Path:
    return ROOT


LONGEST_FIRST = (
    *("test_planted_faults.py", "test_killed_commands.py"),
    *("test_packs_in_browser.py", "test_rebuild.py"),
    *("test_serve.py", "test_faults_planted_on_paper.py", "test_publishing.py", "test_import.py"),
    *("test_accessibility.py", "test_site_in_browser.py", "test_proof_of_signoff_differences.py"),
    *("test_cluster.py", "test_rebuild_by_processes.py"),
    *("test_workbook_command.py", "test_hostile_workbooks.py", "test_proof_of_imposed_sheets.py"),
    *("test_revisions.py", "test_lamp_finder_in_browser.py", "test_commands.py"),
    *("test_round_on_the_tablet.py", "test_timers_on_the_tablet.py", "test_in_browser.py"),
    *("test_year.py", "test_cards.py", "test_proof_of_training_sheets.py"),
    # Typst keeps hundreds of megabytes of each booklet, which slow what it draws later.
    "test_proof_of_booklets.py",
)
"""Files of tests that take half a minute and more.

Each file is run as a whole by one of the processes of pytest-xdist, so that what its tests share is
made once. A long file that is begun last leaves the other processes without work.
"""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the longest files first."""
    rank = {name: place for place, name in enumerate(LONGEST_FIRST)}
    items.sort(key=lambda item: rank.get(item.path.name, len(rank)))


# A loaded machine is slow, not wrong: nothing that is timed may fail a test.
settings.register_profile("guidegen", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("guidegen")


_TURNED_OFF = (
    # The page that waits behind each window's address bar: a third of what a window costs.
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup"),
    # What Playwright turns off itself, since Chromium heeds only the last list.
    *("AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades"),
    *("HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "PaintHolding"),
    *("ThirdPartyStoragePartitioning", "AvoidCorsURLLoaderRestartOnRedirect"),
    *("TcpPortRandomizationWin", "OptimizationHints", "NetworkTimeServiceQuerying"),
    *("AimEnabled", "PreconnectToSearch"),
)
SWITCHES = ("--no-sandbox", "--disable-gpu", f"--disable-features={','.join(_TURNED_OFF)}")
"""How Chromium is started; nothing of it changes what pages are or do."""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    expect.set_options(timeout=PATIENCE)
    named = os.environ.get("GUIDEGEN_BROWSER")
    known = ("chromium", "chromium-browser", "google-chrome")
    path = named or next(filter(None, map(shutil.which, known)), None)
    assert path, "install Chromium, or name it in GUIDEGEN_BROWSER"
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=path, args=SWITCHES)
        yield running
        running.close()


@pytest.fixture(scope="module")
def windows(browser: Browser) -> Iterator[Windows]:
    """Windows that the tests of a file share which only look at pages."""
    made = Windows(browser)
    yield made
    made.close()


_STORE = "GUIDEGEN_STORE"


def pytest_configure(config: pytest.Config) -> None:
    """Give the run a store of its own: what a user keeps neither helps nor suffers."""
    # What tests share lives on: looking for cycles in it again and again takes a tenth of the run.
    gc.set_threshold(100_000, 20, 100)
    if not hasattr(config, "workerinput"):
        os.environ[_STORE] = tempfile.mkdtemp(prefix="guidegen-store-")


def pytest_unconfigure(config: pytest.Config) -> None:
    """Leave nothing behind."""
    if not hasattr(config, "workerinput"):
        shutil.rmtree(os.environ[_STORE], ignore_errors=True)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print how many faults were planted; here, where parallel runs collect their reports."""
    planted = caught = 0
    for reports in terminalreporter.stats.values():
        for report in reports:
            for name, value in getattr(report, "user_properties", ()):
                if name == PLANTED and report.when == "call":
                    planted, caught = planted + value[0], caught + value[1]
    if planted:
        terminalreporter.write_line(f"{planted} faults planted, {caught} caught")
