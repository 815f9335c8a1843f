"""The shell of a site that was drawn before.

Takes in a project, its fleet and a store; gives out the shell that was drawn of the same settings,
pages and theme, or has it drawn and keeps it. Refuses to keep what settings draw in that it cannot
look into: other plugins, hooks and themes may read anything.
"""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from guidegen.build.store import Store, hash_of
from guidegen.finding import Findings
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell
from guidegen.yaml_nodes import Listing, Scalar, Table, read_yaml

_KNOWN = frozenset(
    {
        *("site_name", "docs_dir", "site_dir", "use_directory_urls", "strict", "theme"),
        *("extra_css", "extra_javascript", "extra", "plugins", "nav"),
    }
)
_KNOWN_OF_THEME = frozenset({"name", "language", "font", "favicon"})
_KNOWN_PLUGINS = ["guidegen"]


def shell_of(
    config_file: Path,
    theme_dir: Path,
    fleet: FleetView,
    store: Store,
    draw: Callable[[], Shell],
) -> Shell:
    """Return the shell that *draw* draws, or the same from *store*.

    Args:
        config_file: The site's settings.
        theme_dir: Folder of the theme.
        fleet: What the site says of the fleet.
        store: Where shells are kept.
        draw: Has the site engine draw it.
    """
    key = _key(config_file, theme_dir, fleet, store)
    kept = store.get(key) if key else None
    if isinstance(kept, Shell):
        return kept
    shell = draw()
    if key:
        store.put(key, shell)
    return shell


def _key(config_file: Path, theme_dir: Path, fleet: FleetView, store: Store) -> str | None:
    """Return the hash of all that goes into a shell; nothing if that cannot be known."""
    raw = config_file.read_bytes() if config_file.is_file() else b""
    docs_dir = _docs_dir(raw)
    if docs_dir is None:
        return None
    docs = config_file.parent / docs_dir
    return store.key(
        "shell", raw, repr(fleet), hash_of(*_contents(docs)), hash_of(*_contents(theme_dir))
    )


def _docs_dir(raw: bytes) -> str | None:
    """Return the folder of the fleet's own pages; nothing if the settings draw in anything else."""
    faults = Findings()
    # Tags such as `!ENV` draw in what stands elsewhere; this reader refuses them.
    settings = read_yaml("mkdocs.yml", raw, faults)
    if settings is None or len(faults):
        return None
    theme, plugins = settings.get("theme"), settings.get("plugins")
    is_known = (
        isinstance(theme, Table)
        and isinstance(plugins, Listing)
        and set(settings.entries) <= _KNOWN
        and set(theme.entries) <= _KNOWN_OF_THEME
        and [each.text for each in plugins.nodes if isinstance(each, Scalar)] == _KNOWN_PLUGINS
    )
    docs = settings.get("docs_dir")
    if not is_known or (docs is not None and not isinstance(docs, Scalar)):
        return None
    return "docs" if docs is None else docs.text


def _contents(folder: Path) -> Iterator[str | bytes]:
    # The site engine follows links to folders, too.
    below = (
        Path(base, name) for base, _, names in os.walk(folder, followlinks=True) for name in names
    )
    for path in sorted(below):
        if path.is_file():
            yield path.relative_to(folder).as_posix()
            yield path.read_bytes()
