"""Where faults are planted."""

import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from few_trucks import keep
from hand_made_site import Site
from packed_site import packed_site
from plants.proving import Prover
from sample_revisions import history_of_trucks

from guidegen.build.prove import OFFICE
from guidegen.build.publication import Publication, open_publication
from guidegen.mkdocs_plugin import draw_site

PLANTED = "planted faults"
"""Name of the property by which a test reports how many it planted and how many were caught."""


@dataclass(frozen=True, slots=True)
class Field:
    """A published site, and how densely faults are planted in it."""

    site: Site
    prover: Prover
    units: tuple[str, ...]
    """Numbers of the units whose files are changed."""

    most: int
    """Faults of one kind in one unit."""


def hand_made(_project_root: Path, _folder: Path) -> tuple[Site, tuple[str, ...], int]:
    """The site written by hand: every fault in every unit."""
    site = packed_site()
    return site, tuple(guide.number for guide in site.guides), 1000


HEATED = ("T-17",)
"""Has a table of cords."""

CHOSEN = ("D-31", "T-04", "V-08")
"""Of three models; nearly every fault looks at one truck, and what is of the whole site is the same
for three trucks and for eight."""


def demo(project_root: Path, folder: Path) -> tuple[Site, tuple[str, ...], int]:
    """Trucks of the demo fleet as guidegen publishes them: a choice of the faults in each."""
    project = folder / "fleet"
    shutil.copytree(project_root / "specs", project / "specs")
    shutil.copytree(project_root / "site_templates" / "docs", project / "docs")
    keep(project, (*CHOSEN, *HEATED))
    _take_a_photo(project)
    settings = (project_root / "mkdocs.yml").read_text(encoding="utf-8")
    settings = settings.replace("docs_dir: site_templates/docs", "docs_dir: docs")
    (project / "mkdocs.yml").write_text(settings, encoding="utf-8")
    publication = _with_revisions(open_publication(project))
    draw_site(project / "mkdocs.yml", publication, folder / "site")
    files = {
        path.relative_to(folder / "site").as_posix(): path.read_bytes()
        for path in sorted((folder / "site").rglob("*"))
        if path.is_file() and path.relative_to(folder / "site").parts[0] != OFFICE
    }
    guides = tuple(publication.loaded.guides.values())
    rounds, quizzes = publication.loaded.rounds, publication.quizzes
    assert publication.shop is not None
    shop = publication.shop
    cards = {guide.number: [card.kind for card in shop.dealt(guide)] for guide in guides}
    site = Site(
        guides,
        files,
        publication.held_back,
        rounds=rounds,
        quizzes=quizzes,
        cards=cards,
        history=publication.loaded.history,
        has_packs=True,
    )
    return site, CHOSEN, 5


def _take_a_photo(project: Path) -> None:
    """Let the first of the chosen trucks have a photo, since those of the demo are of others."""
    photos = project / "specs" / "photos" / "photos.yml"
    entry = (
        f"\n  - {{file: washer-tank.jpg, units: [{CHOSEN[0]}], procedure: washer-fluid, "
        "alt: The tank on the right with a blue cap., caption: The tank}\n"
    )
    photos.write_text(photos.read_text(encoding="utf-8") + entry, encoding="utf-8")


def _with_revisions(publication: Publication) -> Publication:
    """Return *publication* as it is where the fleet keeps a record."""
    assert publication.shop is not None
    history = history_of_trucks(publication.loaded.guides.values())
    loaded = replace(publication.loaded, history=history)
    return replace(publication, loaded=loaded, shop=replace(publication.shop, loaded=loaded))


SITES: Mapping[str, Callable[[Path, Path], tuple[Site, tuple[str, ...], int]]] = {
    "hand-made": hand_made,
    "demo": demo,
}
"""Where faults are planted. To plant in another site, add it here."""
