"""The shell of a site that was drawn before.

Takes in a project, its fleet and a store; gives out the shell that was drawn of the same settings,
pages and theme, or has it drawn and keeps it. Refuses to keep what settings draw in that it cannot
look into: other plugins, hooks and themes may read anything.
"""

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import yaml

from guidegen.build.store import Store, hash_of
from guidegen.site.model import FleetView
from guidegen.site.shell import Shell

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
    settings = _settings(raw)
    if settings is None:
        return None
    docs = config_file.parent / str(settings.get("docs_dir", "docs"))
    return store.key(
        "shell", raw, repr(fleet), hash_of(*_contents(docs)), hash_of(*_contents(theme_dir))
    )


def _settings(raw: bytes) -> dict[str, Any] | None:
    try:
        # Tags such as `!ENV` draw in what stands elsewhere, and are refused by this loader.
        settings = yaml.load(raw, yaml.SafeLoader)
    except yaml.YAMLError:
        return None
    theme = settings.get("theme") if isinstance(settings, dict) else None
    is_known = (
        isinstance(theme, dict)
        and settings.keys() <= _KNOWN
        and theme.keys() <= _KNOWN_OF_THEME
        and settings.get("plugins") == _KNOWN_PLUGINS
    )
    return settings if is_known else None


def _contents(folder: Path) -> Iterator[str | bytes]:
    # The site engine follows links to folders, too.
    below = (
        Path(base, name) for base, _, names in os.walk(folder, followlinks=True) for name in names
    )
    for path in sorted(below):
        if path.is_file():
            yield path.relative_to(folder).as_posix()
            yield path.read_bytes()
