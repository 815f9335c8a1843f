"""The command that asks cards back.

Takes in what was typed; gives out which cards are out of date, and one PDF of those.
Refuses to print what the proof has not passed, and to record what was not printed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import click

from guidegen.build.load import load_fleet
from guidegen.build.print_record import Desk, Occasion, collected_from, put_on_record
from guidegen.build.print_run import PrintRun
from guidegen.build.print_shop import PrintShop, open_print_shop
from guidegen.build.project import open_project
from guidegen.build.reprint import (
    Asked,
    LeftOut,
    Reprinted,
    SheetOrder,
    judge_cards,
    kinds_of,
    print_together,
)
from guidegen.build.workers import Workers, usual_count, workers_of
from guidegen.commands.paper import DUPLEX, STOCK
from guidegen.commands.recording import opened_record, recording, told_of
from guidegen.commands.terminal import (
    FORMAT,
    LONG_WORK,
    PROJECT,
    Format,
    end,
    progress,
    refuse,
    shown,
)
from guidegen.commands.work import worker_options
from guidegen.finding import Findings
from guidegen.guide.counting_order import in_counting_order
from guidegen.paper.stock import STOCKS, Duplex, Printing
from guidegen.printings.model import PrintRecord
from guidegen.printings.outdated import Judged
from guidegen.printings.report import format_judged, judged_as_json


@click.command()
@click.argument("units", nargs=-1)
@click.option(
    "--yard",
    "yards",
    multiple=True,
    help="Only trucks of this yard, by id or name; can be given more than once.",
)
@click.option("--card", default=None, help="Only the card with this id.")
@click.option("--every", is_flag=True, help="Also cards that say the same under an older revision.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    default=None,
    help="Write the cards to print as one PDF, on sheets with trim marks.",
)
@STOCK
@DUPLEX
@click.option(
    "--collected",
    is_flag=True,
    help="The listed cards to take out are out of their cabs; with UNITS and --card, that card "
    "whatever it says. Goes with --record.",
)
@recording("Put on record what was printed with --out, or collected with --collected.")
@PROJECT
@worker_options
@FORMAT
def reprint(  # noqa: PLR0913, PLR0917, PLR0915 -- one parameter an option
    units: tuple[str, ...],
    yards: tuple[str, ...],
    card: str | None,
    every: bool,  # noqa: FBT001 -- a flag of the command line
    out: Path | None,
    stock: str,
    duplex: str,
    collected: bool,  # noqa: FBT001 -- ditto
    occasion: Occasion | None,
    root: Path,
    form: Format,
    workers: Workers | None,
) -> None:
    """List the cards on record that are out of date, the worst first, and print just those."""
    if collected and occasion is None:
        raise click.UsageError("--collected goes with --record")
    if occasion is not None and out is None and not collected:
        raise click.UsageError("--record goes with --out or --collected")
    findings = Findings()
    project = open_project(root)
    record = opened_record(project, occasion, findings, form)
    loaded = load_fleet(project, findings, progress)
    shop = open_print_shop(project, loaded, findings) if loaded else None
    if shop is None:
        end(findings, form, {})
    asked = _asked(units, yards, card, shop, record)
    desk = Desk(shop)
    judged = judge_cards(desk, record, asked, findings).of_card(card)
    own = Findings()
    done = Reprinted(None, ())
    if out is not None:
        printing = Printing(STOCKS[stock], Duplex(duplex))
        kinds = kinds_of(shop, judged.to_print(every=every), own)
        is_sure = not own.has_errors
        done = _print(shop, SheetOrder(kinds, out, printing), own, workers)
        done = replace(done, left_out=(*done.left_out, *_not_judged(judged, record, card)))
    else:
        is_sure = True
    gone = _gone(judged, record, units, card) if collected else {}
    is_recorded = False
    if occasion is not None and is_sure:
        is_recorded = _record(desk, done.run, gone, occasion, own)
    findings.extend(own)
    result, summary = judged_as_json(judged), format_judged(judged).rstrip()
    if out is not None:
        result["file"] = out.as_posix() if done.run else None
        result["left_out"] = [each.as_json() for each in done.left_out]
        summary += f"\n{_told(done, out)}"
    if occasion is not None:
        result["recorded"] = is_recorded
        summary += f"\n{told_of(project, is_recorded=is_recorded)}"
    end(findings, form, result, summary)


def _print(
    shop: PrintShop, order: SheetOrder, findings: Findings, workers: Workers | None
) -> Reprinted:
    if not order.kinds:
        return Reprinted(None, ())
    if workers is None and len(order.kinds) >= LONG_WORK:
        workers = workers_of(usual_count())
    return print_together(shop, order, findings, progress, workers)


def _not_judged(judged: Judged, record: PrintRecord, card: str | None) -> tuple[LeftOut, ...]:
    """Return the cards of trucks that are held back: nobody knows whether they are still right."""
    cabs = record.in_cabs()
    return tuple(
        LeftOut(
            unit,
            each,
            (f"{unit} has no guide now, so that nobody knows what the card must say",),
            (f"mend what is found in {unit}, and run this again",),
        )
        for unit in judged.unjudged
        for each in cabs[unit]
        if card in {None, each}
    )


def _told(done: Reprinted, out: Path) -> str:
    """Return for a terminal what was written, and which cards are not in it."""
    lines = [f"{shown(out)}: {done.run.as_text()}" if done.run else "nothing was printed"]
    if done.left_out:
        count = len(done.left_out)
        which = "1 card is" if count == 1 else f"{count:,} cards are"
        lines.append(f"{which} not in the PDF, and not recorded as printed:")
    for each in done.left_out:
        lines.append(f"  {each.unit} {each.card}: {'; '.join(each.why)}")
        lines += (f"    {act}" for act in each.do)
    return "\n".join(lines)


def _record(
    desk: Desk,
    printed: PrintRun | None,
    gone: Mapping[str, Sequence[str]],
    occasion: Occasion,
    findings: Findings,
) -> bool:
    """Put on record what was printed, and what is *gone* from the cabs; say whether it is there."""
    entry = desk.entry(printed.kinds if printed else {}, occasion)
    entry = replace(entry, printings=(*entry.printings, *collected_from(gone, occasion)))
    if not entry.printings:
        return False
    return put_on_record(desk.shop.project, entry, occasion, findings)


def _asked(
    units: tuple[str, ...],
    yards: tuple[str, ...],
    card: str | None,
    shop: PrintShop,
    record: PrintRecord,
) -> Asked:
    """Return what is asked about; a truck, yard or card that there is not is wrong usage."""
    cabs = record.in_cabs()
    known = sorted({*shop.loaded.unit_numbers, *cabs}, key=in_counting_order)
    for unit in units:
        if unit not in known:
            refuse("unit", unit, known)
    names = {yard.id: yard.name for yard in shop.loaded.fleet.yards}
    places = tuple(names.get(yard, yard) for yard in yards)
    there = sorted({*names.values(), *record.yards})
    for yard in places:
        if yard not in there:
            refuse("yard", yard, there)
    cards = sorted(
        {kind.id for kind in shop.kinds} | {id_ for each in cabs.values() for id_ in each}
    )
    if card is not None and card not in cards:
        refuse("card", card, cards)
    return Asked(units, places)


def _gone(
    judged: Judged, record: PrintRecord, units: tuple[str, ...], card: str | None
) -> Mapping[str, Sequence[str]]:
    """Return the cards that are out of their cabs, by number of the truck."""
    gone: dict[str, list[str]] = {}
    for each in judged.outdated:
        if each.is_taken_out:
            gone.setdefault(each.unit, []).append(each.card)
    if card is not None:
        cabs = record.in_cabs()
        gone.update({unit: [card] for unit in units if card in cabs.get(unit, {})})
    return gone
