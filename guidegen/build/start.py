"""From nothing to a project that builds.

Takes in an empty or missing folder; gives out the demo fleet in it, ready to be edited.
Refuses a folder that holds anything.
"""

import shutil
from pathlib import Path

from guidegen.build import rules
from guidegen.build.bundled import bundled_folder
from guidegen.build.schemas import write_schemas
from guidegen.finding import Findings

_IGNORE = "# What guidegen makes; make it again with: guidegen build\n/site/\n/.site.*/\n/sticks/\n"


def start_project(folder: Path, findings: Findings) -> bool:
    """Write the demo fleet into *folder*; say no, with a finding, if it is not empty."""
    if folder.exists() and any(folder.iterdir()):
        findings.add(
            rules.FOLDER_NOT_EMPTY,
            None,
            what=f"`{folder.as_posix()}` is not empty",
            fix="name a new folder, as in `guidegen init my-fleet`",
            place=folder.as_posix(),
        )
        return False
    bundled = bundled_folder()
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copytree(bundled / "specs", folder / "specs")
    shutil.copytree(bundled / "site_templates" / "docs", folder / "docs")
    settings = (bundled / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace("docs_dir: site_templates/docs", "docs_dir: docs")
    _write(folder / "mkdocs.yml", settings)
    _write(folder / ".gitignore", _IGNORE)
    write_schemas(folder / "schema")
    return True


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
