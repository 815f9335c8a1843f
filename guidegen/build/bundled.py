"""Where the library that comes with guidegen lies.

Takes in nothing; gives out the folders of templates and of the demo fleet, in a checkout as in
an installed wheel. Refuses a broken installation.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def bundled_folder() -> Path:
    """Return the folder that holds ``site_templates`` and ``specs``.

    Raises:
        FileNotFoundError: If the installation lacks its templates.
    """
    for folder in (_PACKAGE / "_bundled", _PACKAGE.parent):
        if (folder / "site_templates" / "procedures").is_dir():
            return folder
    raise FileNotFoundError(_PACKAGE / "_bundled" / "site_templates")
