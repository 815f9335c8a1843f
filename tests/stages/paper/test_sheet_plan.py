"""Cards are placed on sheets whole, once, apart from each other, and backs behind fronts."""

from collections import Counter
from decimal import Decimal
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.decks.sizes import PRINTABLE_MARGIN, SIDES, Side
from guidegen.finding import Findings
from guidegen.paper.rectangle import Rectangle
from guidegen.paper.sheet_grid import (
    MARK_GAP,
    MARK_LENGTH,
    NOTE_HEIGHT,
    lay_grid,
)
from guidegen.paper.sheet_plan import Sheet, Stack, plan_sheets
from guidegen.paper.sheet_rules import CARD_TOO_BIG_FOR_SHEET
from guidegen.paper.stock import STOCKS, Duplex, Printing, Stock, behind, turned_behind
from guidegen.paper.trim_marks import cut_marks, trim_marks

BLEED = Decimal(3)
MEASURES = st.decimals(20, 280, places=2, allow_nan=False)
ANY_SIDE = st.one_of(
    st.sampled_from(sorted(SIDES.values(), key=lambda side: side.id)),
    st.builds(Side, st.just("any"), MEASURES, MEASURES),
)
STACKS = st.lists(
    st.builds(
        Stack,
        name=st.just("card"),
        side=ANY_SIDE,
        bleed=st.decimals(0, 5, places=1, allow_nan=False),
        sides=st.integers(1, 20),
    ),
    min_size=1,
    max_size=5,
)
PRINTINGS = st.builds(
    Printing, st.sampled_from([STOCKS["letter"], STOCKS["a4"]]), st.sampled_from(Duplex)
)


def plan(stacks: list[Stack], printing: Printing) -> tuple[Sheet, ...]:
    return plan_sheets(stacks, printing, Findings())


def cut_sheets(stacks: list[Stack], printing: Printing) -> list[Sheet]:
    return [sheet for sheet in plan(stacks, printing) if not sheet.grid.fills_stock]


@given(STACKS, PRINTINGS)
def test_no_card_lies_on_another_and_no_bleed_either(
    stacks: list[Stack], printing: Printing
) -> None:
    for sheet in plan(stacks, printing):
        for face in sheet.faces:
            bled = [placement.trim.grown(sheet.grid.bleed) for placement in face]
            assert not [pair for pair in combinations(bled, 2) if pair[0].overlaps(pair[1])]


@given(STACKS, PRINTINGS)
def test_cards_and_marks_stay_off_the_edge_and_off_the_note(
    stacks: list[Stack], printing: Printing
) -> None:
    printable = printing.stock.area.grown(-PRINTABLE_MARGIN)
    # Above the strip at the foot, on which the note stands.
    room = Rectangle(
        printable.x, printable.y + NOTE_HEIGHT, printable.width, printable.height - NOTE_HEIGHT
    )
    for sheet in cut_sheets(stacks, printing):
        for face in sheet.cuts:
            for trim in face:
                assert trim.grown(sheet.grid.bleed).lies_within(room)
            for mark in trim_marks(face, sheet.grid.bleed):
                area = Rectangle(mark.x1, mark.y1, mark.x2 - mark.x1, mark.y2 - mark.y1)
                assert area.lies_within(room)


@given(STACKS, PRINTINGS)
def test_each_side_is_printed_once_or_its_card_is_reported(
    stacks: list[Stack], printing: Printing
) -> None:
    findings = Findings()
    sheets = plan_sheets(stacks, printing, findings)
    printed = Counter(
        (placement.leaf.stack, placement.page)
        for sheet in sheets
        for face in sheet.faces
        for placement in face
    )
    fit = [lay_grid(stack.side, stack.bleed, printing.stock) is not None for stack in stacks]
    assert printed == Counter(
        (number, page)
        for number, stack in enumerate(stacks)
        if fit[number]
        for page in range(stack.sides)
    )
    assert [finding.rule for finding in findings] == [CARD_TOO_BIG_FOR_SHEET] * fit.count(False)


