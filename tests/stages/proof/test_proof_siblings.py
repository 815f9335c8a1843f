"""What is proved for one unit spares the next of its edition the work, and hides nothing."""

import pytest
from hand_made_site import Site, hand_made_site
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.proof.fleet_claims import FleetClaims, claims_of_fleet
from guidegen.proof.model import UnitVerdict
from guidegen.proof.prove import prove_unit

SITE = hand_made_site()


def fleet_of(site: Site) -> FleetClaims:
    return claims_of_fleet(
        site.guides,
        site.read,
        site.files,
        site.held_back,
        site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )


def prove_second(site: Site, *, after_the_first: bool) -> UnitVerdict:
    fleet = fleet_of(site)
    if after_the_first:
        assert prove_unit(site.guide("T-17"), site.of_unit("T-17"), fleet).is_proved
    return prove_unit(site.guide("T-18"), site.of_unit("T-18"), fleet)


def test_the_second_unit_of_an_edition_finds_its_files_proved() -> None:
    fleet = fleet_of(SITE)
    first, second = (
        prove_unit(SITE.guide(number), SITE.of_unit(number), fleet) for number in ("T-17", "T-18")
    )
    edition = fleet.edition_of(SITE.guide("T-18"))

    # All but the page of trucks to pick, which is not the same for both.
    assert {path for path, *_ in edition.pieces} == {
        "index.html",
        "round.html",
        "before-the-day.html",
        "air-brakes.html",
        "lamp-finder.html",
        "warning-lamps.html",
        "data.html",
        "quiz.html",
        "search.html",
        "search-data.js",
        "from-E-04.html",
        "from-T-17.html",
    }
    assert second.counts.steps == first.counts.steps
    assert second.is_proved
    assert len(second.frames) == 12


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("index.html", "1J9RP1A36A1644345", "1M8GDM9AXKP042788"),
        ("index.html", "BLF 0918", "BLF 4417"),
        ("index.html", "BLF 0918", "BLF&nbsp;4417"),
        ("index.html", 'data-guide="T-18"', 'data-guide="T-17"'),
        ("index.html", "<title>T-18", "<title>T-17"),
        ("index.html", "<title>T-18", "<title>t-18"),
        ("data.html", "River Street", "North Yard"),
        ("data.html", ">T-18<", ">1J9RP1A36A1644345<"),
        ("data.html", "1J9RP1A36A1644345", "T-18"),
        ("before-the-day.html", ">T-18<", ">T-17<"),
        ("before-the-day.html", "110&nbsp;psi", "111&nbsp;psi"),
        ("air-brakes.html", "</body>", "<!-- T-17 --></body>"),
        ("air-brakes.html", "</body>", "<!-- t-17 --></body>"),
        ("air-brakes.html", "../assets/site.css", "../T-17/site.css"),
        ("differences.html", ">T-17<", ">E-04<"),
        ("differences.html", ">E-04<", ">T-18<"),
        ("differences.html", 'href="from-T-17.html"', 'href="from-E-04.html"'),
        ("from-E-04.html", ">E-04<", ">T-17<"),
        ("from-E-04.html", ">T-18<", ">E-04<"),
        ("from-E-04.html", "If you know E-04", "If you know T-17"),
        ("from-E-04.html", 'data-known="E-04"', 'data-known="T-17"'),
        ("from-E-04.html", "135&nbsp;psi", "136&nbsp;psi"),
        ("from-E-04.html", "</body>", "<!-- E-04 --></body>"),
        ("search-data.js", "T-18 Corvane", "T-17 Corvane"),
        ("search-data.js", "says T-18", "says T-17"),
    ],
)
def test_a_fault_in_the_second_is_caught_as_if_it_were_the_first(
    path: str, old: str, new: str
) -> None:
    text = SITE.files[f"T-18/{path}"].decode()
    assert old in text
    changed = SITE.changed(f"T-18/{path}", text.replace(old, new, 1).encode())

    alone = prove_second(changed, after_the_first=False)
    after = prove_second(changed, after_the_first=True)

    assert not after.is_proved
    assert after == alone


@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_any_change_in_the_second_is_judged_alike(data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(sorted(SITE.of_unit("T-18"))))
    raw = SITE.files[path]
    place = data.draw(st.integers(0, len(raw) - 1))
    piece = data.draw(
        st.sampled_from([b"", b"T-17", b"T-18", b"7", b" ", b"BLF 4417", b"North Yard"])
    )
    changed = SITE.changed(path, raw[:place] + piece + raw[place + 1 :])

    assert prove_second(changed, after_the_first=True) == prove_second(
        changed, after_the_first=False
    )


@pytest.mark.parametrize(
    ("path", "old", "new", "is_shared"),
    [
        ("index.html", "", "", True),
        ("search-data.js", "", "", True),
        ("search-data.js", "says T-17", "says T\\u002d17", False),
        ("search-data.js", "Build up the air", "Build up the air of T-17", False),
        ("index.html", "</footer>", "<p>T-17</p></footer>", False),
        ("index.html", "</footer>", "<p>t-17</p></footer>", False),
        ("index.html", "</footer>", '<p>x</p><!-- data-fact="identity.number">T-17< -->', False),
        ("index.html", 'href="data.html', 'href="../T-17/data.html', False),
        ("index.html", "BLF 4417", "BLF&nbsp;4417", False),
        ("index.html", "BLF 4417", "\ue000identity.plate\ue001", False),
    ],
)
def test_a_file_is_not_shared_whose_identity_stands_anywhere_else(
    path: str, old: str, new: str, *, is_shared: bool
) -> None:
    raw = SITE.files[f"T-17/{path}"].decode().replace(old, new, 1 if old else 0)
    site = SITE.changed(f"T-17/{path}", raw.encode())
    fleet = fleet_of(site)

    prove_unit(site.guide("T-17"), site.of_unit("T-17"), fleet)

    kept = {path for path, *_ in fleet.edition_of(site.guide("T-17")).pieces}
    assert (path in kept) == is_shared


def test_a_page_that_the_second_lacks_is_missed_though_its_links_were_proved() -> None:
    changed = SITE.changed("T-18/data.html", None)

    found = {each.rule.name for each in prove_second(changed, after_the_first=True).failures}

    assert found == {"page-missing", "link-broken"}
