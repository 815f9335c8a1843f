"""Pictures of the demo fleet's workbook as LibreOffice prints it, for looking at.

Takes in a folder; gives out one picture a printed page. Refuses to judge: a person looks.
Needs ``soffice`` (``make libreoffice``) and ``pdftoppm``; what can be judged without looking is
in ``tests/stages/workbook/test_in_libreoffice.py``.
"""

import subprocess
import sys
from pathlib import Path

from guidegen.build.project import open_project
from guidegen.build.workbook_files import export_workbook
from guidegen.finding import Findings

_ROOT = Path(__file__).resolve().parent.parent


def main(folder: Path) -> None:
    """Write ``fleet.xlsx``, ``fleet.pdf`` and ``page-….png`` into *folder*."""
    folder.mkdir(parents=True, exist_ok=True)
    made = export_workbook(open_project(_ROOT), Findings())
    if made is None:
        sys.exit("the demo fleet has faults")
    (folder / "fleet.xlsx").write_bytes(made[0])
    for command in (
        ["soffice", "--headless", "--convert-to", "pdf", "fleet.xlsx"],
        ["pdftoppm", "-r", "70", "-png", "fleet.pdf", "page"],
    ):
        subprocess.run(command, cwd=folder, check=True, stdout=subprocess.DEVNULL)  # noqa: S603 -- fixed words


if __name__ == "__main__":
    main(Path(sys.argv[1]))
