"""Trucks and gaps as a picture: a row for trucks that lack the same, a column for each gap.

Takes in groups of trucks, and the gaps by topic; gives out an HTML table, and its style.
Refuses color alone: every mark is a letter in a frame of its own kind, and reads the same in black
and white. Refuses to grow with the fleet: rows beyond a few dozen are one, which counts.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from html import escape

from guidegen.gaps.catalog import label_of, section_of, topic_label
from guidegen.gaps.groups import Group, Topic
from guidegen.gaps.model import Grade

MATRIX_STYLE = """.wide { overflow: auto; max-height: 90vh; margin: 1rem 0; }
table.matrix thead { position: sticky; top: 0; z-index: 2; }
table.matrix thead th, table.matrix thead td { background: #fff; }
table.matrix th.row { position: sticky; left: 0; z-index: 1; background: #fff; }
@media print {
  .wide { overflow: visible; max-height: none; }
  table.matrix thead, table.matrix th.row { position: static; }
}
table.matrix { width: auto; margin: 0; }
table.matrix th, table.matrix td { text-align: center; vertical-align: middle; }
table.matrix th.row { text-align: left; min-width: 14rem; font-weight: 400; }
table.matrix th.gap { vertical-align: bottom; height: 15rem; padding: .3rem .1rem;
  font-weight: 400; }
table.matrix th.gap span { writing-mode: vertical-rl;
  max-height: 15rem; text-align: left; }
table.matrix th.topic { border-bottom: 2px solid #1b1b1b; }
table.matrix td.sum { font-size: .8rem; white-space: nowrap; }
table.matrix .first { border-left: 3px solid #1b1b1b; }
.mark { display: inline-block; width: 1.5rem; line-height: 1.5rem; text-align: center;
  font-weight: 700; box-sizing: border-box; }
.holds { background: #1b1b1b; color: #fff; -webkit-print-color-adjust: exact;
  print-color-adjust: exact; border: 2px solid #1b1b1b; line-height: 1.25rem; }
.may { border: 3px double #1b1b1b; line-height: 1.1rem; }
.leaves { border: 1px dotted #1b1b1b; border-radius: 50%; font-weight: 400; }
"""

_MARKS = {
    Grade.HOLDS: ("H", "holds"),
    Grade.MAY_HOLD: ("M", "may"),
    Grade.LEAVES_OUT: ("o", "leaves"),
}
_LEGEND = {
    Grade.HOLDS: "holds the guide back",
    Grade.MAY_HOLD: "may hold the guide back next, if what is found first asks for it",
    Grade.LEAVES_OUT: "leaves a procedure, a lamp, a step, a drawing or a limit out",
}
MOST_ROWS = 60
"""Rows of their own; how many lack what of the trucks beyond is counted in one more."""

_MOST_IN_A_ROW = 6
"""Numbers that are named in a row; of more it is said how many."""


def matrix_of(groups: Sequence[Group], topics: Sequence[Topic]) -> Iterator[str]:
    """Yield the matrix of *groups*, with the meaning of its marks; nothing if nothing is missing.

    Args:
        groups: Rows.
        topics: Columns.
    """
    if not topics:
        return
    yield "<h2>Trucks and gaps</h2>\n<p>"
    yield "<br>".join(f"{mark_of(grade)} {words}" for grade, words in _LEGEND.items())
    yield "</p>\n<p>Trucks that lack the same share a row.</p>"
    yield '<div class="wide" tabindex="0" role="region" aria-label="Trucks and gaps">'
    yield '<table class="matrix">\n<thead><tr><td></td>'
    yield from _topic_heads(topics)
    yield "</tr>\n<tr><th>Trucks</th>"
    yield from _gap_heads(topics)
    yield "</tr></thead>\n<tbody>"
    lacking = [group for group in groups if group.gaps]
    for group in lacking[:MOST_ROWS]:
        yield f'<tr><th class="row" scope="row">{group_name(group)}</th>'
        yield from _cells(group, topics)
        yield "</tr>"
    yield from _others(lacking[MOST_ROWS:], topics)
    yield "</tbody>\n</table>\n</div>"


def mark_of(grade: Grade) -> str:
    """Return the mark of *grade*: a letter in a frame."""
    letter, name = _MARKS[grade]
    return f'<span class="mark {name}" title="{escape(grade.value)}">{letter}</span>'


def name_of(name: str) -> str:
    """Return what people call the section or fact *name*, and its name in a spec."""
    section = section_of(name)
    around = "" if section in (name, "identity") else f"{_label(section)}: "
    return f"{around}{_label(name)} <code>{escape(name)}</code>"


def group_name(group: Group) -> str:
    """Return the numbers of the trucks of *group*, the first few of many."""
    count = len(group.units)
    counted = f"<b>{count:,}</b> trucks: " if count > 1 else ""
    listed = ", ".join(group.units[:_MOST_IN_A_ROW])
    more = f" and {count - _MOST_IN_A_ROW:,} more" if count > _MOST_IN_A_ROW else ""
    return counted + escape(listed + more)


def _topic_heads(topics: Sequence[Topic]) -> Iterator[str]:
    for topic in topics:
        heading = escape(topic_label(topic.name))
        span = len(topic.gaps)
        yield f'<th class="topic first" scope="colgroup" colspan="{span}">{heading}</th>'


def _gap_heads(topics: Sequence[Topic]) -> Iterator[str]:
    for topic in topics:
        for place, name in enumerate(topic.gaps):
            kinds = "gap" if place else "gap first"
            yield f'<th class="{kinds}" scope="col"><span>{_label(name)}</span></th>'


def _cells(group: Group, topics: Sequence[Topic]) -> Iterator[str]:
    for topic in topics:
        for place, name in enumerate(topic.gaps):
            gap = group.gaps.get(name)
            mark = mark_of(gap.grade) if gap else ""
            yield f"<td>{mark}</td>" if place else f'<td class="first">{mark}</td>'


def _others(groups: Sequence[Group], topics: Sequence[Topic]) -> Iterator[str]:
    """Yield one row for all *groups*: how many of their trucks lack what."""
    if not groups:
        return
    grades: dict[str, Grade] = {}
    lacking: Counter[str] = Counter()
    for group in groups:
        for name, gap in group.gaps.items():
            lacking[name] += len(group.units)
            grades[name] = min(grades.get(name, gap.grade), gap.grade, key=lambda each: each.rank)
    count = sum(len(group.units) for group in groups)
    yield f'<tr><th class="row" scope="row"><b>{count:,}</b> other trucks: how many lack it</th>'
    for topic in topics:
        for place, name in enumerate(topic.gaps):
            told = f"{mark_of(grades[name])}<br>{lacking[name]:,}" if name in grades else ""
            yield f'<td class="{"sum" if place else "sum first"}">{told}</td>'
    yield "</tr>"


def _label(name: str) -> str:
    return escape(label_of(name).rstrip("."))
