"""The files that tell the office what the fleet has replaced.

Takes in a project; gives out the page and its stylesheets. Refuses to stand in the way: what is
wrong with a file of the fleet is said when the fleet is loaded.
"""

from collections.abc import Mapping, Sequence
from pathlib import Path

from guidegen.build.own_procedures import own_procedures
from guidegen.build.project import Project
from guidegen.build.whole_file import write_whole
from guidegen.finding import Findings
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.own.page import PAGE_NAME, STYLE, STYLE_NAME, replaced_page
from guidegen.proof.report import STYLE as PROOF_STYLE
from guidegen.proof.report import STYLE_NAME as PROOF_STYLE_NAME


def read_replaced(project: Project, findings: Findings) -> tuple[OwnProcedure, ...]:
    """Return the fleet's own procedures, without looking at any truck."""
    return own_procedures(project, project.template_files("procedures"), findings)


def replaced_files(own: Sequence[OwnProcedure], icon: str = "") -> Mapping[str, str]:
    """Return the text of each file for the office, by its name in the folder of the office.

    Args:
        own: In the order of the page.
        icon: Address of the site's icon; empty if the folder stands in no site.
    """
    page = replaced_page(own, (PROOF_STYLE_NAME, STYLE_NAME), icon)
    return {PAGE_NAME: page, STYLE_NAME: STYLE, PROOF_STYLE_NAME: PROOF_STYLE}


def write_replaced(folder: Path, own: Sequence[OwnProcedure], icon: str = "") -> tuple[Path, ...]:
    """Write the files of `replaced_files` into *folder*, made if missing, and return them."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, text in replaced_files(own, icon).items():
        write_whole(folder / name, text.encode())
        written.append(folder / name)
    return tuple(written)
