"""Every kind of fault that is planted, by name."""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from hand_made_site import Site
from plants import (
    difference_faults,
    figure_faults,
    identity_faults,
    quiz_faults,
    round_faults,
    sight_faults,
    site_faults,
    text_faults,
    value_faults,
)
from plants.plant import Plant

Sow = Callable[[Site, str], Iterator[Plant]]
"""Yields faults of one kind in the site of one unit."""

KINDS: Mapping[str, Sow] = MappingProxyType(
    {
        sow.__name__: sow
        for sow in (
            value_faults.digits_changed,
            value_faults.values_exchanged,
            value_faults.marks_exchanged,
            value_faults.amounts_misprinted,
            value_faults.values_dropped,
            text_faults.words_changed,
            text_faults.fixed_words_changed,
            text_faults.cautions_dropped,
            text_faults.cautions_moved,
            text_faults.signals_changed,
            text_faults.symbols_changed,
            text_faults.steps_dropped,
            text_faults.steps_exchanged,
            text_faults.numbers_changed,
            text_faults.texts_added,
            text_faults.headings_exchanged,
            text_faults.stances_changed,
            text_faults.warnings_of_the_page_dropped,
            sight_faults.hidden_by_a_style_of_its_own,
            sight_faults.hidden_by_an_attribute,
            sight_faults.part_of_a_text_hidden,
            sight_faults.hidden_by_a_stylesheet,
            sight_faults.changed_by_a_stylesheet,
            sight_faults.hidden_by_a_style_element,
            figure_faults.figure_values_changed,
            figure_faults.figure_writing_moved,
            figure_faults.figure_shapes_changed,
            figure_faults.figures_dropped,
            figure_faults.figures_hidden,
            figure_faults.figures_hidden_by_a_stylesheet,
            figure_faults.figures_with_words_of_nobody,
            identity_faults.other_trucks_named,
            identity_faults.own_name_changed,
            identity_faults.files_of_other_trucks,
            identity_faults.frames_changed,
            site_faults.files_missing_or_too_many,
            site_faults.addresses_outside,
            site_faults.links_broken,
            site_faults.ids_changed,
            site_faults.contents_left_out,
            site_faults.data_rows_changed,
            site_faults.data_sections_changed,
            site_faults.search_changed,
            site_faults.search_entries_changed,
            site_faults.fleet_page_changed,
            site_faults.contents_changed,
            difference_faults.differences_dropped,
            difference_faults.differences_added,
            difference_faults.differences_exchanged,
            difference_faults.sides_exchanged,
            difference_faults.sides_untold,
            difference_faults.fittings_turned,
            difference_faults.known_values_changed,
            difference_faults.known_marks_exchanged,
            difference_faults.known_trucks_named_elsewhere,
            difference_faults.sheet_headings_changed,
            difference_faults.sheet_warnings_dropped,
            difference_faults.sheets_exchanged,
            difference_faults.pickers_changed,
            round_faults.stops_dropped,
            round_faults.stops_exchanged,
            round_faults.stops_changed,
            round_faults.stops_led_elsewhere,
            round_faults.waiting_cautions_changed,
            round_faults.round_labels_changed,
            round_faults.plans_changed,
            round_faults.plans_hidden,
            round_faults.ways_to_rounds_changed,
            round_faults.rounds_of_other_trucks,
            quiz_faults.questions_dropped,
            quiz_faults.answers_changed,
            quiz_faults.quoted_values_changed,
            quiz_faults.keys_changed,
            quiz_faults.quiz_labels_changed,
        )
    }
)
