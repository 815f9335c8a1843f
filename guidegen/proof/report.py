"""The verdict for the office.

Takes in a verdict; gives out JSON for programs and one page of HTML for people.
Refuses to leave out what was not checked, and knows no clock: one verdict, one text.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict
from html import escape
from types import MappingProxyType

from guidegen.proof.model import Counts, Failure, FleetVerdict, UnitVerdict, numbers_of

NOTHING: Mapping[str, int] = MappingProxyType({})
_COLUMNS = tuple(asdict(Counts()))

STYLE_NAME = "proof.css"
"""Name of the stylesheet beside the page."""

ICON = "../assets/images/favicon.svg"
"""Of the site in which the page stands; a browser that is told of none asks for one at the root."""

STYLE = """
body { font: 16px/1.5 system-ui, sans-serif; margin: 2rem auto; max-width: 70rem; padding: 0 1rem;
  color: #1b1b1b; background: #fff; }
table { border-collapse: collapse; width: 100%; margin: 1rem 0; }
th, td { border: 1px solid #757575; padding: .3rem .6rem; text-align: left; vertical-align: top; }
td.count { text-align: right; font-variant-numeric: tabular-nums; }
code { overflow-wrap: anywhere; }
.verdict { border: 3px solid; padding: .6rem 1rem; font-weight: 700; font-size: 1.25rem; }
.proved { border-color: #1b5e20; }
.failed { border-color: #b00020; }
"""


def report_json(verdict: FleetVerdict, printed: Mapping[str, int] = NOTHING) -> str:
    """Return *verdict* as JSON text, a line for each truck.

    Args:
        verdict: Of the whole site.
        printed: How much was read back of what is printed, by what it is.
    """
    report = {
        "proved": verdict.is_proved,
        "totals": asdict(verdict.counts),
        "printed": dict(printed),
        "units": [_unit(unit) for unit in verdict.units],
        "failures": [_failure(each) for each in verdict.all_failures],
        "unchecked": list(verdict.unchecked),
    }
    entries = (f"  {_line(name)}: {_lines(value)}" for name, value in report.items())
    return "{\n" + ",\n".join(entries) + "\n}\n"


def _lines(value: object) -> str:
    if not isinstance(value, list) or not value:
        return _line(value)
    return "[\n" + ",\n".join(f"    {_line(each)}" for each in value) + "\n  ]"


def _line(value: object) -> str:
    # With line breaks within, the trucks of a large fleet would take ten times as long.
    return json.dumps(value, ensure_ascii=False)


def _unit(unit: UnitVerdict) -> Mapping[str, object]:
    return {
        "unit": unit.unit,
        "edition": unit.edition,
        "proved": unit.is_proved,
        "failures": len(unit.failures),
        **dict(zip(_COLUMNS, numbers_of(unit.counts), strict=True)),
    }


def _failure(failure: Failure) -> Mapping[str, str]:
    return {
        "rule": failure.rule.name,
        "unit": failure.unit,
        "page": failure.page,
        "mark": failure.mark,
        "place": failure.place,
        "what": failure.what,
        "why": failure.rule.why,
        "fix": failure.fix,
    }


def report_html(verdict: FleetVerdict, printed: Mapping[str, int] = NOTHING) -> str:
    """Return *verdict* as a page; *printed* as of `report_json`. `STYLE` belongs beside it."""
    return "\n".join(
        (
            '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            "<title>Proof of the guides</title>",
            f'<link rel="icon" href="{ICON}">',
            f'<link rel="stylesheet" href="{STYLE_NAME}">\n</head>\n<body>',
            "<h1>Proof of the guides</h1>",
            *_summary(verdict),
            *_printed(printed),
            *_failures(verdict.all_failures),
            "<h2>What was not checked</h2>",
            "<ul>",
            *(f"<li>{escape(statement)}</li>" for statement in verdict.unchecked),
            "</ul>",
            "<h2>What was proved</h2>",
            *_table(verdict),
            "</body>\n</html>\n",
        )
    )


def _summary(verdict: FleetVerdict) -> Iterator[str]:
    count = len(verdict.all_failures)
    if verdict.is_proved:
        words = "Every guide says what it must say. No failures."
        yield f'<p class="verdict proved">{words}</p>'
    else:
        noun = "failure" if count == 1 else "failures"
        words = f"Not proved: {count} {noun}. Nothing may be published."
        yield f'<p class="verdict failed">{words}</p>'
    units, totals = len(verdict.units), verdict.counts
    yield (
        f"<p>{units:,} units, {totals.pages:,} files, {totals.procedures:,} procedures, "
        f"{totals.steps:,} steps, {totals.cautions:,} cautions, {totals.stops:,} stops of "
        f"inspection rounds, {totals.lamps:,} lamps of lamp finders, "
        f"{totals.questions:,} questions, {totals.values:,} values and "
        f"{totals.labels:,} fixed words were read back from the published files.</p>"
    )


def _printed(printed: Mapping[str, int]) -> Iterator[str]:
    if any(printed.values()):
        counted = ", ".join(f"{count:,} {name}" for name, count in printed.items())
        yield f"<p>Of printed cards: {counted} were read back.</p>"


def _failures(failures: Iterable[Failure]) -> Iterator[str]:
    rows = [
        f"<tr><td>{escape(each.unit or 'all')}</td><td><code>{escape(each.page)}</code>"
        f"<br><code>{escape(each.mark)}</code></td>"
        f"<td><b>{escape(each.rule.name)}</b>: {escape(each.what)}<br>{escape(each.rule.why)}</td>"
        f"<td>{escape(each.fix)}</td><td><code>{escape(each.place)}</code></td></tr>"
        for each in failures
    ]
    if rows:
        yield "<h2>Failures</h2>\n<table>\n<thead><tr><th>Unit</th><th>File and mark</th>"
        yield "<th>What is wrong, and what happens at the truck</th><th>What to do</th>"
        yield "<th>Where spec or procedure states it</th></tr></thead>\n<tbody>"
        yield from rows
        yield "</tbody>\n</table>"


def _table(verdict: FleetVerdict) -> Iterator[str]:
    heads = "".join(f"<th>{name.capitalize()}</th>" for name in ("unit", *_COLUMNS, "failures"))
    yield f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>"
    for unit in verdict.units:
        yield _row(unit.unit, unit.counts, len(unit.failures))
    yield _row("all", verdict.counts, len(verdict.all_failures))
    yield "</tbody>\n</table>"


def _row(unit: str, counts: Counts, failures: int) -> str:
    numbers = (*numbers_of(counts), failures)
    cells = "".join(f'<td class="count">{number:,}</td>' for number in numbers)
    return f"<tr><td>{escape(unit)}</td>{cells}</tr>"
