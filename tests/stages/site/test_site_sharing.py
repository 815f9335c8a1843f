"""What editions share, judged by drawing each of them alone."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from decimal import Decimal
from itertools import islice
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import FileSystemLoader
from sample_fleet import FLEET, SPAN

from guidegen.build.load import Loaded, load_fleet
from guidegen.build.project import open_project
from guidegen.finding import Findings
from guidegen.guide.model import STAMPED
from guidegen.quantity.model import Quantity, QuantityRange
from guidegen.site.draw import EditionDrawer, draw_edition
from guidegen.site.frame import Frames
from guidegen.site.framing import Framer, fill_frames
from guidegen.site.pack import PACK_FORMAT, Pack, PackedFile, unit_pack
from guidegen.site.recent import Recent
from guidegen.site.templates import PageTemplates
from guidegen.site.watched import GoneThrough, Watched
from guidegen.specs.fields import ChoiceField, Value
from guidegen.units.model import Fact, Layer, StatedIn

_FRAME = (
    "<title>@@guidegen-slot-title@@</title>@@guidegen-slot-number@@@@guidegen-slot-revision@@"
    "@@guidegen-slot-tools@@@@guidegen-slot-nav@@@@guidegen-slot-body@@"
)
FRAMES = Frames.split({"unit": _FRAME, "search": _FRAME, "fleet": "@@guidegen-slot-trucks@@"})


@pytest.fixture(scope="module")
def templates(project_root: Path) -> PageTemplates:
    return PageTemplates.load(FileSystemLoader(project_root / "site_templates" / "pages"))


@pytest.fixture(scope="module")
def demo(project_root: Path) -> Loaded:
    loaded = load_fleet(open_project(project_root), Findings())
    assert loaded is not None
    return loaded


def test_trucks_that_are_drawn_one_after_another_are_drawn_as_if_alone(
    demo: Loaded, templates: PageTemplates
) -> None:
    drawer, framer = EditionDrawer(FLEET, templates), Framer(FRAMES.of_units)
    for guide in (*demo.guides.values(), *demo.guides.values()):
        tour = demo.rounds.get(guide.edition)
        edition = drawer.draw(guide, tour)
        alone = draw_edition(guide, tour, FLEET, templates)
        assert edition == alone
        assert framer.fill(edition) == fill_frames(alone, FRAMES)


def test_a_truck_with_one_other_value_or_source_is_drawn_as_if_alone(
    demo: Loaded, templates: PageTemplates
) -> None:
    drawer = EditionDrawer(FLEET, templates)
    own = next(iter(demo.guides.values()))
    tour = demo.rounds.get(own.edition)
    first = drawer.draw(own, tour)
    changed = 0
    for fact in islice(_changed(own.facts), None, None, 2):
        guide = replace(own, facts={**own.facts, fact.name: fact})
        try:
            alone = draw_edition(guide, tour, FLEET, templates)
        except (KeyError, ValueError):
            continue  # what no truck can be, no figure shows
        edition = drawer.draw(guide, tour)
        assert edition == alone, fact.name
        # Its own page of all values tells the two apart.
        assert edition != first, fact.name
        changed += 1
    assert changed > len(own.facts) // 2
    assert drawer.draw(own, tour) == first


def test_pages_that_do_not_hang_on_a_value_are_the_very_same_for_both_values(
    demo: Loaded, templates: PageTemplates
) -> None:
    drawer, framer = EditionDrawer(FLEET, templates), Framer(FRAMES.of_units)
    own = next(guide for guide in demo.guides.values() if "identity.gvwr" in guide.facts)
    tour = demo.rounds.get(own.edition)
    fact = own.facts["identity.gvwr"]
    heavier = replace(fact, value=_other(fact), shown=())
    other = replace(own, facts={**own.facts, fact.name: heavier})
    files = [framer.fill(drawer.draw(each, tour)).pages for each in (own, other)]
    shared = [one.path for one, two in zip(*files, strict=True) if one is two]
    drawn_anew = [one.path for one, two in zip(*files, strict=True) if one is not two]
    assert "data.html" in drawn_anew
    assert {"search.html", "lamp-finder.html", "round.html"} <= set(shared)
    assert len(shared) > len(drawn_anew)


@given(st.lists(st.tuples(st.sampled_from("fk"), st.integers(0, 9))), st.integers(2, 6))
def test_what_is_kept_is_what_was_kept_last_and_never_more_than_asked_for(
    acts: list[tuple[str, int]], most: int
) -> None:
    recent: Recent[int, str] = Recent(most)
    all_of_them: dict[int, str] = {}
    for place, (act, key) in enumerate(acts):
        if act == "k":
            all_of_them[key] = recent.keep(key, f"{key} at {place}")
            assert recent.find(key) == all_of_them[key]
        else:
            assert recent.find(key) in (None, all_of_them.get(key))
        assert len(recent) <= most


def test_a_watched_table_tells_what_was_looked_up_and_refuses_to_be_gone_through() -> None:
    watched = Watched({"a": 1, "b": 2, "c": 3})
    assert (watched["a"], watched.get("x"), "b" in watched) == (1, None, True)
    assert watched.seen == ("a", "b", "x")
    with pytest.raises(GoneThrough):
        list(watched)


_NAMES = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=8)


@given(st.dictionaries(_NAMES, st.binary(max_size=9), max_size=5), st.sampled_from(["", "2"]))
def test_a_pack_is_the_json_that_the_standard_library_writes(
    files: Mapping[str, bytes], revision: str
) -> None:
    packed = [PackedFile.of(path, raw) for path, raw in files.items()]
    pack = Pack.of("", revision, packed)
    listed = {
        "format": PACK_FORMAT,
        "unit": "",
        "revision": revision or pack.id[:8],
        "id": pack.id,
        "bytes": sum(map(len, files.values())),
        "files": [
            {"path": each.path, "bytes": each.size, "sha256": each.sha256}
            for each in sorted(packed, key=lambda each: each.path)
        ],
    }
    assert pack.as_json().decode() == json.dumps(listed, ensure_ascii=False, indent=0) + "\n"


def test_the_pack_of_a_truck_leaves_out_cards_and_the_list_itself() -> None:
    files = {
        "T-17/index.html": b"1",
        "T-17/cards/a.pdf": b"2",
        "T-17/pack.json": b"3",
        "T-17/pack.json.html": b"4",
    }
    shared = [PackedFile.of("assets/a.css", b"5")]
    listed = json.loads(unit_pack("T-17", "2", files, shared))["files"]
    assert [each["path"] for each in listed] == [
        "T-17/index.html",
        "T-17/pack.json.html",
        "assets/a.css",
    ]


def _changed(facts: Mapping[str, Fact]) -> Iterator[Fact]:
    """Yield each of *facts* with another value, and some with another source."""
    for place, (name, fact) in enumerate(facts.items()):
        if name not in STAMPED:
            yield replace(fact, value=_other(fact), shown=())
            if place % 10 == 0:
                yield replace(fact, provenance=StatedIn(Layer.UNIT, SPAN, "another paper"))


def _other(fact: Fact) -> Value:  # noqa: PLR0911 -- one for each kind of value
    field = fact.field.field
    match fact.value:
        case bool(yes):
            return not yes
        case int(count):
            return count + 1
        case str(word):
            if isinstance(field, ChoiceField):
                return next(each for each in field.choices if each != word)
            return f"{word} B"
        case tuple(words):
            return words[1:] if len(words) > 1 else (*words, *words)
        case Quantity(amount=amount):
            return replace(fact.value, amount=amount + Decimal(1))
        case QuantityRange(low=low):
            return replace(fact.value, low=replace(low, amount=low.amount - Decimal("0.1")))
