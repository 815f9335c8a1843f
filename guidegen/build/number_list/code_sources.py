"""Where the numbers of guidegen's own modules come from.

Takes in nothing; gives out each module whose numbers decide what is said of a truck, with its
sources. Refuses to speak for a rule of plausibility that has a page: the page does.
"""

from guidegen.build.number_list.constants import CodeSource
from guidegen.build.number_list.model import Ground
from guidegen.plausibility.fluids import standards
from guidegen.procedures import step_wording, typed_numbers
from guidegen.procedures.style import reading_grade
from guidegen.quantity import convert
from guidegen.round import positions
from guidegen.specs import vin
from guidegen.units import cords, derive

_NEC_TABLE = "NEC Table 400.5(A), as an appliance standard quotes it"
_NEC_NOTE = "informational note to NEC 210.19(A), as trade pages quote it: advice, no rule"
_AWG = "ASTM B258, as wire tables of the National Bureau of Standards follow it"
_PRACTICE = Ground.PRACTICE.value
_API = "announcements of the American Petroleum Institute, as the trade press prints them"

FORMULAS = (
    CodeSource(
        derive,
        _PRACTICE,
        Ground.PRACTICE,
        own={
            "NO_FILL_SHARE": (
                "29 CFR 1910.177(f), and CCOHS on split rims after it",
                Ground.NAMED,
            ),
        },
    ),
    CodeSource(
        cords,
        _AWG,
        Ground.SECONDARY,
        own={
            "AMPACITIES": (_NEC_TABLE, Ground.SECONDARY),
            "CONTINUOUS_SHARE": ("continuous loads in the NEC, stated from memory", Ground.MEMORY),
            "MOST_DROP": (_NEC_NOTE, Ground.SECONDARY),
            "RESISTIVITY": ("IEC 60028, as a page on the standard gives it", Ground.SECONDARY),
            "METRIC_SIZES": ("sizes of IEC 60228, stated from memory", Ground.MEMORY),
            "_PI": ("mathematics", Ground.COMPUTED),
            "_WIRES": ("the current flows out and back", Ground.MEANING),
        },
    ),
    CodeSource(vin, "49 CFR 565.15(c) Tables III and IV, and Table VII for the year", Ground.NAMED),
)
SHARED_BY_RULES = (
    CodeSource(
        standards,
        _API,
        Ground.SECONDARY,
        own={
            "_FROM_MEMORY": ("stated from memory", Ground.MEMORY),
            "WINTER_GRADES": ("SAE J300, as four tables of the trade agree", Ground.SECONDARY),
            "SUMMER_GRADES": ("SAE J300, as four tables of the trade agree", Ground.SECONDARY),
            "DOT_NUMBERS": ("FMVSS 116 S5.1, as tables of the trade print it", Ground.SECONDARY),
            "SILICONE": ("FMVSS 116 S5.1, as tables of the trade print it", Ground.SECONDARY),
        },
    ),
)
WRITING = (
    CodeSource(step_wording, "made here, for our own texts", Ground.HOUSE),
    CodeSource(typed_numbers, "made here, for our own texts", Ground.HOUSE),
    CodeSource(
        reading_grade,
        "US Navy 1975 (grade) and Flesch 1948 (ease), as a page on readability prints them",
        Ground.SECONDARY,
        is_deep=True,
        own={"_SYLLABLES_OF_A_VALUE": ("made here, for our own texts", Ground.HOUSE)},
    ),
)
ROUND = CodeSource(
    positions,
    "guesses; common practice, no source: they decide which way is shorter, and no guide prints "
    "them",
    Ground.PRACTICE,
    is_deep=True,
)
CONVERSION = CodeSource(
    convert,
    "NIST SP 811 (2008) B.7.2 for the digits that are kept; the rest is common practice, no source",
    Ground.PRACTICE,
)
