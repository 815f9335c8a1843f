"""How fast cards are drawn and proved, beside WeasyPrint drawing the same cards in one run.

Takes in numbers of units and editions; gives out a table of processor time a side and peak memory.
Refuses to compare figures of different runs.
"""

import argparse
import json
import logging
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import weasyprint  # type: ignore[import-untyped]  # it has no hints
from card_html import card_as_html
from fleet_maker import make_fleet
from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]  # ditto

from guidegen.build import card_press
from guidegen.build.load import load_fleet
from guidegen.build.print_run import PrintOrder, print_cards
from guidegen.build.print_shop import PrintShop, open_print_shop
from guidegen.build.project import open_project
from guidegen.decks.deal import deal_cards, issue_of
from guidegen.finding import Findings
from guidegen.paper.boxes import count_pages
from guidegen.paper.matter import Matter
from guidegen.paper.typeset import FONT, FONT_FOLDER
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_cards
from guidegen.paper_proof.siblings import ProvedCards
from guidegen.round.plan import plan_round

Measure = tuple[str, int, float]
"""What was drawn, how many sides, and seconds of processor time."""


def main() -> None:
    """Measure each job in a process of its own, and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--units", type=int, default=100)
    parser.add_argument("--editions", type=int, default=10)
    parser.add_argument("--job", choices=list(JOBS), help="run one job, in this process")
    parser.add_argument("--fleet", type=Path)
    chosen = parser.parse_args()
    if chosen.job:
        print(json.dumps(list(JOBS[chosen.job](chosen.fleet))))
        return
    with tempfile.TemporaryDirectory(prefix="guidegen-bench-") as name:
        fleet = Path(name) / "fleet"
        make_fleet(fleet, units=chosen.units, editions=chosen.editions, has_cards=True)
        print(f"{chosen.units:,} units of {chosen.editions:,} editions, {os.cpu_count()} cores")
        print(f"{'':45} {'sides':>7} {'CPU s':>7} {'ms/side':>8} {'peak MB':>8}")
        seconds = {job: run_job(job, fleet) for job in JOBS}
    ratio = seconds["html"] / seconds["set"]
    print(f"WeasyPrint over guidegen, warm: {ratio:.1f} times the CPU for the same set")


def run_job(job: str, fleet: Path) -> float:
    """Run one job in a process of its own, print its rows; return the last one's seconds."""
    command = [sys.executable, __file__, "--job", job, "--fleet", str(fleet)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        output = process.stdout.read() if process.stdout else ""
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{job} ended with {process.returncode}")
    rows = json.loads(output)
    peak = usage.ru_maxrss / 1024
    for name, sides, seconds in rows:
        rate = seconds / sides * 1000
        print(f"{name:45} {sides:7,} {seconds:7.2f} {rate:8.1f} {peak:8.0f}")
    return float(rows[-1][2])


def draw_sets(fleet: Path) -> Iterator[Measure]:
    """Draw the full set of one unit cold, of another of its edition, and of one of another."""
    shop = open_shop(fleet)
    first, other = editions(shop)[:2]
    yield drawn(shop, "a unit's full set, cold: drawn", first[0])
    yield drawn(shop, "one of the same edition: drawn", first[1])
    yield drawn(shop, "one of another edition, warm: drawn", other[0])


def draw_fleet(fleet: Path) -> Iterator[Measure]:
    """Draw and write the cards of all units."""
    shop = open_shop(fleet)
    order = PrintOrder(tuple(shop.loaded.guides), shop.kinds, fleet / "cards", None)
    findings = Findings()
    spent = watch_proof()
    start = time.process_time()
    run = print_cards(shop, order, findings)
    seconds = time.process_time() - start
    if findings.has_errors:
        raise SystemExit([finding.what for finding in findings])
    count = len(order.units)
    yield f"cards of {count} units: drawn and written", run.sides, seconds - sum(spent)
    yield f"cards of {count} units: proved", run.sides, sum(spent)
    yield f"cards of {count} units: in all", run.sides, seconds


def watch_proof() -> list[float]:
    """Return a list that takes the processor time of each unit's proof from now on."""
    spent: list[float] = []
    prove = card_press.prove_cards  # type: ignore[attr-defined]  # it is looked up there

    def watched(*args: Any, **kwargs: Any) -> PaperVerdict:  # noqa: ANN401 -- whatever the proof takes
        start = time.process_time()
        verdict = prove(*args, **kwargs)
        spent.append(time.process_time() - start)
        return verdict

    card_press.prove_cards = watched  # type: ignore[attr-defined]  # ditto
    return spent


def prove_sets(fleet: Path) -> Iterator[Measure]:
    """Prove the full set of one unit, then of another of its edition."""
    shop = open_shop(fleet)
    known = ProvedCards()
    for name, number in zip(
        ("a unit's full set: proved", "one of the same edition: proved"),
        editions(shop)[0],
        strict=False,
    ):
        guide = shop.loaded.guides[number]
        drawn = [(each.card, each.pdf) for each in shop.cards(number, shop.kinds, Findings())]
        start = time.process_time()
        verdict = prove_cards(drawn, guide, shop.issue(guide), known, shop.logo)
        seconds = time.process_time() - start
        if not verdict.is_proved:
            raise SystemExit([failure.what for failure in verdict.failures])
        yield name, verdict.counts.sides, seconds


def draw_html(fleet: Path) -> Iterator[Measure]:
    """Draw the same cards with WeasyPrint, once to warm up and once to measure."""
    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    shop = open_shop(fleet)
    first, other = editions(shop)[:2]
    fonts = FontConfiguration()
    faces = "".join(
        f'@font-face {{ font-family: "{FONT}"; font-weight: {weight}; '
        f"src: url({(FONT_FOLDER / f'AtkinsonHyperlegible-{name}.ttf').as_uri()}) }}"
        for name, weight in (("Regular", 400), ("Bold", 700))
    )
    sheet = weasyprint.CSS(string=faces, font_config=fonts)

    def draw(number: str) -> Iterator[bytes]:
        for html in pages_of(shop, number):
            page = weasyprint.HTML(string=html)
            yield page.write_pdf(stylesheets=[sheet], font_config=fonts, pdf_variant="pdf/ua-1")

    for _ in draw(first[0]):
        pass
    yield measured("the same set by WeasyPrint, warm", lambda: list(draw(other[0])))


def pages_of(shop: PrintShop, number: str) -> Iterator[str]:
    """Yield the cards of one unit as HTML."""
    guide = shop.loaded.guides[number]
    fleet = shop.loaded.fleet
    matter, issue = Matter(guide), issue_of(guide, fleet.issued, fleet.address)
    tour = plan_round(guide, shop.loaded.library, Findings())
    for card in deal_cards(guide, tour, shop.kinds):
        yield card_as_html(card, matter, issue, shop.theme)


def open_shop(fleet: Path) -> PrintShop:
    """Return what prints for the fleet in a folder."""
    findings = Findings()
    project = open_project(fleet)
    loaded = load_fleet(project, findings)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if shop is None:
        raise SystemExit([finding.what for finding in findings])
    return shop


def editions(shop: PrintShop) -> list[list[str]]:
    """Return the numbers of the units of each edition that has two or more."""
    found: dict[str, list[str]] = {}
    for guide in shop.loaded.guides.values():
        found.setdefault(guide.edition, []).append(guide.number)
    return [numbers for numbers in found.values() if len(numbers) > 1]


def drawn(shop: PrintShop, name: str, number: str) -> Measure:
    """Draw the full set of one unit."""
    findings = Findings()
    return measured(name, lambda: [card.pdf for card in shop.cards(number, shop.kinds, findings)])


def measured(name: str, draw: Callable[[], list[bytes]]) -> Measure:
    """Return what drawing took, and count the sides afterward."""
    start = time.process_time()
    pdfs = draw()
    seconds = time.process_time() - start
    return name, sum(map(count_pages, pdfs)), seconds


JOBS: dict[str, Callable[[Path], Iterator[Measure]]] = {
    "set": draw_sets,
    "proof": prove_sets,
    "fleet": draw_fleet,
    "html": draw_html,
}

if __name__ == "__main__":
    main()
