"""Frames filled, and editions stamped."""

import html
import json
from dataclasses import replace
from pathlib import Path

import pytest
from jinja2 import FileSystemLoader
from sample_fleet import E_04, FLEET, SPAN, T_17, T_18
from sample_round import DIESEL_ROUND

from guidegen.site.draw import draw_edition
from guidegen.site.frame import FrameFault, Frames, split_frame
from guidegen.site.framing import StrayToken, fill_frames
from guidegen.site.model import Edition
from guidegen.site.stamp import WrongEdition, stamp
from guidegen.site.templates import PageTemplates
from guidegen.site.tokens import ReservedCharacter, source_token, value_token
from guidegen.units.model import Layer, StatedIn

UNIT_FRAME = (
    "<html><title>@@guidegen-slot-title@@</title><b>@@guidegen-slot-number@@</b>"
    "<i>@@guidegen-slot-revision@@</i><p>@@guidegen-slot-tools@@</p>"
    "<nav>@@guidegen-slot-nav@@</nav><main>@@guidegen-slot-body@@</main></html>"
)
FRAMES = Frames.split(
    {"unit": UNIT_FRAME, "search": UNIT_FRAME, "fleet": "@@guidegen-slot-trucks@@"}
)


@pytest.fixture(scope="module")
def edition(project_root: Path) -> Edition:
    loader = FileSystemLoader(project_root / "site_templates" / "pages")
    return draw_edition(T_17, DIESEL_ROUND, FLEET, PageTemplates.load(loader))


def test_a_page_is_its_frame_with_every_slot_filled(edition: Edition) -> None:
    page = stamp(fill_frames(edition, FRAMES), T_17)["T-17/air-brakes.html"].decode()
    assert page.startswith("<html><title>T-17 · Air brakes · Bluff County Haulage</title>")
    assert f"<b>T-17</b><i>{T_17.edition[:8]}</i><p><a href" in page
    assert "<nav><li><a href" in page
    assert page.endswith("</main></html>")
    assert "slot" not in page


def test_units_of_an_edition_differ_in_their_identity_only(edition: Edition) -> None:
    framed = fill_frames(edition, FRAMES)
    ours, theirs = stamp(framed, T_17), stamp(framed, T_18)
    assert [path.replace("T-17", "T-18") for path in ours] == list(theirs)
    for path, content in ours.items():
        text = content.decode()
        for own, other in (
            ("T-17", "T-18"),
            ("7Z9CHX9S1KBC00017", "7Z9CHX9S3KBC00018"),
            ("BLF 4417", "A&amp;B &#34;18&#34; &lt;x&gt;"),
            ("north-yard", "river-street"),
        ):
            text = text.replace(own, other)
        stamped = html.unescape(theirs[path.replace("T-17", "T-18")].decode())
        assert html.unescape(text) == stamped.replace('\\"', '"')


def test_what_a_plate_holds_is_escaped_in_html_and_in_json(edition: Edition) -> None:
    files = stamp(fill_frames(edition, FRAMES), T_18)
    assert b"A&amp;B &quot;18&quot; &lt;x&gt;" in files["T-18/index.html"]
    script = files["T-18/search-data.js"].decode()
    index = json.loads(script.removeprefix("window.guideSearch=").removesuffix(";\n"))
    walk = next(entry for entry in index["docs"] if entry["location"].endswith("#walk-around"))
    assert 'A&B "18" <x>' in walk["text"]
    assert index["docs"][0]["title"] == "T-18 Corvane HX-9"


def test_the_source_of_an_identity_value_is_the_units_own(edition: Edition) -> None:
    vin = T_18.facts["identity.vin"]
    other = replace(vin, provenance=StatedIn(Layer.UNIT, SPAN, "door frame, 3 May"))
    guide = replace(T_18, facts={**T_18.facts, "identity.vin": other})
    framed = fill_frames(edition, FRAMES)
    assert b"door frame, 3 May" in stamp(framed, guide)["T-18/data.html"]
    assert b"door frame, 3 May" not in stamp(framed, T_17)["T-17/data.html"]


def test_a_guide_of_another_edition_is_refused(edition: Edition) -> None:
    framed = fill_frames(edition, FRAMES)
    with pytest.raises(WrongEdition, match="E-04"):
        stamp(framed, E_04)


def test_an_identity_with_a_tokens_character_is_refused(edition: Edition) -> None:
    plate = replace(T_17.facts["identity.plate"], value="\ue000identity.vin\ue001")
    guide = replace(T_17, facts={**T_17.facts, "identity.plate": plate})
    with pytest.raises(ReservedCharacter):
        stamp(fill_frames(edition, FRAMES), guide)


@pytest.mark.parametrize(
    "stray",
    [
        "\ue000identity.make\ue001",
        "\ue000identity.vin",
        "identity.vin\ue001",
        value_token("identity.vin").upper(),
    ],
)
def test_a_token_that_nothing_stands_for_is_refused(stray: str, edition: Edition) -> None:
    first, *others = edition.pages
    broken = replace(edition, pages=(replace(first, body=first.body + stray), *others))
    with pytest.raises(StrayToken, match=r"index\.html"):
        fill_frames(broken, FRAMES)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            "",
            "lacks body and lacks nav and lacks number and lacks revision and lacks title",
        ),
        (UNIT_FRAME.replace("@@guidegen-slot-nav@@", ""), "lacks nav"),
        (UNIT_FRAME + "@@guidegen-slot-foot@@", "unknown foot"),
        (UNIT_FRAME + '<h2 id="guidegen-slot-body">', "mangled"),
        (UNIT_FRAME + "@@GUIDEGEN-SLOT-BODY@@", "mangled"),
        (UNIT_FRAME + "@@Guidegen-slot-body", "mangled"),
    ],
)
def test_a_frame_with_a_slot_missing_unknown_or_mangled_is_refused(text: str, words: str) -> None:
    with pytest.raises(FrameFault, match=words):
        split_frame("unit", text)


def test_a_site_without_a_fleet_frame_is_refused() -> None:
    with pytest.raises(FrameFault, match="fleet frame lacks trucks"):
        Frames.split({"unit": UNIT_FRAME, "search": UNIT_FRAME})


def test_only_identity_facts_have_tokens() -> None:
    with pytest.raises(KeyError):
        value_token("identity.make")
    with pytest.raises(KeyError):
        source_token("identity.gvwr")
