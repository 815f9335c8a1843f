"""From nothing to a project that builds.

Takes in an empty or missing folder; gives out the demo fleet in it, ready to be
edited, or a fleet without a truck.
Refuses a folder that holds anything.
"""

import shutil
from pathlib import Path

from guidegen.build import rules
from guidegen.build.bundled import bundled_folder
from guidegen.build.schemas import write_schemas
from guidegen.finding import Findings

_IGNORE = (
    "# What guidegen makes; make it again with: guidegen build\n/site/\n/.site.*/\n/sticks/\n"
    "/specs/.import*\n"
)
_FLEET = """\
# yaml-language-server: $schema=../schema/fleet.schema.json
# Change what stands here to what is true of your fleet, and only then print guides.
name: My fleet
# Whose limits hold: us, us-california, ontario, british-columbia, uk or eu.
jurisdiction: us
# Which measures come first; the second stands in parentheses behind it.
measures: {first: us, second: metric}

# The workbook offers these yards. Give each an id, and export the workbook again.
yards:
  - {id: main-yard, name: Main Yard}
"""


def start_project(folder: Path, findings: Findings, *, is_bare: bool = False) -> bool:
    """Write a project into *folder*; say no, with a finding, if it is not empty.

    Args:
        folder: New or empty.
        findings: Takes the refusal.
        is_bare: Start without a truck, instead of from the demo fleet.
    """
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
    if is_bare:
        for name in ("units", "models"):
            (folder / "specs" / name).mkdir(parents=True)
        _write(folder / "specs" / "fleet.yml", _FLEET)
    else:
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
