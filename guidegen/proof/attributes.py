"""Attributes of a page's body that are neither marks nor addresses.

Takes in one attribute; gives out what is wrong with it. Refuses every attribute that is not on
a closed list, every spoken word that is no fixed word of the guide, and names of procedures
that do not apply.
"""

import re
from collections.abc import Collection

from guidegen.proof import rules
from guidegen.proof.claims import EditionClaims
from guidegen.proof.marks import NAMING_ATTRIBUTES, PLAIN_ATTRIBUTES, SPOKEN_ATTRIBUTES
from guidegen.proof.read_html import Attribute, AttributeJudge, Stray

_SHORT_WORDS = re.compile(r"[A-Za-z0-9 _.%/+-]{0,200}")
_NAMES = re.compile(r"[A-Za-z][A-Za-z0-9_.:-]*(?: [A-Za-z][A-Za-z0-9_.:-]*)*")
_SHAPES = re.compile(r"[A-Za-z0-9 ,.()#%:/-]{0,20000}")

_MAY_SPEAK = frozenset({"nav", "table", "img", "svg"})
"""Elements whose own words are no claim. On any other, words that are read aloud would take the
place of the words that are seen."""

_DRAWING_ATTRIBUTES = frozenset(
    {
        *("d", "points", "x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "rx", "ry"),
        *("fill", "fill-rule", "clip-rule", "fill-opacity", "stroke", "stroke-width"),
        *("font-size", "font-weight"),
        *("stroke-linecap", "stroke-linejoin", "stroke-dasharray", "transform", "viewbox"),
        *(
            "viewBox",
            "text-anchor",
            "preserveaspectratio",
            "xmlns",
            "xmlns:xlink",
            "version",
            "pathlength",
        ),
    }
)


_HANG_ON_EDITION = frozenset({*NAMING_ATTRIBUTES, *SPOKEN_ATTRIBUTES})


def accept_for(claims: EditionClaims, not_its_own: Collection[str]) -> AttributeJudge:
    """Return the judge of the attributes on the pages of one unit.

    Args:
        claims: Of the unit's edition.
        not_its_own: Ids of procedures, steps and cautions that this unit does not have.
    """

    def judge(attribute: Attribute) -> Stray | None:
        stray = _judge(attribute, claims, not_its_own)
        # Names and spoken words hang on the edition, and are asked for on each page anew: what a
        # page asks for decides which other edition's page can be taken for proved with it.
        if stray is None and attribute.name not in _HANG_ON_EDITION:
            claims.accepted.add(attribute)
        return stray

    return AttributeJudge(judge, claims.accepted)


def _judge(
    attribute: Attribute, claims: EditionClaims, not_its_own: Collection[str]
) -> Stray | None:
    tag, name, value = attribute.tag, attribute.name, attribute.value or ""
    if name in PLAIN_ATTRIBUTES:
        fits = _SHORT_WORDS.fullmatch(value) is not None
    elif name in NAMING_ATTRIBUTES:
        foreign = [each for each in value.split() if each in not_its_own]
        if foreign:
            return Stray(
                rules.STEP_THAT_DOES_NOT_APPLY, f'`{name}="{value}"` names what does not apply'
            )
        fits = _NAMES.fullmatch(value) is not None
    elif name in SPOKEN_ATTRIBUTES:
        fits = tag in _MAY_SPEAK and " ".join(value.split()) in claims.spoken
    else:
        drawn = tag == "svg" and name in _DRAWING_ATTRIBUTES
        fits = drawn and _SHAPES.fullmatch(value) is not None
    if fits:
        return None
    return Stray(rules.ATTRIBUTE_NOT_CLAIMED, f'nothing states `{name}="{value}"`')
