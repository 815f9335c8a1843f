"""The words that scripts show on the cab tablet, and those of timers.

Takes in nothing; gives out closed tables by key; a name in braces is filled in by the script.
Refuses to leave a word to a script: what stands here is put on the page and read back from it.
"""

from collections.abc import Mapping
from types import MappingProxyType

TIMER_LINES: Mapping[str, str] = MappingProxyType(
    {
        "time": "Timer:",
        "stopwatch.less_than": "Time limit: less than",
        "stopwatch.no_more_than": "Time limit: no more than",
        "stopwatch.at_least": "Time limit: at least",
        "stopwatch.usual": "Usual time:",
        "countdown.less_than": "fall of pressure less than",
        "countdown.no_more_than": "fall of pressure no more than",
        "truck_alone": "Truck alone:",
        "with_trailer": "With a trailer:",
        "no_limit": "No limit is on record here. The timer only measures.",
    }
)
"""What a timer says on the page of its chapter, with and without a script."""

TIMER_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "start": "Start",
        "stop": "Stop",
        "start_anew": "Start anew",
        "seconds": "{seconds} s",
        "minutes": "{minutes} min {seconds} s",
        "running": "The timer runs.",
        "stopped_early": "Stopped before the time was up. Nothing was measured.",
        "time_is_up": "Time is up.",
        "was_up": "The time was up {late} ago.",
        "was_up_unread": (
            "The time was up {late} ago, and a fall goes on. Measure again, with this page open."
        ),
        "time_kept": "{time}: the time was up.",
        "interrupted": "The timer was interrupted when this page was left. Measure again.",
        "slept": "The tablet slept, or its clock was set. The time is not sure. Measure again.",
        "within_time": "{value}: within the limit of {limit}.",
        "over_time": "{value}: over the limit of {limit}. Do what stands under “If not”.",
        "under_time": "{value}: short of {limit}. Do what stands under “If not”.",
        "usual_time": "{value}. Usual: {limit}.",
        "measured": "{value}. No limit is on record here: this was only measured.",
        "enter_fall": "How far did the needle fall? Take the gauge that fell more.",
        "in_measure": "Enter it in {measure}.",
        "which_rig": "What was tested?",
        "choose_rig": "First choose what was tested.",
        "erase": "Erase",
        "judge": "Enter",
        "not_a_number": "Enter a number, such as 2 or 1.5.",
        "less_than_in_order": "{rig} {value} in {time}: in order. It must be less than {limit}.",
        "less_than_too_much": (
            "{rig} {value} in {time}: too much. It must be less than {limit}. "
            "Do what stands under “If not”."
        ),
        "no_more_than_in_order": (
            "{rig} {value} in {time}: in order. It may be no more than {limit}."
        ),
        "no_more_than_too_much": (
            "{rig} {value} in {time}: too much. It may be no more than {limit}. "
            "Do what stands under “If not”."
        ),
        "step": "{title}, step {number}",
        "kept_aside": "Kept with the round.",
        "kept": "Kept with stop {number} of the round.",
        "not_kept": "No round is under way, so this is not kept.",
        "keeps_nothing": "This tablet could not keep it. Write it down.",
    }
)
"""What the script of timers shows."""

BACK_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "back_to_stop": "Back to the round, stop {number}",
        "back": "Back to the round",
        "awake": "The screen stays on.",
    }
)
"""What a script shows on pages of chapters while a round is under way."""

ROUND_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "begin": "Begin the round",
        "what_is_kept": (
            "Ticks and notes stay on this tablet. Nothing is sent. Write no names into notes."
        ),
        "ticks": "Result of stop {number}",
        "done": "Done, in order",
        "found": "Found something",
        "note": "What you found at stop {number}",
        "note_hint": "Stays on this tablet. Write no names.",
        "next": "Next stop",
        "progress": "{done} of {all}",
        "all_done": "All stops have a tick.",
        "summary": "Summary",
        "to_stops": "Back to the stops",
        "awake": "The screen stays on.",
        "keeps_nothing": (
            "This tablet keeps nothing: ticks and notes are gone when you leave or reload this "
            "page. Note what you find on paper."
        ),
        "begun_before": "This round was begun on {begun}. If it is not today's, begin anew.",
        "ended_before": "This round was ended on {ended}. Begin anew for the next one.",
        "guide_changed": (
            "The guide has changed since this round was begun. Its ticks may not fit the stops "
            "below, so they are not shown there."
        ),
        "old_notes": "Show the old notes",
        "hide_old_notes": "Hide the old notes",
        "anew": "Clear and begin anew",
        "sure": "Clear all ticks, notes and times of this round?",
        "yes_clear": "Yes, clear",
        "no_keep": "No, keep",
        "end": "End the round",
        "print": "Print",
        "no_report": (
            "This is no legal inspection report. Make the report that is prescribed for the "
            "vehicle, too."
        ),
        "not_sent": "Nothing of this has been sent to anybody.",
        "truck": "Truck",
        "revision": "Revision of the guide",
        "begun": "Begun",
        "ended": "Ended",
        "not_ended": "not ended",
        "stops_done": "Done, in order: {count}",
        "stops_found": "Found something: {count}",
        "stops_open": "Not done: {count}",
        "times": "Timed checks",
        "none": "none",
        "no_note": "no note",
    }
)
"""What the script of the inspection round shows."""