@given(STACKS, PRINTINGS)
def test_each_card_lies_on_the_sheet_as_big_as_it_is(
    stacks: list[Stack], printing: Printing
) -> None:
    for sheet in plan(stacks, printing):
        for placement in (placement for face in sheet.faces for placement in face):
            side = stacks[placement.leaf.stack].side
            across, up = placement.trim.width, placement.trim.height
            lies = placement.rotated in (90, 270)
            assert ((up, across) if lies else (across, up)) == (side.width, side.height)


@given(STACKS, PRINTINGS)
def test_each_back_lies_exactly_behind_the_front_of_its_own_leaf(
    stacks: list[Stack], printing: Printing
) -> None:
    for sheet in plan(stacks, printing):
        if printing.duplex is Duplex.SIMPLEX:
            assert len(sheet.faces) == 1
            continue
        fronts, backs = sheet.faces
        by_leaf = {placement.leaf.number: placement for placement in fronts}
        for back in backs:
            front = by_leaf[back.leaf.number]
            assert back.trim == behind(front.trim, printing)
            assert back.page == front.page + 1
            assert back.leaf == front.leaf
        assert sheet.cuts[1] == tuple(behind(cut, printing) for cut in sheet.cuts[0])


@given(STACKS, PRINTINGS)
def test_fronts_are_odd_sides_and_a_last_odd_side_has_a_blank_back(
    stacks: list[Stack], printing: Printing
) -> None:
    if printing.duplex is Duplex.SIMPLEX:
        return
    for sheet in plan(stacks, printing):
        fronts, backs = sheet.faces
        assert all(front.page % 2 == 0 for front in fronts)
        without = {front.leaf for front in fronts} - {back.leaf for back in backs}
        assert all(leaf.pages == (stacks[leaf.stack].sides - 1,) for leaf in without)


@given(ANY_SIDE, st.sampled_from([STOCKS["letter"], STOCKS["a4"]]))
def test_no_sheet_has_room_for_one_more_column_or_row(side: Side, stock: Stock) -> None:
    grid = lay_grid(side, BLEED, stock)
    if grid is None or grid.fills_stock:
        return
    around = 2 * (PRINTABLE_MARGIN + MARK_LENGTH + MARK_GAP)
    wide = (grid.columns + 1) * (grid.width + 2 * BLEED) + around
    high = (grid.rows + 1) * (grid.height + 2 * BLEED) + around + 2 * NOTE_HEIGHT
    assert wide > stock.width
    assert high > stock.height


@pytest.mark.parametrize(
    ("size", "stock", "columns", "rows", "rotated"),
    [
        # Worked out by hand: 22 mm for margins and marks both ways, 16 mm more upright for the
        # note's strips, 6 mm more on each card for its bleed.
        ("pocket", "letter", 2, 4, 0),
        ("pocket", "a4", 2, 4, 0),
        ("4x6", "letter", 1, 2, 90),
        ("4x6", "a4", 1, 2, 90),
        ("a6", "letter", 1, 2, 90),
        ("a6", "a4", 1, 2, 90),
        ("half-letter", "letter", 1, 1, 0),
        ("half-letter", "a4", 1, 1, 0),
        ("a5", "letter", 1, 1, 0),
        ("a5", "a4", 1, 1, 0),
        ("letter", "letter", 1, 1, 0),
        ("a4", "a4", 1, 1, 0),
    ],
)
def test_as_many_cards_go_on_a_sheet_as_worked_out_by_hand(
    size: str, stock: str, columns: int, rows: int, rotated: int
) -> None:
    grid = lay_grid(SIDES[size], BLEED, STOCKS[stock])
    assert grid is not None
    assert (columns, rows, rotated) == (grid.columns, grid.rows, grid.rotated)


@pytest.mark.parametrize(("size", "stock"), [("a4", "letter"), ("letter", "a4")])
def test_a_card_that_is_bigger_than_the_sheet_is_reported_and_not_shrunk(
    size: str, stock: str
) -> None:
    findings = Findings()
    stack = Stack(name="T-17 air-brakes", side=SIDES[size], bleed=BLEED, sides=3)
    sheets = plan_sheets([stack], Printing(STOCKS[stock], Duplex.LONG), findings)
    assert sheets == ()
    (finding,) = findings
    assert finding.rule == CARD_TOO_BIG_FOR_SHEET
    assert finding.what == (
        f"`T-17 air-brakes` has the size `{size}`, which does not go on `{stock}` sheets "
        "together with its trim marks"
    )


