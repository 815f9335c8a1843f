from dataclasses import replace

import pytest
from hand_made_site import E_04, T_17, T_18
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.foreign import find_foreign, gather_identities
from guidegen.proof.links import find_outside, judge_address, resolve_address, split_addresses

FLEET = gather_identities((each.facts for each in (T_17, T_18, E_04)), ("T-22",))


def found(text: str, own: str = "T-17") -> list[str]:
    return [str(each) for each in find_foreign(text.encode(), own, FLEET)]


@pytest.mark.parametrize(
    ("text", "identity"),
    [
        ("T-18", "T-18"),
        ("see t-18.", "T-18"),
        ("unit-T-18-x", "T-18"),
        ("../T-18/index.html", "T-18"),
        ("T\u201118", "T-18"),
        ("T\u221218", "T-18"),
        ("T-\u200b18", "T-18"),
        ("T&#45;18", "T-18"),
        ("T&hyphen;18", "T-18"),
        ("&#x54;-18", "T-18"),
        ("%54-18", "T-18"),
        ('"\\u0054-18"', "T-18"),
        ("<b>T-22</b>", "T-22"),
        ("1J9RP1A36A1644345", "1J9RP1A36A1644345"),
        ("vin=1j9rp1a36a1644345;", "1J9RP1A36A1644345"),
        ("BLF 0918", "BLF 0918"),
        ("blf&nbsp;0918", "BLF 0918"),
        ("BLF\n0918", "BLF 0918"),
        ('"BLF" "0918" "BLF"', "BLF 0918"),
        ('class="a" class="a" id="T-18" class="a"', "T-18"),
    ],
)
def test_another_truck_is_found_in_any_dress(text: str, identity: str) -> None:
    assert found(f"x {text} y") == [identity]


@pytest.mark.parametrize(
    "text",
    [
        *("T-17", "1M8GDM9AXKP042788", "BLF 4417", "T-180", "XT-18", "T18", "T 18", "18 T", "0918"),
        *(
            "BLF 09180",
            "0918 BLF",
            "1J9RP1A36A164434",
            'a="BLF" b="BLF" c="0918"',
            '<path d="M0 T-18 0"/>',
            "T_18",
        ),
    ],
)
def test_what_is_no_other_truck_is_let_through(text: str) -> None:
    assert found(f"x {text} y") == []


def test_the_own_identity_of_one_is_foreign_to_the_next() -> None:
    assert found("T-17 BLF 4417", own="T-18") == ["BLF 4417", "T-17"]


def test_a_drawing_does_not_cover_what_stands_beside_it() -> None:
    assert found('<path d="M0 T-18"/> T-18') == ["T-18"]


def test_what_was_clean_once_is_clean_for_its_words_only() -> None:
    assert found("T-19 T-20") == []
    assert found("T-19 T-18 T-20") == ["T-18"]
    assert found("T-18") == ["T-18"]


def numbered(number: str) -> Guide:
    fact = replace(E_04.facts["identity.number"], value=number)
    return replace(E_04, number=number, facts={"identity.number": fact})


def test_bare_numbers_and_words_are_said_not_to_be_told() -> None:
    fleet = [numbered(each).facts for each in ("17", "ABS", "H2", "A-1", "T-1")]

    identities = gather_identities(fleet)

    assert identities.untold == ("17", "ABS", "H2")


@given(st.integers(0, 4000), st.sampled_from(["", " ", "<b>", "-", '"', "/"]))
@settings(deadline=None)
def test_a_number_among_thousands_is_found(place: int, before: str) -> None:
    assert [str(each) for each in find_foreign(f"{before}K-{place:04} psi".encode(), "", MANY)] == [
        f"K-{place:04}"
    ]


MANY = gather_identities(numbered(f"K-{place:04}").facts for place in range(4001))

PATHS = frozenset({"index.html", "T-17/index.html", "T-17/a b.html", "assets/x.css"})


@pytest.mark.parametrize(
    "address",
    [
        *("index.html", "", "#top", "?q=1", "../index.html", "../assets/x.css?v=2#y", "a%20b.html"),
        *("tel:5550111", "mailto:a@b.example", "data:image/png;base64,AA==", " index.html "),
        "./index.html",
    ],
)
def test_an_address_within_the_site_is_followed(address: str) -> None:
    assert judge_address("T-17/index.html", address, PATHS) is None


@pytest.mark.parametrize(
    "address",
    [
        *("https://example.net/", "HTTP://example.net", "//example.net/x", "\\\\example.net\\x"),
        *("javascript:alert(1)", "ftp://x", "file:///etc/x", "blob:x", "/\\example.net"),
    ],
)
def test_an_address_of_another_origin_is_refused(address: str) -> None:
    stray = judge_address("T-17/index.html", address, PATHS)

    assert stray is not None
    assert stray.rule is rules.REQUEST_TO_OTHER_ORIGIN


@pytest.mark.parametrize(
    "address", ["x.html", "../../index.html", "/index.html", "..", "../assets/"]
)
def test_an_address_that_a_folder_does_not_hold_is_broken(address: str) -> None:
    stray = judge_address("T-17/index.html", address, PATHS)

    assert stray is not None
    assert stray.rule is rules.LINK_BROKEN


def test_addresses_are_resolved_from_the_page_that_they_stand_on() -> None:
    assert resolve_address("T-17/index.html", "a.html#b") == ("T-17/a.html", "b")
    assert resolve_address("T-17/index.html", "#b") == ("T-17/index.html", "b")
    assert resolve_address("index.html", "T-17/") == ("T-17/", "")
    assert list(split_addresses("srcset", "a.png 1x, b.png 2x")) == ["a.png", "b.png"]


def test_addresses_in_scripts_are_found_and_names_of_vocabularies_are_not() -> None:
    script = 'fetch("https://example.net/a?b"); var ns = "http://www.w3.org/2000/svg"'

    assert list(find_outside(script)) == ["https://example.net/a?b"]
