"""What the office reads is proved as what drivers read: each number and word, and nothing else."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

import pytest
from gap_fleet import fleet_with_gaps
from own_words import STEPS, read_own

from guidegen.build.missing import form_path, missing_files
from guidegen.build.office_desk import index_page
from guidegen.build.own_procedures import own_procedures
from guidegen.build.project import open_project
from guidegen.build.prove_office import changed_since_proof, prove_office_pages
from guidegen.build.replaced import replaced_files
from guidegen.finding import Findings
from guidegen.gaps.model import FleetGaps, Grade
from guidegen.procedures.own.model import OwnProcedure
from guidegen.proof.model import Failure
from guidegen.proof.office.prove_office import (
    claims_of_missing,
    claims_of_replaced,
    index_claims,
    prove_office,
)
from guidegen.proof.report import ICON, STYLE, STYLE_NAME

ROOT = Path(__file__).parents[3]
FLEET = "Bluff & County <Haulage>"
PAGES = ("index.html", "missing.html", "replaced.html")
MOST = {"index.html": 8, "missing.html": 3, "replaced.html": 6}
"""Faults of one kind that are planted in one page, spread over it."""

DROPS = """\
drops_caution:
  - {caution: blast, reason: "Rings are below the tank, 2 ft off.", approved_by: I. <b>Quist</b>,
     date: 2026-11-20}
