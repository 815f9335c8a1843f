"""What the page of what is missing must say.

Takes in the gaps of a fleet, truck by truck, and the forms that stand beside the page; gives out
blocks. Refuses to take over a count or a group: it counts the trucks anew.

In which order gaps are best closed is not reckoned again: the page is asked for its order, which
must name every gap once, and every count in it is held against the trucks.
"""

from collections import Counter
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from guidegen.gaps.catalog import PLACES
from guidegen.gaps.model import FleetGaps, Gap, Grade, UnitGaps
from guidegen.guide.counting_order import in_counting_order
from guidegen.proof.office.model import Block, code, counted, heads, lines, row
from guidegen.specs.equipment import EQUIPMENT_SECTIONS
from guidegen.specs.profile import FACTS, HOLDER_LABELS

TITLE = "What is missing"
FORMS = "forms"
"""Folder beside the page."""

_MOST_ROWS = 60
_MOST_IN_A_ROW = 6
_MOST_FORMS = 200
_GRADES = {
    Grade.HOLDS: ("H", "holds", "holds the guide back"),
    Grade.MAY_HOLD: (
        *("M", "may"),
        "may hold the guide back next, if what is found first asks for it",
    ),
    Grade.LEAVES_OUT: (
        *("o", "leaves"),
        "leaves a procedure, a lamp, a step, a drawing or a limit out",
    ),
}
_CLOSE = (
    "In this order, each gap that is closed frees as many trucks as it can. What is counted is "
    "sure, whatever is found; a truck can be free sooner."
)
_FOR_OTHERS = (
    f"For the form of any other truck: {code('guidegen missing UNIT --out FOLDER')}. It also tells "
    "what was recorded too long ago."
)


def missing_claims(
    fleet: FleetGaps, beside: Container[str], order: Sequence[str]
) -> tuple[Block, ...]:
    """Return what the page must say, in order.

    Args:
        fleet: With its gaps.
        beside: Paths of the files in the page's folder.
        order: Names of the gaps in the order in which the page closes them, as it was read.
    """
    groups = _groups(fleet)
    return (
        *_summary(fleet),
        *_take_along(groups, beside),
        *_first(fleet, order),
        *_matrix(groups),
        *_waiting(groups, fleet),
        *_left_out(fleet),
        *_values(fleet),
    )


def order_read(blocks: Sequence[Block]) -> tuple[str, ...]:
    """Return the names of the gaps in the order of the table that the page calls the first."""
    start = next((n for n, each in enumerate(blocks) if each == _CLOSE_FIRST), None)
    if start is None:
        return ()
    found = []
    for place in range(start, len(blocks)):
        if place > start and blocks[place].kind == "h2":
            break
        if blocks[place].kind == "tr" and place + 2 < len(blocks):
            name = blocks[place + 2].text.rpartition(" `")[2].removesuffix("`")
            if blocks[place + 2].kind == "td":
                found.append(name)
    return tuple(found)


_CLOSE_FIRST = Block("h2", "Close these first")


@dataclass(frozen=True, slots=True)
class _Group:
    """Trucks that lack the same."""

    units: tuple[UnitGaps, ...]
    gaps: Mapping[str, Gap]

    @property
    def is_held(self) -> bool:
        return any(gap.grade is Grade.HOLDS for gap in self.gaps.values())

    @property
    def numbers(self) -> tuple[str, ...]:
        return tuple(unit.number for unit in self.units)

    @property
    def name(self) -> str:
        named = ", ".join(self.numbers[:_MOST_IN_A_ROW])
        count = len(self.units)
        more = f" and {count - _MOST_IN_A_ROW:,} more" if count > _MOST_IN_A_ROW else ""
        return f"{count:,} trucks: {named}{more}" if count > 1 else named


def _groups(fleet: FleetGaps) -> tuple[_Group, ...]:
    alike: dict[tuple[object, ...], list[UnitGaps]] = {}
    for unit in fleet.units.values():
        said = tuple((g.name, g.grade) for g in unit.gaps if g.grade is not Grade.VALUE_ONLY)
        alike.setdefault((unit.has_other_faults, *sorted(said, key=str)), []).append(unit)
    groups = []
    for units in alike.values():
        ordered = tuple(sorted(units, key=lambda each: in_counting_order(each.number)))
        told = {g.name: g for g in units[0].gaps if g.grade is not Grade.VALUE_ONLY}
        groups.append(_Group(ordered, told))
    groups.sort(key=lambda g: (not g.is_held, -len(g.units), in_counting_order(g.numbers[0])))
    return tuple(groups)


