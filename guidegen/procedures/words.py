"""The closed lists that procedures choose from, with the words that guides print for them.

Takes in nothing; gives out chapters, stations, states and fixed labels.
Refuses synonyms: one name per thing.
"""

from types import MappingProxyType

CHAPTERS = MappingProxyType(
    {
        "before-the-day": "Before the day",
        "in-the-cab": "In the cab",
        "air-brakes": "Air brakes",
        "hydraulic-brakes": "Hydraulic brakes",
        "engine-warm": "With the engine warm",
        "on-the-road": "On the road",
        "end-of-day": "End of day and cold",
        "warning-lamps": "Warning lamps",
        "when-something-is-wrong": "When something is wrong",
        "house-rules": "House rules",
    }
)
"""In the order of every guide."""

HOUSE_RULES = "house-rules"
"""Chapter of what a fleet says in its own words."""

STATIONS = MappingProxyType(
    {
        "cab": "in the driver's seat",
        "front": "in front of the truck",
        "left_front": "at the left front",
        "right_front": "at the right front",
        "engine": "at the engine",
        "left_side": "on the left side",
        "right_side": "on the right side",
        "left_rear": "at the left rear",
        "right_rear": "at the right rear",
        "rear": "behind the truck",
        "around": "around the truck",
        "outlet": "at the outlet or charger",
        "pump": "at the fuel or DEF pump",
    }
)

STATES = MappingProxyType(
    {
        "ground": MappingProxyType(
            {"level": "on level ground", "bare": "on bare ground, outdoors"}
        ),
        "parking_brake": MappingProxyType(
            {"set": "parking brake set", "released": "parking brake released"}
        ),
        "wheels": MappingProxyType({"chocked": "wheels chocked", "free": "wheel chocks away"}),
        "transmission": MappingProxyType(
            {"neutral": "transmission in neutral", "park": "transmission in park"}
        ),
        "engine": MappingProxyType(
            {
                "off_cold": "engine off and cold",
                "off_warm": "engine warm, then off",
                "off": "engine off",
                "idling": "engine idling",
                "idling_warm": "engine warm and idling",
                "running": "engine running",
            }
        ),
        "key": MappingProxyType({"out": "key out", "off": "key off", "on": "key on"}),
        "drive": MappingProxyType({"off": "drive system off", "ready": "ready to drive"}),
        "access": MappingProxyType(
            {"shut": "hood or cab down and latched", "open": "hood or cab open"}
        ),
        "truck": MappingProxyType({"stopped": "truck stopped", "moving": "truck moving"}),
        "charging": MappingProxyType({"unplugged": "charging cable unplugged"}),
        "air": MappingProxyType({"up": "air pressure up", "low": "air pressure low"}),
    }
)
"""Aspects of the truck's state, and what each can be; printed in this order."""

LAMP_ACTS = MappingProxyType(
    {
        "stop_now": "Stop now",
        "stop_soon": "Stop soon",
        "report": "Report it",
        "know": "Know what it tells you",
    }
)
"""What a lamp asks of the driver, gravest first."""

LAMP_COLORS = MappingProxyType(
    {
        "red": "red lamp",
        "amber": "amber lamp",
        "green": "green lamp",
        "blue": "blue lamp",
        "white": "white lamp",
    }
)
"""Colors of lamps, gravest first; general sense of ISO 2575, from memory."""

LAMPS_IN_GENERAL = MappingProxyType({"red": "red-lamp", "amber": "amber-lamp"})
"""Procedure for a lamp of a color that the driver finds nowhere, by color."""

LABELS = MappingProxyType(
    {
        "state": "State",
        "station": "Where",
        "steps": "Steps",
        "expect": "You should see",
        "if_not": "If not",
        "meaning": "What it means",
        "hazard": "Hazard",
        "consequence": "What can happen",
        "avoid": "How to avoid it",
        "contents": "On this page",
        "in_chapter": "In this chapter",
        "onward": "Go on to",
        "search": "Search",
        "to_round": "Round",
        "to_lamps": "Lamps",
        "all_procedures": "All procedures, A to Z",
        "chapters": "Chapters",
        "data": "Data",
        "key_numbers": "Key numbers",
        "identity": "This truck",
        "value": "Value",
        "source": "Source",
        "no_source": "no document named",
        "recorded": "recorded",
        "recorded_by": "by",
        "worked_out": "worked out from",
        "inherited": "from the model file",
        "own": "for this unit",
        "profile": "from the jurisdiction profile",
        "library": "from the library",
        "fleet": "from the fleet file",
        "not_fitted": "Not fitted",
        "fitted": "Fitted",
        "not_on_record": "Not on record",
        "edition": "Edition",
        "revision": "Revision",
        "revisions": "Revisions",
        "page_is": "This guide is",
        "draft": "draft",
        "not_released": "not released",
        "first_revision": "First revision",
        "of": "of",
        "continued": "continued:",
        "cards": "Cards to print",
        "symbols_differ": "The symbols in your truck can look different.",
        "checks_in_guide": "This card names the checks. Their cautions and steps are in the guide.",
        "checks_on_pages": "The cautions and steps of each check are on the page named beside it.",
        "quick_guide": "Quick guide",
        "table_of_contents": "Contents",
        "inspection_round": "Inspection round",
        "signal_words": "Signal words",
        "index": "Index",
        "page": "page",
        "all_trucks": "All trucks",
        "start": "Start",
        "differences": "If you know another truck",
        "known_truck": "If you know",
        "given_truck": "and are given",
        "pick_known": "Which truck do you know?",
        "no_known": "No truck is listed here. The fleet office can list those that drivers know.",
        "same_guide": "Same guide:",
        "same_guide_here": "Same guide as this truck:",
        "stands_for_edition": "Each truck here stands for all trucks with the same guide.",
        "no_substitute": "This sheet is no substitute for training on the truck.",
        "on_record_only": "It compares what is on record. Look at the truck yourself.",
        "no_differences": "Nothing on record differs but number, VIN, plate and yard.",
        "on": "On",
        "only_on": "Only on",
        "done_otherwise": "Done another way. Go by the whole procedure.",
        "other_order": "The steps come in another order.",
        "round": "Inspection round",
        "open_each": (
            "This list gives only the order. Open each check: its cautions and steps stand there."
        ),
        "premises": "This round takes for granted",
        "stops": "Stops in order",
        "lamp_finder": "A lamp is lit",
        "pick_color": "Which color is it?",
        "lamp_not_here": "If it is not here",
        "read_first": "Read there first",
        "why": "Why here",
        "quiz": "Quiz",
        "one_right": "One answer to each question is right.",
        "no_proof": "A quiz shows what you remember. It is no license and no proof of skill.",
        "nothing_kept": "Nothing that you choose is kept or sent.",
        "key": "Key",
        "question": "Question",
        "right_answer": "Right",
        "read_it": "Read it in the guide",
        "park_first": "Do not read while driving. Park first.",
        "handbook_first": "The owner's manual, local codes and qualified people come first.",
    }
)
"""Fixed words of the guide, by key."""

SIGNAL_DEFINITIONS = MappingProxyType(
    {
        "DANGER": "A hazard that will cause death or serious injury if you do not avoid it.",
        "WARNING": "A hazard that could cause death or serious injury if you do not avoid it.",
        "CAUTION": "A hazard that could cause minor or moderate injury if you do not avoid it.",
        "NOTICE": "Damage to the truck or the load. Not about injury.",
    }
)
"""After ANSI Z535.6; shown on the start page."""