"""


def large(fleet: FleetGaps) -> FleetGaps:
    """Return *fleet* with twins, and with more trucks that lack something else than there is room
    for rows."""
    units = dict(fleet.units)
    first, other = units["T-17"], units["T-04"]
    for number in range(14):
        name = f"T-9{number:02}"
        units[name] = replace(first, number=name)
    for number in range(64):
        name = f"T-8{number:02}"
        gaps = tuple(
            replace(gap, grade=Grade.MAY_HOLD if number & 1 << place else gap.grade)
            for place, gap in enumerate(other.gaps[:6])
        )
        units[name] = replace(other, number=name, gaps=gaps, has_other_faults=number % 9 == 0)
    held = tuple(number for number, unit in units.items() if unit.is_held_back)
    return FleetGaps(units, fleet.titles, ("B-01",), held_back=held)


@dataclass(frozen=True)
class Desk:
    files: Mapping[str, bytes]
    own: tuple[OwnProcedure, ...]
    fleet: FleetGaps

    def failures(self, name: str = "", page: str | bytes = "") -> tuple[Failure, ...]:
        """Return what is wrong, with other bytes in one file."""
        changed = {name: page.encode() if isinstance(page, str) else page} if name else {}
        files = {**self.files, **changed}
        beside = {*files, "proof.html", "proof.json", "files.sha256", form_path("T-04")}
        pages = {
            "index.html": index_claims(FLEET, has_own=True),
            "missing.html": claims_of_missing(self.fleet, beside),
            "replaced.html": claims_of_replaced(self.own),
        }
        chosen = {name: pages[name]} if name in pages else pages
        paths = {*(f"office/{each}" for each in beside), ICON.removeprefix("../")}
        return prove_office(chosen, files, paths)

    def page(self, name: str) -> str:
        return self.files[name].decode()


@pytest.fixture(scope="module")
def desk() -> Desk:
    fleet = large(fleet_with_gaps())
    project = open_project(ROOT)
    own = own_procedures(project, project.template_files("procedures"), Findings())
    given_up, _ = read_own(steps=STEPS.replace("replaces: open", "replaces: chock") + DROPS)
    own = (*own, *given_up)
    files = {name: text.encode() for name, text in replaced_files(own, ICON).items()}
    files |= missing_files(fleet, forms=("T-04",), icon=ICON)
    files["index.html"] = index_page(FLEET, has_own=True).encode()
    return Desk(files, own, fleet)


def test_pages_as_they_are_made_are_proved(desk: Desk) -> None:
    assert [(each.page, each.what) for each in desk.failures()] == []
    page = desk.page("missing.html")
    assert "other trucks: how many lack it" in page
    assert "Nothing can be said of B-01" in page
    assert '<tr class="given-up">' in desk.page("replaced.html")
    assert "I. &lt;b&gt;Quist" in desk.page("replaced.html")


def test_fleet_that_lacks_nothing_and_has_no_words_of_its_own_is_proved_too() -> None:
    whole = fleet_with_gaps()
    none = {number: replace(unit, gaps=()) for number, unit in whole.units.items()}
    fleet = FleetGaps(none, whole.titles)
    files = {**missing_files(fleet, icon=ICON), STYLE_NAME: STYLE.encode()}
    files["index.html"] = index_page(FLEET, has_own=False).encode()
    paths = {f"office/{name}" for name in (*files, "proof.html", "proof.json", "files.sha256")}
    pages = {
        "index.html": index_claims(FLEET, has_own=False),
        "missing.html": claims_of_missing(fleet, files),
    }

    assert prove_office(pages, files, {*paths, ICON.removeprefix("../")}) == ()


Sow = Callable[[str], Iterator[str]]
_WORDS = re.compile(r"(?<=>)[^<>]*[^<>\s][^<>]*(?=<)")
_BODY = "<body>"


def _after_body(page: str) -> int:
    return page.index(_BODY)


def changed_digits(page: str) -> Iterator[str]:
    """Another digit in a number or name that is seen."""
    start = _after_body(page)
    for words in _WORDS.finditer(page, start):
        for digit in re.finditer("[0-9]", words[0]):
            at = words.start() + digit.start()
            yield page[:at] + str((int(digit[0]) + 1) % 10) + page[at + 1 :]


def changed_words(page: str) -> Iterator[str]:
    """Words gone, twice, or others."""
    for words in _WORDS.finditer(page, _after_body(page)):
        for other in ("", words[0] * 2, "All is well."):
            yield page[: words.start()] + other + page[words.end() :]


def lost_parts(page: str) -> Iterator[str]:
    """A row, an entry, a paragraph, a cell or a mark gone."""
    for tag in ("tr", "li", "p", "h2", "td", "span"):
        for found in re.finditer(rf"<{tag}\b[^>]*>.*?</{tag}>", page, re.DOTALL):
            if found.start() > _after_body(page) and (tag != "td" or _WORDS.search(found[0])):
                yield page[: found.start()] + page[found.end() :]


def moved_rows(page: str) -> Iterator[str]:
    """A row behind the next one that says something else."""
    rows = list(re.finditer(r"<(tr|li)\b[^>]*>.*?</\1>\n?", page, re.DOTALL))
    for one, other in pairwise(rows):
        if one[1] == other[1] and one[0] != other[0] and one.end() == other.start():
            yield page[: one.start()] + other[0] + one[0] + page[other.end() :]


def foreign_text(page: str) -> Iterator[str]:
    """What nobody states: words, a comment, a script, a picture, words that are read aloud."""
    end = page.index("</body>")
    for more in (
        *("T-18 may drive on.", "<p>T-18 may drive on.</p>", "<!-- a note -->", "<td>7</td>"),
        *("<script>alert(1)</script>", '<img src="x.png" alt="x">', "<h2>Ready</h2>"),
        *("<svg><text>7</text></svg>", '<p aria-label="7"></p>', '<p title="7"></p>'),
        *('<ul data-text="x"><li>7</li></ul>', '<p><a href="../index.html">7</a></p>'),
    ):
        yield page[:end] + more + page[end:]
    head = page.index("</head>")
    yield f'{page[:head]}<meta http-equiv="refresh" content="0">{page[head:]}'
    yield f"{page[:head]}<style>p {{ display: none; }}</style>{page[head:]}"


def hidden_text(page: str) -> Iterator[str]:
    """What stands there and is not seen."""
    for tag in ("p", "tr", "td", "li", "h1", "h2", "b", "code", "span", "body", "table", "a"):
        for found in list(re.finditer(rf"<{tag}\b(?=[ >])", page))[:2]:
            if found.start() >= _after_body(page):
                for how in ("hidden", 'style="display:none"', 'class="gone"', 'aria-hidden="true"'):
                    yield f"{page[: found.end()]} {how}{page[found.end() :]}"


def links_astray(page: str) -> Iterator[str]:
    """A link to what is not there, out of the site, or to another page."""
    for link in re.finditer(r'href="([^"]*)"', page):
        for other in ("gone.html", "https://example.com/", "/office/index.html", "missing.css"):
            if not (other == "missing.css" and link[1].endswith(".css")):
                yield page[: link.start(1)] + other + page[link.end(1) :]


KINDS: tuple[Sow, ...] = (
    *(changed_digits, changed_words, lost_parts, moved_rows),
    *(foreign_text, hidden_text, links_astray),
)
RULES = {
    "foreign_text": {"unclaimed-text", "element-not-readable", "attribute-not-claimed"},
    "hidden_text": {"text-hidden", "attribute-not-claimed", "text-not-read-back"},
    "links_astray": {"link-broken", "request-to-other-origin", "link-to-other-place"},
}
OF_WORDS = {"text-not-read-back", "text-missing", "unclaimed-text", "link-to-other-place"}


@pytest.mark.parametrize("name", PAGES)
@pytest.mark.parametrize("sow", KINDS, ids=lambda sow: str(sow.__name__))
def test_every_planted_fault_is_caught(sow: Sow, name: str, desk: Desk) -> None:
    page = desk.page(name)
    plants = [plant for plant in dict.fromkeys(sow(page)) if plant != page]
    chosen = plants[:: max(1, -(-len(plants) // MOST[name]))]
    wanted = RULES.get(sow.__name__, OF_WORDS)

    missed = [
        plant
        for plant in chosen
        if not wanted & {each.rule.name for each in desk.failures(name, plant)}
    ]

    assert missed == []
    assert chosen or name == "index.html"


@pytest.mark.parametrize(
    ("style", "rule"),
    [
        ("td { display: none; }", "text-hidden"),
        (".holds { color: #1b1b1b; background: #1b1b1b; }", "text-hidden"),
        ("tr:nth-child(2) { visibility: collapse; }", "text-hidden"),
        ('td::after { content: "7"; }', "unclaimed-text"),
        ("body { background: url(https://example.com/x.png); }", "request-to-other-origin"),
    ],
)
def test_stylesheet_that_hides_or_adds_is_caught(style: str, rule: str, desk: Desk) -> None:
    changed = replace(desk, files={**desk.files, "missing.css": style.encode()})

    assert rule in {each.rule.name for each in changed.failures()}


def test_page_that_is_gone_or_was_changed_after_its_proof_is_told(
    desk: Desk, tmp_path: Path
) -> None:
    office = tmp_path / "office"
    for name, raw in {**desk.files, "proof.html": b"", "proof.json": b""}.items():
        (office / name).parent.mkdir(parents=True, exist_ok=True)
        (office / name).write_bytes(raw)
    (office / "forms").mkdir()
    (office / form_path("T-04")).write_bytes(b"%PDF")
    root = [ICON.removeprefix("../")]

    assert prove_office_pages(tmp_path, FLEET, desk.own, desk.fleet, root) == ()
    assert changed_since_proof(tmp_path, desk.files) == ()

    (office / "missing.html").write_bytes(desk.files["missing.html"].replace(b"T-17", b"T-71"))
    (office / "replaced.html").unlink()
    found = prove_office_pages(tmp_path, FLEET, desk.own, None, root)
    assert {(each.rule.name, each.page) for each in found} == {
        ("link-broken", "office/index.html"),
        ("page-missing", "office/replaced.html"),
    }
    changed = changed_since_proof(tmp_path, desk.files)
    assert [each.page for each in changed] == ["office/replaced.html", "office/missing.html"]