def _summary(fleet: FleetGaps) -> Iterator[Block]:
    yield Block("h1", TITLE)
    held = sum(any(gap.grade is Grade.HOLDS for gap in unit.gaps) for unit in fleet.units.values())
    total = len(fleet.units) + len(fleet.not_read)
    if held:
        words = f"{held:,} of {total:,} trucks have no guide because of what is not on record."
        yield Block("p.failed", words)
    else:
        yield Block("p.proved", "No truck is held back by what is not on record.")
    faulty = [unit.number for unit in fleet.units.values() if unit.has_other_faults]
    check = code("guidegen check")
    if faulty:
        words = f"Other faults hold back {counted(faulty)}: closing gaps does not free these."
        yield Block("p", f"{words} {check} says what it is.")
    if fleet.not_read:
        words = f"Nothing can be said of {counted(fleet.not_read)}, whose files have faults."
        yield Block("p", f"{words} {check} says where.")


def _take_along(groups: Sequence[_Group], beside: Container[str]) -> Iterator[Block]:
    yield Block(
        "p",
        "What to look up, by yard and truck, to send to the shop: as a spreadsheet or as plain "
        "text.",
        ("missing.csv", "missing.txt"),
    )
    wait = [number for group in groups if group.is_held for number in group.numbers]
    forms = [each for each in wait if f"{FORMS}/{each}.pdf" in beside]
    if forms:
        shown, more = forms[:_MOST_FORMS], len(forms) - _MOST_FORMS
        others = f" and {more:,} more in the same folder" if more > 0 else ""
        words = f"A paper form to walk around the truck with: {', '.join(shown)}{others}."
        yield Block("p", words, tuple(f"{FORMS}/{each}.pdf" for each in shown))
    yield Block("p", _FOR_OTHERS)


def _first(fleet: FleetGaps, order: Sequence[str]) -> Iterator[Block]:
    lacking: dict[str, list[UnitGaps]] = {}
    gravest: dict[str, Grade] = {}
    for unit in fleet.units.values():
        if not unit.is_held_back:
            continue
        for gap in unit.gaps:
            if gap.grade in {Grade.HOLDS, Grade.MAY_HOLD}:
                lacking.setdefault(gap.name, []).append(unit)
                if gap.grade is Grade.HOLDS or gap.name not in gravest:
                    gravest[gap.name] = gap.grade
    if not lacking:
        return
    yield _CLOSE_FIRST
    yield Block("p", _CLOSE)
    yield from heads(
        *("", "Gap", "Trucks that lack it", "Models", "Frees alone"),
        *("Frees in this order", "Free by then"),
    )
    # What the page leaves out comes last, and is then missed.
    names = [
        *dict.fromkeys(n for n in order if n in lacking),
        *(n for n in lacking if n not in order),
    ]
    free, closed = 0, set[str]()
    models = Counter(unit.model for unit in fleet.units.values())
    for number, name in enumerate(names, start=1):
        closed.add(name)
        can_be_free = [unit for unit in lacking[name] if not unit.has_other_faults]
        freed = [unit.number for unit in can_be_free if unit.needed <= closed]
        alone = sum(len(unit.needed) == 1 for unit in can_be_free)
        free += len(freed)
        trucks = [unit.number for unit in lacking[name]]
        of_models = Counter(unit.model for unit in lacking[name])
        yield from row(
            Block("td", f"{number}"),
            Block("td", f"{_mark(gravest[name])} {_named(name)}"),
            Block("td", f"{len(trucks):,}: {counted(trucks)}"),
            Block("td", ", ".join(_of_model(m, n, models) for m, n in sorted(of_models.items()))),
            Block("td", f"{alone:,}"),
            Block("td", f"{len(freed):,}: {counted(freed) or 'none yet'}"),
            Block("td", f"{free:,}"),
        )


def _of_model(model: str, count: int, all_of: Mapping[str, int]) -> str:
    whole = "all " if count > 1 and count == all_of[model] else ""
    return f"{model} ({whole}{count:,})"


