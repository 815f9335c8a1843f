"""Pages and parts of pages, each drawn once for all trucks on which it reads the same.

Takes in views with their templates; gives out pages without their frames, and parts as HTML.
Refuses to tell two views apart that are equal: a template hangs on its view and nothing else.
"""

from collections.abc import Callable, Hashable
from html import escape

from jinja2 import Template
from markupsafe import Markup

from guidegen.site.model import FleetView, PageText
from guidegen.site.recent import Recent
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import plain, value_token
from guidegen.site.views import Link, NavView
from guidegen.site.ways import Ways

_PAGES_KEPT = 64
"""A page without its frame is about 120 kB in memory: 8 MB in all."""
_PARTS_KEPT = 8192
"""Stops and sections of data pages, of about 4 kB each: 32 MB in all."""
_WAYS_KEPT = 256
"""Navigation and bar of all pages of a truck, about 60 kB: 16 MB in all."""


class PageDrawer:
    """Draws the pages of a fleet's trucks one after another, and keeps what they may share."""

    def __init__(self, fleet: FleetView, templates: PageTemplates) -> None:
        """Keep what all pages share.

        Args:
            fleet: What the site says of the fleet.
            templates: The page templates.
        """
        self.templates = templates
        self._fleet_name = plain(fleet.name)
        self._parts: Recent[Hashable, Markup] = Recent(_PARTS_KEPT)
        self._arounds: Recent[tuple[Link, ...], dict[str, tuple[str, str]]] = Recent(_WAYS_KEPT)
        self._pages: Recent[Hashable, PageText] = Recent(_PAGES_KEPT)

    def page(
        self, ways: Ways, head: tuple[str, str, str], template: Template, view: Hashable
    ) -> PageText:
        """Return a page, drawn once for each *view* and what stands around it.

        Args:
            ways: Of its truck.
            head: Its path, heading and frame.
            template: Of the page.
            view: Of the page; two that are equal are drawn alike.
        """
        path, heading, frame = head
        nav, tools = self._around(ways, path)
        title = (value_token("identity.number"), heading, self._fleet_name)
        return self._pages.made(
            (head, nav, tools, view),
            lambda: PageText(
                path=path,
                title=escape(" · ".join(part for part in title if part), quote=False),
                nav=nav,
                tools=tools,
                body=template.render(view=view),
                frame=frame,
            ),
        )

    def part(self, view: Hashable, draw: Callable[[], str]) -> Markup:
        """Return a part of a page, drawn once for each *view*; *draw* escapes its words."""
        return self._parts.made(view, lambda: Markup(draw()))  # noqa: S704 -- they are escaped

    def _around(self, ways: Ways, path: str) -> tuple[str, str]:
        """Return navigation and bar of the page at *path*."""
        alike = self._arounds.made(ways.links, dict)
        around = alike.get(path)
        if around is None:
            around = alike[path] = (
                self.templates.nav.render(view=NavView(ways.nav(path))),
                self.templates.tools.render(view=NavView(ways.tools(path))),
            )
        return around
