"""Copies of trucks' guides for sticks, from a site that stands.

Takes in a publication, the folder of its site and numbers of units; gives out one zip file for
each. Refuses a site that is not there, or is not proved to say what the guides say.
"""

from collections.abc import Iterable, Mapping
from pathlib import Path

from jinja2 import FileSystemLoader

from guidegen.build import rules
from guidegen.build.project import Project
from guidegen.build.prove import Outcome
from guidegen.build.publication import Publication, prove_site
from guidegen.finding import Findings
from guidegen.guide.revision import revision_of
from guidegen.site.app_files import WORKER_FILE
from guidegen.site.fleet_page import is_yard_page
from guidegen.site.pack import PACK_FILE, is_shared
from guidegen.site.stick_copy import NameNotForSticks, StickTemplates, copy_for_stick, stick_name

_STICK_FOLDER = "stick"
_OPEN_PAGE = "open.html.j2"
_LOADED = ("open.css", "open.js")
_LEFT_OUT = ("index.html", "offline.html")


def pack_sticks(
    publication: Publication, site: Path, units: Iterable[str], out: Path, findings: Findings
) -> tuple[Path, ...]:
    """Write the copies of *units* into *out*, and return their paths.

    Args:
        publication: Of the fleet.
        site: Folder of the published site.
        units: Numbers of trucks with a guide.
        out: Folder to write to.
        findings: Takes why a copy is not made.

    Raises:
        FaultyInput: If there is no site.
    """
    if not _is_proved(prove_site(publication, site), site, findings):
        return ()
    templates, shared = _templates(publication.project), shared_by_copies(site)
    out.mkdir(parents=True, exist_ok=True)
    written = []
    for number in units:
        revision = revision_of(publication.loaded.guides[number])
        try:
            files = {**shared, **files_of_unit(site, number)}
            raw = copy_for_stick(number, revision, files, templates)
        except NameNotForSticks as fault:
            findings.add(
                rules.NAME_NOT_FOR_STICKS,
                None,
                what=f"{number}: a stick cannot hold {fault}",
                fix="rename it: letters of the alphabet, digits, `-`, `_` and `.` only, and none "
                "of the names that Windows keeps for devices, such as `CON` and `COM1`",
                place=site.as_posix(),
            )
            continue
        path = out / f"{stick_name(number, revision)}.zip"
        _replace(path, raw)
        written.append(path)
    return tuple(written)


def shared_by_copies(site: Path) -> Mapping[str, bytes]:
    """Return what every copy holds of *site*, by path: the fleet's own pages and what pages load.

    The list of trucks is left out: it would lead to trucks that a copy does not hold.
    """
    units = {path.parent.name for path in site.glob(f"*/{PACK_FILE}")}
    files = {}
    for folder in sorted(each for each in site.iterdir() if each.name not in units):
        for path in sorted(folder.rglob("*")) if folder.is_dir() else (folder,):
            name = path.relative_to(site).as_posix()
            is_page = "/" not in name and name.endswith(".html") and not _is_left_out(name)
            if path.is_file() and name != WORKER_FILE and (is_page or is_shared(name)):
                files[name] = path.read_bytes()
    return files


def _is_left_out(name: str) -> bool:
    return name in _LEFT_OUT or is_yard_page(name)


def files_of_unit(site: Path, number: str) -> Mapping[str, bytes]:
    """Return the whole folder of the unit *number*: printed cards too, its pages lead to them."""
    paths = sorted(path for path in (site / number).rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in paths}


def _is_proved(outcome: Outcome, site: Path, findings: Findings) -> bool:
    if outcome.proved:
        return True
    findings.extend(outcome.findings)
    findings.add(
        rules.SITE_NOT_PROVED,
        None,
        what=f"the site at `{site.as_posix()}` does not say what the specs say now",
        fix="build it anew with `guidegen build`",
        place=site.as_posix(),
    )
    return False


def _templates(project: Project) -> StickTemplates:
    folder = project.template(f"{_STICK_FOLDER}/{_OPEN_PAGE}").parent
    files = {name: (folder / name).read_bytes() for name in _LOADED}
    return StickTemplates.load(FileSystemLoader(folder), files)


def _replace(path: Path, raw: bytes) -> None:
    """Write *raw* to *path* so that no half of it ever stands there."""
    fresh = path.with_name(f".{path.name}.part")
    fresh.write_bytes(raw)
    fresh.replace(path)
