"""What is missing, as a page for the office.

Takes in the gaps of a fleet; gives out one page of HTML, and the stylesheet beside it.
Refuses to run a script and to know a clock; what the fleet has named is escaped.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from itertools import islice

from guidegen.gaps.groups import Group, group_units, topics_of
from guidegen.gaps.matrix import (
    MATRIX_STYLE,
    MOST_ROWS,
    group_name,
    mark_of,
    matrix_of,
    name_of,
)
from guidegen.gaps.model import FleetGaps, Grade, LeftOut
from guidegen.gaps.order import Closing, closing_order, smallest_set
from guidegen.gaps.recheck import Old
from guidegen.units.naming import named_units

STYLE_NAME = "missing.css"
"""Name of the stylesheet beside the page."""

PAGE_NAME = "missing.html"

_MOST_FORMS = 200
"""Forms that the page leads to; the others stand in the same folder."""

STYLE = f"""
body {{ max-width: none; }}
th.gaps {{ width: 45%; }}
td.count {{ white-space: nowrap; }}
{MATRIX_STYLE}.units {{ overflow-wrap: anywhere; min-width: 8rem; }}
"""


@dataclass(frozen=True, slots=True)
class Beside:
    """What stands in the folder of the page."""

    styles: Sequence[str] = ()
    """Names of stylesheets, the first to be read first."""

    lists: Mapping[str, str] = field(default_factory=dict)
    """What each list for the shop is, by its file's name."""

    forms: Mapping[str, str] = field(default_factory=dict)
    """Path of the form to walk around each truck with, by unit number."""

    icon: str = ""
    """Address of the site's icon; empty if the page stands in no site."""


ALONE = Beside()


def missing_page(fleet: FleetGaps, *, old: Sequence[Old] = (), beside: Beside = ALONE) -> str:
    """Return the page. How long it gets hangs on what is missing, and not on how many trucks are.

    Args:
        fleet: With its gaps.
        old: Values that are to be checked again.
        beside: What it leads to.
    """
    groups = group_units(fleet)
    links = "".join(f'<link rel="stylesheet" href="{escape(each)}">\n' for each in beside.styles)
    if beside.icon:
        links = f'<link rel="icon" href="{escape(beside.icon)}">\n{links}'
    return "\n".join(
        (
            '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>What is missing</title>\n{links}</head>\n<body>",
            "<h1>What is missing</h1>",
            *_summary(fleet),
            *_take_along(beside),
            *_first(closing_order(fleet), fleet),
            *matrix_of(groups, topics_of(groups)),
            *_groups(groups, fleet),
            *_left_out(fleet),
            *_old(old),
            *_values(fleet),
            "</body>\n</html>\n",
        )
    )


def left_out_words(out: LeftOut, fleet: FleetGaps) -> str:
    """Return what a guide is published without, in words."""
    title = fleet.titles.get(out.procedure, out.procedure)
    return f"{title} ({out.part})" if out.part else title


def _summary(fleet: FleetGaps) -> Iterator[str]:
    held, total = len(fleet.held_back), len(fleet.units) + len(fleet.not_read)
    if held == 0:
        yield '<p class="verdict proved">No truck is held back by what is not on record.</p>'
    else:
        yield (
            f'<p class="verdict failed">{held:,} of {total:,} trucks have no guide because of '
            "what is not on record.</p>"
        )
    faulty = [number for number, unit in fleet.units.items() if unit.has_other_faults]
    if faulty:
        yield (
            f"<p>Other faults hold back {escape(named_units(faulty))}: closing gaps does not free "
            "these. <code>guidegen check</code> says what it is.</p>"
        )
    if fleet.not_read:
        yield (
            f"<p>Nothing can be said of {escape(named_units(fleet.not_read))}, whose files have "
            "faults. <code>guidegen check</code> says where.</p>"
        )


def _take_along(beside: Beside) -> Iterator[str]:
    if beside.lists:
        links = " or ".join(
            f'<a href="{escape(name)}">{escape(kind)}</a>' for name, kind in beside.lists.items()
        )
        yield f"<p>What to look up, by yard and truck, to send to the shop: {links}.</p>"
    forms = beside.forms
    if forms:
        links = ", ".join(
            f'<a href="{escape(path)}">{escape(number)}</a>'
            for number, path in islice(forms.items(), _MOST_FORMS)
        )
        more = len(forms) - _MOST_FORMS
        others = f" and {more:,} more in the same folder" if more > 0 else ""
        yield f'<p class="units">A paper form to walk around the truck with: {links}{others}.</p>'
    if beside.lists:
        yield "<p>For the form of any other truck: <code>guidegen missing UNIT --out FOLDER</code>."
        yield "It also tells what was recorded too long ago.</p>"


