"""Long chapters on several pages."""

from hypothesis import given
from hypothesis import strategies as st
from sample_fleet import GUIDES, procedure

from guidegen.guide.leaves import leaf_of_procedures, leaves_of
from guidegen.guide.model import Chapter


def chapter_of(lengths: list[int]) -> Chapter:
    return Chapter(
        "on-the-road",
        tuple(
            procedure(f"p-{number}", f"Do number {number}", [f"{number} {'x' * length}."])
            for number, length in enumerate(lengths)
        ),
    )


@given(st.lists(st.integers(0, 9000), min_size=1, max_size=30))
def test_the_leaves_one_after_another_are_the_chapter(lengths: list[int]) -> None:
    chapter = chapter_of(lengths)
    leaves = leaves_of(chapter)
    assert tuple(each for leaf in leaves for each in leaf.procedures) == chapter.procedures
    assert all(leaf.procedures for leaf in leaves)
    assert [leaf.number for leaf in leaves] == list(range(1, len(leaves) + 1))
    assert {leaf.count for leaf in leaves} == {len(leaves)}


@given(st.lists(st.integers(100, 900), min_size=1, max_size=150))
def test_no_leaf_is_much_longer_than_a_page_may_be(lengths: list[int]) -> None:
    for leaf in leaves_of(chapter_of(lengths)):
        letters = sum(lengths[int(each.id.removeprefix("p-"))] for each in leaf.procedures)
        # Parted in the middle of no procedure: half of one at either end may stand over.
        assert letters <= 18000 + 900


def test_a_chapter_that_fits_on_one_page_has_its_own_name() -> None:
    (leaf,) = leaves_of(chapter_of([10, 20]))
    assert (leaf.id, leaf.chapter, leaf.count) == ("on-the-road", "on-the-road", 1)


def test_further_pages_are_called_after_the_chapter_and_their_number() -> None:
    leaves = leaves_of(chapter_of([9000] * 4))
    assert [leaf.id for leaf in leaves] == ["on-the-road", "on-the-road-2", "on-the-road-3"]


def test_what_has_stood_on_the_page_weighs_little() -> None:
    one = procedure("one", "Do one", ["x" * 15000])
    again = [procedure(f"p-{number}", f"Do {number}", ["x" * 15000]) for number in range(5)]
    assert len(leaves_of(Chapter("on-the-road", (one, *again)))) == 1


def test_every_procedure_of_a_guide_has_its_leaf() -> None:
    for guide in GUIDES:
        leaf_of = leaf_of_procedures(guide)
        for chapter in guide.chapters:
            for each in chapter.procedures:
                assert leaf_of[each.id].startswith(chapter.id)
