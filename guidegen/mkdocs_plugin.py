"""The only door to MkDocs and its Material theme.

Takes in a publication; gives out its site, for which MkDocs draws the fleet's own pages and one
frame a kind of page. Refuses to publish what is not settled: everything is made in a folder
beside the site, and the publication decides whether it takes the site's place.
"""

import logging
import re
import shutil
from collections.abc import Callable, Mapping
from importlib import resources
from pathlib import Path
from typing import Any, Literal, Protocol

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import ConfigurationError, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page

from guidegen.build.prove import Outcome
from guidegen.build.publication import open_publication
from guidegen.build.scratch import scratch_folder
from guidegen.build.switch import recover, staging_folder
from guidegen.finding import FaultyInput, Findings
from guidegen.finding_report import format_findings
from guidegen.site.app_files import STORE_FILE
from guidegen.site.frame import FLEET_FRAME, SLOTS, FrameFault, Frames
from guidegen.site.join_scripts import join_scripts
from guidegen.site.join_sheets import join_sheets
from guidegen.site.model import FleetView
from guidegen.site.rules import FRAME_WITHOUT_SLOT
from guidegen.site.shell import Shell

_LOG = logging.getLogger("mkdocs.plugins.guidegen")

FRAME_FOLDER = "guidegen-frames"
"""As deep as a unit's folder, so that relative addresses in the frame hold in every unit."""

FLEET_PAGE = "index.html"
FRAME_NAMES = tuple(name for name in SLOTS if name != FLEET_FRAME)
"""Of the frames that stand around the pages of units."""

STYLESHEET = "assets/stylesheets/guidegen.css"
SCRIPT = "assets/javascripts/guidegen.js"
"""All stylesheets of the settings, joined, and all scripts: a page waits for one file of each."""

_FRAME_SOURCE = "---\nframe: {0}\ntemplate: {0}_frame.html\ntitle: Truck\n---\n"
_OFFLINE_PAGE = "offline.md"
"""In the root; what opens instead of a page that neither the network nor the tablet has."""

_OFFLINE_SOURCE = "---\ntemplate: offline.html\ntitle: Not on this tablet\n---\n"
_FONT_PACKAGE = "fontpkg_atkinson_hyperlegible"
_BLANK_LINES = re.compile(r"[ \t]*\n\s*")
_ABSOLUTE_PAGES = frozenset({"404.html", "sitemap.xml"})


class Publication(Protocol):
    """What is published; see `guidegen.build.publication`."""

    @property
    def fleet(self) -> FleetView:
        """What the site says of the fleet as a whole."""

    @property
    def theme_dir(self) -> Path:
        """Folder of the theme's overrides."""

    @property
    def watched(self) -> tuple[Path, ...]:
        """Folders whose files make the site."""

    @property
    def findings(self) -> Findings:
        """Faults that hold single units back, and warnings."""

    def publish(self, shell: Shell, target: Path) -> Outcome:
        """Put the trucks into *shell*, and all of it in the place of *target* if all is well."""


def draw_shell(config_file: Path, fleet: FleetView, theme_dir: Path) -> Shell:
    """Return what MkDocs draws of a site: all but the trucks.

    Args:
        config_file: The site's ``mkdocs.yml``.
        fleet: What the site says of the fleet as a whole.
        theme_dir: Folder of the theme's overrides.

    Raises:
        FaultyInput: If a page of the fleet's own has no place for the trucks.
        ConfigurationError: If the settings do not name the plugin.
    """
    with scratch_folder() as folder:
        config = load_config(config_file=str(config_file), site_dir=folder)
        plugin = config.plugins.get("guidegen")
        if not isinstance(plugin, GuidegenPlugin):
            raise ConfigurationError(f"{config_file} lacks the plugin: add `guidegen` to `plugins`")
        plugin.shell_of = fleet, theme_dir
        build(config)
        if plugin.shell is None:
            raise RuntimeError("the site engine did not come to its end")
        return plugin.shell