def _matrix(groups: Sequence[_Group]) -> Iterator[Block]:
    lacking = [group for group in groups if group.gaps]
    columns = sorted({name for group in lacking for name in group.gaps}, key=PLACES.__getitem__)
    if not columns:
        return
    yield Block("h2", "Trucks and gaps")
    yield Block("p", lines(f"{_mark(grade)} {said[2]}" for grade, said in _GRADES.items()))
    yield Block("p", "Trucks that lack the same share a row.")
    topics = [(topic, len(list(own))) for topic, own in groupby(columns, key=_topic)]
    yield from row(Block("td"), *(Block("th", _topic_label(topic)) for topic, _ in topics))
    yield from row(Block("th", "Trucks"), *(Block("th", _label(name)) for name in columns))
    for group in lacking[:_MOST_ROWS]:
        cells = (group.gaps.get(name) for name in columns)
        marks = (Block("td", _mark(gap.grade) if gap else "") for gap in cells)
        yield from row(Block("th", group.name), *marks)
    rest = lacking[_MOST_ROWS:]
    if rest:
        count = sum(len(group.units) for group in rest)
        yield from row(
            Block("th", f"{count:,} other trucks: how many lack it"),
            *(Block("td", _of_rest(name, rest)) for name in columns),
        )


def _of_rest(name: str, groups: Iterable[_Group]) -> str:
    lack = [group for group in groups if name in group.gaps]
    if not lack:
        return ""
    grade = min((group.gaps[name].grade for group in lack), key=list(Grade).index)
    return lines((_mark(grade), f"{sum(len(group.units) for group in lack):,}"))


def _waiting(groups: Sequence[_Group], fleet: FleetGaps) -> Iterator[Block]:
    held = [group for group in groups if group.is_held]
    if not held:
        return
    yield Block("h2", "What each truck waits for")
    yield Block("p", "All of these together are enough, whatever is found.")
    yield from heads("Trucks", "Gaps to close", "Asked for by")
    for group in held[:_MOST_ROWS]:
        needed = [g for g in group.gaps.values() if g.grade in {Grade.HOLDS, Grade.MAY_HOLD}]
        asked = dict.fromkeys(by for gap in needed for by in gap.asked_by)
        more = ", and other faults" if group.units[0].has_other_faults else ""
        yield from row(
            Block("td", f"{group.name}{more}"),
            Block("td", lines(f"{_mark(gap.grade)} {_named(gap.name)}" for gap in needed)),
            Block("td", _fold("; ".join(fleet.titles.get(by, by) for by in asked))),
        )
    others = sum(len(group.units) for group in held[_MOST_ROWS:])
    if others:
        yield from row(Block("td", f"{others:,} other trucks: see the list for the shop."))


def _left_out(fleet: FleetGaps) -> Iterator[Block]:
    count: Counter[str] = Counter()
    told: dict[str, dict[str, None]] = {}
    for unit in fleet.units.values():
        for gap in unit.gaps:
            if gap.grade is Grade.LEAVES_OUT:
                count[gap.name] += 1
                for out in gap.left_out:
                    title = fleet.titles.get(out.procedure, out.procedure)
                    words = _fold(f"{title} ({out.part})" if out.part else title)
                    told.setdefault(gap.name, {})[words] = None
    if not count:
        return
    yield Block("h2", "What guides are published without")
    yield from heads("Not on record", "Trucks", "Left out")
    for name in sorted(count, key=lambda each: (-count[each], each)):
        yield from row(
            Block("td", _named(name)),
            Block("td", f"{count[name]:,}"),
            Block("td", lines(told.get(name, ()))),
        )


def _values(fleet: FleetGaps) -> Iterator[Block]:
    lacking: dict[str, list[str]] = {}
    for unit in fleet.units.values():
        for gap in unit.gaps:
            if gap.grade is Grade.VALUE_ONLY:
                lacking.setdefault(gap.name, []).append(unit.number)
    if not lacking:
        return
    yield Block("h2", "Values that only the data page lacks")
    yield Block("p", "No procedure asks for these on these trucks. Many trucks have no such thing.")
    for name, numbers in lacking.items():
        yield Block("li", f"{_named(name)}: {counted(numbers)}")


def _mark(grade: Grade) -> str:
    letter, kind, _ = _GRADES[grade]
    return f"[[mark {kind}: {grade.value}: {letter}]]"


def _holder(name: str) -> str:
    return name if name in EQUIPMENT_SECTIONS else FACTS[name].section


def _topic(name: str) -> str:
    return _holder(name).partition(".")[0]


def _topic_label(topic: str) -> str:
    return "Identity" if topic == "identity" else HOLDER_LABELS[topic]


def _label(name: str) -> str:
    known = EQUIPMENT_SECTIONS.get(name)
    return _fold(known.label if known else FACTS[name].label).rstrip(".")


def _named(name: str) -> str:
    holder = _holder(name)
    around = "" if holder in {name, "identity"} else f"{_label(holder)}: "
    return f"{around}{_label(name)} {code(name)}"


def _fold(words: str) -> str:
    return " ".join(words.split())
