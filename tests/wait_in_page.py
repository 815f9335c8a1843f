"""Waits for what a page comes to, on pages that let nobody evaluate text."""

import time

from playwright.sync_api import Error, Page

PATIENCE = 60_000
"""Milliseconds; a loaded machine is slow, not wrong."""

_PAUSE = 50
"""Milliseconds between two looks."""


def patient(page: Page) -> Page:
    """Return *page*, which from now on waits as long as a loaded machine may take."""
    page.set_default_timeout(PATIENCE)
    return page


def wait_until(page: Page, expression: str, timeout: float = 60) -> None:
    """Wait until *expression* is true in *page*, *timeout* seconds at most.

    Playwright's own wait evaluates its text again in the page, which a strict Content Security
    Policy refuses from the second look on.
    """
    end = time.monotonic() + timeout
    while not _holds(page, expression):
        assert time.monotonic() < end, f"never came true: {expression}"
        page.wait_for_timeout(_PAUSE)


def _holds(page: Page, expression: str) -> bool:
    try:
        return bool(page.evaluate(expression))
    except Error as error:
        # A page that is read in anew while it is looked at answers the next look.
        if "navigation" in str(error) or "context was destroyed" in str(error):
            return False
        raise