def draw_site(config_file: Path, publication: Publication, site_dir: Path) -> Outcome:
    """Publish *publication* as the site at *site_dir*, and return what came of it.

    Args:
        config_file: The site's ``mkdocs.yml``.
        publication: What is published.
        site_dir: The folder that readers see; the publication replaces it as a whole.

    Raises:
        FaultyInput: If a page of the fleet's own has no place for the trucks.
        ConfigurationError: If the settings do not name the plugin.
    """
    shell = draw_shell(config_file, publication.fleet, publication.theme_dir)
    return publication.publish(shell, site_dir)


def docs_folder(config_file: Path) -> Path:
    """Return the folder of the fleet's own pages, as the settings name it.

    Raises:
        ConfigurationError: If the settings cannot be used.
    """
    return Path(load_config(config_file=str(config_file)).docs_dir)


class GuidegenOptions(Config):  # type: ignore[no-untyped-call]
    """The plugin's settings in ``mkdocs.yml``: none."""


class GuidegenPlugin(BasePlugin[GuidegenOptions]):  # type: ignore[no-untyped-call]
    """Gives MkDocs the frames to draw, and takes its site over when it has drawn them."""

    def __init__(self) -> None:
        self.shell_of: tuple[FleetView, Path] | None = None
        """Fleet and theme's folder, if only the shell is asked for: set by `draw_shell`."""
        self.shell: Shell | None = None
        self._publication: Publication | None = None
        self._theme_dir = Path()
        self._target = Path()
        self._sheets: tuple[str, ...] = ()
        self._scripts: tuple[str, ...] = ()

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Refuse a dirty build: it would leave pages of trucks that have changed."""
        if dirty:
            raise PluginError(f"guidegen cannot {command} only what changed: leave --dirty out")

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Send the build to a folder beside the site, and add what the theme needs to know."""
        if self.shell_of is None:
            publication = self._open(Path(config.config_file_path or "").parent)
            self._publication = publication
            self._target = Path(config.site_dir)
            recover(self._target)
            config.site_dir = str(staging_folder(self._target))
            fleet, self._theme_dir = publication.fleet, publication.theme_dir
        else:
            fleet, self._theme_dir = self.shell_of
        config.site_name = fleet.name
        config.extra["contacts"] = fleet.contacts
        config.theme.dirs.insert(0, str(self._theme_dir))
        # Addresses in these are absolute, and a copy on a tablet has no server to read them.
        config.theme.static_templates -= _ABSOLUTE_PAGES
        self._sheets = tuple(config.extra_css)
        config.extra_css = [STYLESHEET]
        self._scripts = tuple(str(path) for path in config.extra_javascript)
        config.extra_javascript = [SCRIPT]
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add frames, offline page and one stylesheet; leave out all that the theme brings."""
        ours = {str(self._theme_dir), config.docs_dir}
        # The worker is made of the store, too.
        joined = {*self._sheets, *self._scripts} - {STORE_FILE}
        for file in list(files):
            if file.src_dir not in ours or file.src_uri in joined:
                files.remove(file)
        for name in FRAME_NAMES:
            source = _FRAME_SOURCE.format(name)
            files.append(_page(config, f"{FRAME_FOLDER}/{name}.md", source))
        files.append(_page(config, _OFFLINE_PAGE, _OFFLINE_SOURCE))
        sheets = (self._asset(path, config) for path in self._sheets)
        files.append(File.generated(config, STYLESHEET, content=join_sheets(sheets)))
        scripts = (self._asset(path, config) for path in self._scripts)
        files.append(File.generated(config, SCRIPT, content=join_scripts(scripts)))
        fonts = resources.files(_FONT_PACKAGE)
        license_text = fonts.joinpath("LICENSE").read_bytes()
        files.append(File.generated(config, "assets/fonts/LICENSE.txt", content=license_text))
        return files

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:  # noqa: ARG002
        """Leave blank lines and indents out of what is printed for every page of every truck."""
        if page.meta.get("frame") not in FRAME_NAMES:
            return output
        return _BLANK_LINES.sub("\n", output.lstrip())

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Take what was drawn as the shell, and publish the trucks in it."""
        drawn = Path(config.site_dir)
        shell = _read_shell(drawn)
        if self.shell_of is not None:
            _check_frames(shell.frames)
            self.shell = shell
            return
        if self._publication is None:
            raise RuntimeError("a build came to its end that was never configured")
        shutil.rmtree(drawn)
        try:
            _check_frames(shell.frames)
            outcome = self._publication.publish(shell, self._target)
        except FaultyInput as fault:
            raise PluginError(_nothing_published(fault.findings)) from fault
        if not outcome.published:
            raise PluginError(_nothing_published(outcome.findings))
        if len(outcome.findings):
            _LOG.warning("%s", format_findings(outcome.findings).rstrip())

    def on_build_error(self, *, error: Exception) -> None:  # noqa: ARG002
        """Clear away what a build that failed has left beside the site."""
        if self.shell_of is None:
            recover(self._target)

    def on_serve(
        self,
        server: LiveReloadServer,
        *,
        config: MkDocsConfig,  # noqa: ARG002
        builder: Callable[..., Any],  # noqa: ARG002
    ) -> LiveReloadServer:
        """Watch the files that make the guides."""
        for path in self._publication.watched if self._publication else ():
            server.watch(str(path))
        return server

    def _asset(self, path: str, config: MkDocsConfig) -> str:
        """Return the text of a stylesheet or script: the fleet's own, else the theme's."""
        for folder in (Path(config.docs_dir), self._theme_dir):
            if (folder / path).is_file():
                return _read(folder / path)
        raise PluginError(
            f"`{path}` is in the settings and in no folder: put it into `{config.docs_dir}`, or "
            "take it out of mkdocs.yml"
        )

    def _open(self, project_root: Path) -> Publication:
        """Return the project's publication; say what holds single units back."""
        try:
            publication = open_publication(project_root)
        except FaultyInput as fault:
            raise PluginError(_nothing_published(fault.findings)) from fault
        if len(publication.findings):
            # A warning alone publishes, and must not end a strict build as an error does.
            level = logging.WARNING if publication.findings.has_errors else logging.INFO
            _LOG.log(level, "%s", format_findings(publication.findings).rstrip())
        return publication


