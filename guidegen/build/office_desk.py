"""What is missing, in the folder of the site that is for the office.

Takes in what is published and what is remembered; gives out the files: the page, the lists for the
shop, the forms of the trucks that wait, and a page that leads to all that stands in the folder.
Refuses to hang on a clock or on how much of the site is made again: equal specs give equal bytes.
What was made of the same specs before is taken from the store.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import islice

from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.missing import (
    CSV_NAME,
    TEXT_NAME,
    FormOrder,
    draw_forms,
    fleet_gaps,
    form_path,
    missing_files,
)
from guidegen.build.print_issue import dated
from guidegen.build.print_shop import paper_folder, theme_files
from guidegen.build.prove_office import INDEX_NAME
from guidegen.build.published import Published
from guidegen.build.store import Store, hash_of
from guidegen.finding import Findings
from guidegen.gaps.groups import group_units
from guidegen.gaps.model import FleetGaps, Grade
from guidegen.gaps.page import PAGE_NAME
from guidegen.paper.stock import STOCKS
from guidegen.procedures.own.page import PAGE_NAME as REPLACED_NAME
from guidegen.proof.report import ICON, STYLE_NAME
from guidegen.quantity.model import System

MOST_FORMS = 40
"""Forms that a build draws, those of the trucks first that wait for the same as many others do; the
command `missing` draws any."""

_LEADS_TO = {
    PAGE_NAME: "What is missing: which trucks wait for what, and which gap to close first",
    CSV_NAME: "What to look up, by yard and truck, as a spreadsheet to send to the shop",
    TEXT_NAME: "The same as plain text",
    "proof.html": "Proof of the guides: what was read back, and what was not checked",
    "proof.json": "The same for programs",
    "files.sha256": "All files of the site with their hashes",
}

_OF_OWN = {
    REPLACED_NAME: "What the fleet says in its own words, and what it has in the place of what",
}


@dataclass(frozen=True, slots=True)
class OfficeDesk:
    """What stands in the folder beside the report of the proof."""

    key: str
    """Under which it is kept, once it is proved."""

    files: Mapping[str, bytes]
    """By path."""

    gaps: FleetGaps | None
    """What the page of what is missing is held against; none if that was done when it was made."""

    def keep(self, store: Store) -> None:
        """Keep the files for the next run; to be called when they are proved."""
        if self.gaps is not None:
            store.put(self.key, dict(self.files))


def office_desk(published: Published, memory: FleetMemory, *, has_own: bool) -> OfficeDesk:
    """Return what stands in the folder beside the report of the proof.

    Args:
        published: What the site is made of.
        memory: Of the fleet; in its store is what was made and proved.
        has_own: Whether the fleet has procedures or rules of its own, of which another page tells.
    """
    store = memory.store or Store(None, "")
    key = store.key("missing", hash_of(memory.base, str(has_own), *_parts(published)))
    kept = store.get(key)
    if isinstance(kept, dict):
        return OfficeDesk(key, kept, None)
    fleet = fleet_gaps(published.loaded, published.faulty, memory.known_gaps())
    return OfficeDesk(key, dict(_made(published, fleet, has_own=has_own)), fleet)


def _made(published: Published, fleet: FleetGaps, *, has_own: bool) -> Iterator[tuple[str, bytes]]:
    forms = dict(_forms(published, fleet))
    yield from missing_files(fleet, forms=forms, icon=ICON).items()
    for number, pdf in forms.items():
        yield form_path(number), pdf
    yield INDEX_NAME, index_page(published.fleet.name, has_own=has_own).encode()


def _forms(published: Published, fleet: FleetGaps) -> Iterator[tuple[str, bytes]]:
    day = dated(published.loaded)
    if not day:
        # As cards, which are not made either of a fleet that states no date.
        return iter(())
    groups = [group for group in group_units(fleet) if group.is_held_back]
    wait = tuple(islice((number for group in groups for number in group.units), MOST_FORMS))
    stock = STOCKS["letter" if published.loaded.fleet.first is System.US else "a4"]
    # Between two releases the record goes on: a day at the head would say less than is known.
    order = FormOrder(wait, stock, day, Grade.LEAVES_OUT, is_day_shown=False)
    # What is wrong with the theme, and letters without a shape, is told where cards are printed,
    # and by the command `missing`; here there is then no form.
    return draw_forms(published.project, published.fleet.name, fleet, order, Findings())


def _parts(published: Published) -> Iterator[str | bytes]:
    """Yield all that the files are made of, but for what all trucks have in common."""
    loaded, project = published.loaded, published.project
    for id_, model in sorted(loaded.guides.shelf.base.specs.models.items()):
        yield from (id_, model.span.file.text)
    for record in loaded.units.records.values():
        yield from ("unit", record.model, record.signature, *record.own_parts)
    for numbers in (loaded.unit_numbers, loaded.guides, sorted(published.faulty)):
        yield from _counted(list(numbers))
    yield dated(loaded)
    paths = [*sorted(paper_folder(project).rglob("*")), *theme_files(project)]
    for path in paths:
        if path.is_file():
            yield from (path.name, path.read_bytes())


def _counted(words: Sequence[str]) -> Iterable[str]:
    return (str(len(words)), *words)


def index_page(fleet_name: str, *, has_own: bool) -> str:
    """Return the page that leads to all that stands in the folder.

    Args:
        fleet_name: As it stands in the fleet file.
        has_own: Whether the fleet has procedures or rules of its own.
    """
    leads_to = {**_LEADS_TO, **(_OF_OWN if has_own else {})}
    links = "\n".join(
        f'<li><a href="{name}">{escape(words)}</a></li>' for name, words in leads_to.items()
    )
    name = escape(fleet_name)
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>For the office</title>\n"
        f'<link rel="icon" href="{ICON}">\n'
        f'<link rel="stylesheet" href="{STYLE_NAME}">\n</head>\n<body>\n'
        f"<h1>For the office</h1>\n<p>{name}</p>\n<ul>\n{links}\n</ul>\n</body>\n</html>\n"
    )
