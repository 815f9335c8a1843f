"""Windows of a browser that tests share which only look at pages: each costs half a second.

What a page keeps (storage, caches, workers), what listens to it and what is put in its way stays
with its window: tests of such things have a window of their own.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from playwright.sync_api import Browser, Page, ViewportSize
from wait_in_page import patient

TABLET: ViewportSize = {"width": 1024, "height": 768}
UPRIGHT: ViewportSize = {"width": 800, "height": 1280}
PHONE: ViewportSize = {"width": 360, "height": 740}


@dataclass(frozen=True, slots=True)
class Windows:
    """One window for each kind that is asked for, and those that are one test's own."""

    browser: Browser
    shared: dict[tuple[tuple[str, object], ...], Page] = field(default_factory=dict)

    def opened(self, url: str, size: ViewportSize = TABLET, **kind: object) -> Page:
        """Return the page at *url* in the window of its *kind*, made as large as *size*.

        Args:
            kind: What a context is made with, such as `java_script_enabled`.
        """
        key = tuple(sorted(kind.items()))
        if key not in self.shared:
            self.shared[key] = own_window(self.browser, size, kind)
        page = self.shared[key]
        if page.viewport_size != size:
            page.set_viewport_size(size)
        page.goto(url)
        return page

    def as_new(self, address: str) -> Page:
        """Return the window with nothing kept of the demo's site at *address*."""
        # What was there is left first: a page may keep something when it is left.
        page = self.opened(f"{address}assets/images/favicon.svg")
        page.evaluate("() => { localStorage.clear(); sessionStorage.clear() }")
        return page

    def close(self) -> None:
        for page in self.shared.values():
            page.context.close()


def own_window(browser: Browser, size: ViewportSize, kind: Mapping[str, object]) -> Page:
    """Return a new window; its context is the caller's to close."""
    return patient(browser.new_context(viewport=size, **kind).new_page())  # type: ignore[arg-type]


def in_sizes(page: Page, sizes: tuple[ViewportSize, ...]) -> Iterator[ViewportSize]:
    """Give *page* one size after the other; no script of the site looks at sizes."""
    for size in sizes:
        page.set_viewport_size(size)
        yield size