def _read_shell(drawn: Path) -> Shell:
    """Return all that MkDocs has written to *drawn*, the frames apart."""
    files = {
        path.relative_to(drawn).as_posix(): path.read_bytes()
        for path in sorted(drawn.rglob("*"))
        if path.is_file()
    }
    frames = {
        **{name: files.pop(f"{FRAME_FOLDER}/{name}.html", b"").decode() for name in FRAME_NAMES},
        FLEET_FRAME: files.get(FLEET_PAGE, b"").decode(),
    }
    return Shell(files, frames)


def _check_frames(frames: Mapping[str, str]) -> None:
    try:
        Frames.split(frames)
    except FrameFault as fault:
        findings = Findings()
        findings.add(
            FRAME_WITHOUT_SLOT,
            None,
            what=str(fault),
            fix="give `index.md` the line `@@guidegen-slot-trucks@@` inside a `div`, and leave "
            "the slots of the theme's templates as they are",
            place="index.md",
        )
        raise FaultyInput(findings) from fault


def _nothing_published(findings: Findings) -> str:
    return f"guidegen has published nothing:\n{format_findings(findings).rstrip()}"


def _page(config: MkDocsConfig, path: str, source: str) -> File:
    return File.generated(config, path, content=source, inclusion=InclusionLevel.NOT_IN_NAV)


def _read(path: Path) -> str:
    """Return a page's text; empty if the project has no such page."""
    return path.read_text(encoding="utf-8") if path.is_file() else ""