def test_cards_of_one_size_share_a_sheet_and_others_do_not() -> None:
    sizes = ["pocket", "4x6", "pocket"]
    stacks = [Stack(name=size, side=SIDES[size], bleed=BLEED, sides=2) for size in sizes]
    sheets = plan(stacks, Printing(STOCKS["letter"], Duplex.SHORT))
    assert [[placement.leaf.stack for placement in sheet.faces[0]] for sheet in sheets] == [
        [0, 2],
        [1],
    ]


@pytest.mark.parametrize("duplex", [Duplex.LONG, Duplex.SHORT])
@pytest.mark.parametrize("rotated", [0, 90, 180, 270])
def test_the_top_of_a_back_lies_behind_the_top_of_its_front(rotated: int, duplex: Duplex) -> None:
    upward = {0: (0, 1), 90: (-1, 0), 180: (0, -1), 270: (1, 0)}
    x, y = upward[rotated]
    through_the_paper = (-x, y) if duplex is Duplex.LONG else (x, -y)
    assert through_the_paper == upward[turned_behind(rotated, duplex)]


@given(STACKS, PRINTINGS)
def test_every_cut_has_a_mark_at_both_ends_that_touches_no_bleed(
    stacks: list[Stack], printing: Printing
) -> None:
    for sheet in cut_sheets(stacks, printing):
        for cuts in sheet.cuts:
            marks = trim_marks(cuts, sheet.grid.bleed)
            upright = Counter(mark.x1 for mark in marks if mark.x1 == mark.x2)
            level = Counter(mark.y1 for mark in marks if mark.y1 == mark.y2)
            assert upright == dict.fromkeys((x for cut in cuts for x in (cut.x, cut.right)), 2)
            assert level == dict.fromkeys((y for cut in cuts for y in (cut.y, cut.top)), 2)
            for mark in marks:
                # Half a millimeter wide, so that touching counts as overlapping.
                drawn = Rectangle(mark.x1, mark.y1, mark.x2 - mark.x1, mark.y2 - mark.y1)
                fat = drawn.grown(MARK_GAP / 2)
                assert not [cut for cut in cuts if fat.overlaps(cut.grown(sheet.grid.bleed))]


@pytest.mark.parametrize(
    ("size", "stock", "rows"),
    [("half-letter", "letter", 2), ("a5", "a4", 2), ("half-letter", "a4", 1), ("a5", "letter", 1)],
)
def test_two_sides_without_bleed_fill_a_sheet_of_twice_their_size(
    size: str, stock: str, rows: int
) -> None:
    # 2 x 5.5 in are 11 in; 2 x 148 mm are 296 of 297 mm.
    grid = lay_grid(SIDES[size], BLEED, STOCKS[stock], PRINTABLE_MARGIN)
    assert grid is not None
    assert (grid.columns, grid.rows, grid.is_shared) == (1, rows, rows > 1)


@pytest.mark.parametrize("duplex", list(Duplex))
@pytest.mark.parametrize(("size", "stock"), [("half-letter", "letter"), ("a5", "a4")])
def test_a_cut_that_two_cards_share_is_marked_on_itself_at_both_ends(
    size: str, stock: str, duplex: Duplex
) -> None:
    printing = Printing(STOCKS[stock], duplex)
    stack = Stack(name=size, side=SIDES[size], bleed=BLEED, free=PRINTABLE_MARGIN, sides=3)
    for sheet in plan([stack], printing):
        for cuts in sheet.cuts:
            marks = cut_marks(cuts, printing.stock.area)
            middle = printing.stock.height / 2
            edges = {edge for cut in cuts for edge in (cut.y, cut.top)}
            nearest = min(edges, key=lambda edge: abs(edge - middle))
            assert [(mark.y1, mark.y2) for mark in marks] == [(nearest, nearest)] * 2
            assert abs(nearest - middle) < Decimal("0.01")
            assert {mark.x1 for mark in marks} > {Decimal(0)}
            assert not [cut for cut in cuts if cut.y < nearest < cut.top]
