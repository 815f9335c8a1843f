"""Any visible character of a page's body that is another, gone or too many is noticed."""

import re

from hand_made_site import hand_made_site
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.proof.fleet_claims import claims_of_fleet
from guidegen.proof.prove import prove_unit

SITE = hand_made_site()
FLEET = claims_of_fleet(
    SITE.guides,
    SITE.read,
    SITE.files,
    SITE.held_back,
    SITE.offer,
    rounds=SITE.rounds,
    quizzes=SITE.quizzes,
)
PAGES = sorted(path for path in SITE.files if re.match(r"(T-17|T-18|E-04)/.*\.html", path))

_BODY = re.compile(r"<div class=\"guide\".*</div>", re.DOTALL)
_SEEN = re.compile(r">([^<]+)<")
_ENTITY = re.compile(r"&[a-z#0-9]+;")


def seen_characters(page: str) -> list[int]:
    """Return where in *page* the characters stand that a driver sees in its body."""
    body = _BODY.search(page)
    assert body is not None
    places = []
    for text in _SEEN.finditer(page, body.start(), body.end()):
        hidden = {
            place for each in _ENTITY.finditer(text[1]) for place in range(each.start(), each.end())
        }
        places += [
            text.start(1) + place
            for place, character in enumerate(text[1])
            if place not in hidden and not character.isspace()
        ]
    return places


PLACES = {path: seen_characters(SITE.files[path].decode()) for path in PAGES}
CHARACTERS = st.sampled_from(
    "0123456789abcxyzABCXYZ.,-()%'\u00b0\u00b7\u2013\u2212\u200b\u00ad\u2011"
) | st.characters(exclude_categories=("Z", "C"), exclude_characters="<>&")


@given(data=st.data(), other=CHARACTERS, how=st.sampled_from(["other", "gone", "more"]))
@settings(max_examples=300, deadline=None)
def test_any_change_of_a_character_is_caught(data: st.DataObject, other: str, how: str) -> None:
    path = data.draw(st.sampled_from(PAGES))
    place = data.draw(st.sampled_from(PLACES[path]))
    page = SITE.files[path].decode()
    old = page[place]
    new = {"other": other, "gone": "", "more": old + other}[how]
    changed = page[:place] + new + page[place + 1 :]
    unit = path.partition("/")[0]

    verdict = prove_unit(SITE.guide(unit), {**SITE.of_unit(unit), path: changed.encode()}, FLEET)

    assert verdict.is_proved == (changed == page)


@given(path=st.sampled_from(PAGES), width=st.sampled_from([" ", "\n\t ", "&nbsp;", "\u2009"]))
@settings(deadline=None)
def test_the_width_of_white_space_is_free(path: str, width: str) -> None:
    page = SITE.files[path].decode()
    body = _BODY.search(page)
    assert body is not None
    changed = re.sub(r"(?<=>)[^<]+(?=<)", lambda text: text[0].replace(" ", width), body[0])
    unit = path.partition("/")[0]

    verdict = prove_unit(
        SITE.guide(unit),
        {**SITE.of_unit(unit), path: page.replace(body[0], changed).encode()},
        FLEET,
    )

    assert verdict.failures == ()
