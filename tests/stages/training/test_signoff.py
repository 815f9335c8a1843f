"""The list that trainer and driver sign."""

from collections.abc import Mapping

from guidegen.differences.compare import compare_guides
from guidegen.guide.model import Caution, Guide
from guidegen.procedures.words import SIGNAL_DEFINITIONS
from guidegen.training.signoff import list_signoff


def test_every_procedure_stands_in_one_line_in_the_order_of_the_guide(guide: Guide) -> None:
    signoff = list_signoff(guide)
    expected = [
        (chapter.id, each.id, each.title)
        for chapter in guide.chapters
        for each in chapter.procedures
    ]
    actual = [
        (part.chapter, line.procedure, line.title) for part in signoff.parts for line in part.lines
    ]
    assert expected == actual


def test_a_line_names_the_signal_words_of_all_its_cautions_gravest_first(guide: Guide) -> None:
    order = list(SIGNAL_DEFINITIONS)
    lines = {line.procedure: line for part in list_signoff(guide).parts for line in part.lines}
    for chapter in guide.chapters:
        for procedure in chapter.procedures:
            found = [b.signal.value for b in procedure.blocks if isinstance(b, Caution)]
            listed = [
                signal.value for signal, count in lines[procedure.id].signals for _ in range(count)
            ]
            assert sorted(found, key=order.index) == listed


def test_a_driver_who_knows_another_truck_gets_the_differences(
    guides: Mapping[str, Guide],
) -> None:
    known, given = guides["T-17"], guides["E-02"]
    assert list_signoff(given).differences is None
    assert compare_guides(known, given) == list_signoff(given, known).differences