def _first(order: Sequence[Closing], fleet: FleetGaps) -> Iterator[str]:
    if not order:
        return
    yield "<h2>Close these first</h2>"
    yield "<p>In this order, each gap that is closed frees as many trucks as it can. What is"
    yield "counted is sure, whatever is found; a truck can be free sooner.</p>"
    yield "<table>\n<thead><tr><th></th><th>Gap</th><th>Trucks that lack it</th><th>Models</th>"
    yield "<th>Frees alone</th><th>Frees in this order</th><th>Free by then</th></tr></thead>"
    yield "<tbody>"
    for number, each in enumerate(order, start=1):
        freed = named_units(each.freed) if each.freed else "none yet"
        yield (
            f'<tr><td class="count">{number}</td>'
            f"<td>{mark_of(each.grade)} {name_of(each.name)}</td>"
            f'<td class="units">{len(each.lacking):,}: {escape(named_units(each.lacking))}</td>'
            f"<td>{escape(_models(each.lacking, fleet))}</td>"
            f'<td class="count">{each.frees_alone:,}</td>'
            f'<td class="units">{len(each.freed):,}: {escape(freed)}</td>'
            f'<td class="count">{each.freed_so_far:,}</td></tr>'
        )
    yield "</tbody>\n</table>"


def _models(lacking: Iterable[str], fleet: FleetGaps) -> str:
    """Say of which models the trucks are; one line in a model file may close a gap for all."""
    all_of = Counter(unit.model for unit in fleet.units.values())
    counted = Counter(fleet.units[number].model for number in lacking)
    return ", ".join(
        f"{model} ({'all ' if count == all_of[model] > 1 else ''}{count:,})"
        for model, count in sorted(counted.items())
    )


def _groups(groups: Sequence[Group], fleet: FleetGaps) -> Iterator[str]:
    held = [group for group in groups if group.is_held_back]
    if not held:
        return
    yield "<h2>What each truck waits for</h2>"
    yield "<p>All of these together are enough, whatever is found.</p>"
    yield '<table>\n<thead><tr><th>Trucks</th><th class="gaps">Gaps to close</th>'
    yield "<th>Asked for by</th></tr>"
    yield "</thead>\n<tbody>"
    for group in held[:MOST_ROWS]:
        needed = [group.gaps[name] for name in smallest_set(fleet.units[group.units[0]])]
        gaps = "<br>".join(f"{mark_of(gap.grade)} {name_of(gap.name)}" for gap in needed)
        asked = dict.fromkeys(by for gap in needed for by in gap.asked_by)
        titles = "; ".join(escape(fleet.titles.get(by, by)) for by in asked)
        more = ", and other faults" if group.has_other_faults else ""
        yield f'<tr><td class="units">{group_name(group)}{more}</td><td>{gaps}</td>'
        yield f"<td>{titles}</td></tr>"
    more_trucks = sum(len(group.units) for group in held[MOST_ROWS:])
    if more_trucks:
        yield f'<tr><td colspan="3"><b>{more_trucks:,}</b> other trucks: see the list for the shop.'
        yield "</td></tr>"
    yield "</tbody>\n</table>"


def _left_out(fleet: FleetGaps) -> Iterator[str]:
    found: dict[str, dict[LeftOut, None]] = {}
    lacking: Counter[str] = Counter()
    for unit in fleet.units.values():
        for gap in unit.of(Grade.LEAVES_OUT):
            lacking[gap.name] += 1
            found.setdefault(gap.name, {}).update(dict.fromkeys(gap.left_out))
    if not found:
        return
    yield "<h2>What guides are published without</h2>"
    yield "<table>\n<thead><tr><th>Not on record</th><th>Trucks</th><th>Left out</th></tr></thead>"
    yield "<tbody>"
    for name, outs in sorted(found.items(), key=lambda pair: (-lacking[pair[0]], pair[0])):
        told = "<br>".join(escape(left_out_words(out, fleet)) for out in outs)
        yield f'<tr><td>{name_of(name)}</td><td class="count">{lacking[name]:,}</td>'
        yield f"<td>{told}</td></tr>"
    yield "</tbody>\n</table>"


def _old(old: Sequence[Old]) -> Iterator[str]:
    if not old:
        return
    yield "<h2>To be checked again</h2>"
    yield "<table>\n<thead><tr><th>Recorded</th><th>Values</th><th>Sources</th><th>Trucks</th>"
    yield "<th>Where</th></tr></thead>\n<tbody>"
    for each in old:
        to_come = "<br><b>This day has not come.</b>" if each.is_to_come else ""
        names = "<br>".join(name_of(name) for name in each.names)
        yield f"<tr><td>{escape(each.said)}{to_come}</td>"
        yield f"<td>{names}</td><td>{'<br>'.join(map(escape, each.sources))}</td>"
        yield f'<td class="units">{escape(named_units(each.units))}</td>'
        yield f"<td><code>{escape(each.recorded.span.place)}</code></td></tr>"
    yield "</tbody>\n</table>"


def _values(fleet: FleetGaps) -> Iterator[str]:
    lacking: dict[str, list[str]] = {}
    for unit in fleet.units.values():
        for gap in unit.of(Grade.VALUE_ONLY):
            lacking.setdefault(gap.name, []).append(unit.number)
    if not lacking:
        return
    yield "<h2>Values that only the data page lacks</h2>"
    yield "<p>No procedure asks for these on these trucks. Many trucks have no such thing.</p>"
    yield "<ul>"
    for name, numbers in lacking.items():
        yield f"<li>{name_of(name)}: {escape(named_units(numbers))}</li>"
    yield "</ul>"
