"""What a fleet says in its own words, from the folder ``own`` in its specs.

Takes in a project; gives out its own procedures, with what they replace, and its house rules.
Refuses nothing: what is wrong with a file is said where it is read.
"""

from collections.abc import Iterable, Iterator

from guidegen.build.project import MARKDOWN_ENDINGS, Project
from guidegen.finding import Findings
from guidegen.procedures.own.lamps import lamp_book, read_own_lamps
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.own.read import originals_of, read_own_procedures
from guidegen.procedures.own.rules import OWN_FILE_UNREAD

OWN = "own"
OWN_PROCEDURES = "own/procedures"
"""Folder below the specs: whole procedures."""

OWN_STEPS = "own/steps"
"""Folder below the specs: steps and cautions that stand in procedures of the library."""


OWN_HOUSE_RULES = "own/house-rules"
"""Folder below the specs: house rules in Markdown."""


OWN_LAMPS = "own/lamps"
"""Folder below the specs: words for warning lamps in the place of the library's."""

LAMP_FILE = "lamps.yml"
"""Of the library, among the templates."""


def own_files(project: Project) -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of all that the fleet says in its own words.

    Of files that nobody reads, the path and nothing.
    """
    yield from _read(project)
    yield from ((path, b"") for path in _unread(project))


def _read(project: Project) -> Iterator[tuple[str, bytes]]:
    yield from project.spec_files(OWN_PROCEDURES)
    yield from project.spec_files(OWN_STEPS)
    yield from project.spec_files(OWN_LAMPS)
    yield from project.spec_files(OWN_HOUSE_RULES, MARKDOWN_ENDINGS)


def _unread(project: Project) -> Iterator[str]:
    """Yield the files that are in no folder, or of no kind, that is read; hidden ones left out."""
    folder = project.specs / OWN
    read = {path for path, _ in _read(project)}
    for path in sorted(folder.rglob("*")):
        is_hidden = any(part.startswith(".") for part in path.relative_to(folder).parts)
        if path.is_file() and not is_hidden and project.shown(path) not in read:
            yield project.shown(path)


def own_procedures(
    project: Project, library: Iterable[tuple[str, bytes]], findings: Findings
) -> tuple[OwnProcedure, ...]:
    """Return the fleet's own procedures and house rules that can be read.

    Args:
        project: Where its files are.
        library: Path and bytes of the library's procedures.
        findings: Takes the faults.
    """
    for path in _unread(project):
        findings.add(
            OWN_FILE_UNREAD,
            None,
            what="nobody reads this file",
            fix="procedures, steps and lamps are `.yml` files in `specs/own/procedures`, "
            "`specs/own/steps` and `specs/own/lamps`, house rules `.md` files in "
            "`specs/own/house-rules`",
            place=path,
        )
    lamps_path = project.template(LAMP_FILE)
    book = lamp_book(project.shown(lamps_path), lamps_path.read_bytes())
    return (
        *read_own_procedures(
            project.spec_files(OWN_PROCEDURES),
            project.spec_files(OWN_STEPS),
            originals_of(library),
            findings,
        ),
        *(read_own_lamps(project.spec_files(OWN_LAMPS), book, findings) if book else ()),
        *_house_rules(project, findings),
    )


def _house_rules(project: Project, findings: Findings) -> tuple[OwnProcedure, ...]:
    files = tuple(project.spec_files(OWN_HOUSE_RULES, MARKDOWN_ENDINGS))
    if not files:
        return ()
    # Markdown takes a while to be read in, and most fleets have no house rules.
    from guidegen.procedures.own.house_rules import read_house_rules  # noqa: PLC0415

    return read_house_rules(files, findings)
