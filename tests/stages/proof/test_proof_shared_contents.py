"""What is proved for one edition spares another the work, and hides nothing."""

import pickle
import random
import re
from dataclasses import dataclass, replace

import pytest
from hand_made_site import Site, hand_made_site

from guidegen.guide.model import Guide
from guidegen.proof import prove_file
from guidegen.proof.claims import source_words
from guidegen.proof.fleet_claims import FleetClaims, claims_of_fleet, claims_of_site
from guidegen.proof.foreign import identities_of
from guidegen.proof.model import UnitVerdict
from guidegen.proof.prove import conclude, prove_unit
from guidegen.proof.prove_file import FileProving
from guidegen.proof.prove_page import Subject
from guidegen.proof.unit_record import UnitRecord, ids_of, record_of
from guidegen.proof.words_held import may_be_held
from guidegen.quantity.model import Quantity
from guidegen.units.model import StatedIn

SITE = hand_made_site()
EDITION = "0123456789ab"
IDENTITY = {"number": "T-19", "vin": "1M8GDM9AXKP042788", "plate": "BLF 7001"}
SHARED = (
    "before-the-day.html",
    "air-brakes.html",
    "warning-lamps.html",
    "search.html",
    "search-data.js",
)


@dataclass(frozen=True, slots=True)
class Both:
    """The site with one more truck, of an edition of its own."""

    site: Site
    new: Guide

    def fleet(self) -> FleetClaims:
        return claims_of_fleet(
            self.site.guides,
            self.site.read,
            self.site.files,
            self.site.held_back,
            SITE.offer,
            rounds=self.site.rounds,
            quizzes=self.site.quizzes,
        )

    def prove(self, *, after_another: bool = True) -> set[tuple[str, str]]:
        """Return rules and pages of the failures on the pages that both editions can share."""
        fleet = self.fleet()
        if after_another:
            assert prove_unit(SITE.guide("T-17"), SITE.of_unit("T-17"), fleet).is_proved
        verdict = prove_unit(self.new, self.site.of_unit("T-19"), fleet)
        pages = ((each.rule.name, each.page.removeprefix("T-19/")) for each in verdict.failures)
        return {(rule, page) for rule, page in pages if page in SHARED or page == "data.html"}


def both() -> Both:
    old = SITE.guide("T-18")
    facts = {
        name: replace(fact, value=IDENTITY.get(name.removeprefix("identity."), fact.value))
        for name, fact in old.facts.items()
    }
    new = replace(old, number="T-19", facts=facts, edition=EDITION)
    changes = [(old.edition, EDITION), (old.edition[:8], EDITION[:8]), ("T-18", "T-19")]
    changes += [
        (str(old.facts[name].value), str(facts[name].value))
        for name in ("identity.vin", "identity.plate")
    ]
    files = dict(SITE.files)
    for path, raw in SITE.of_unit("T-18").items():
        text = raw.decode("latin-1")  # a photo is no text, and stays as it is
        for before, after in changes:
            text = text.replace(before, after)
        files[path.replace("T-18", "T-19")] = text.encode("latin-1")
    site = replace(
        SITE,
        guides=(*SITE.guides, new),
        files=files,
        rounds={**SITE.rounds, EDITION: SITE.rounds[old.edition]},
        quizzes={**SITE.quizzes, EDITION: SITE.quizzes[old.edition]},
    )
    return Both(site, new)


BOTH = both()


def changed(path: str, old: str, new: str) -> Both:
    text = BOTH.site.files[f"T-19/{path}"].decode()
    assert old in text
    site = BOTH.site.changed(f"T-19/{path}", text.replace(old, new, 1).encode())
    return Both(site, BOTH.new)


def test_a_page_is_proved_once_for_both_editions() -> None:
    fleet = BOTH.fleet()
    prove_unit(SITE.guide("T-17"), SITE.of_unit("T-17"), fleet)
    before = {key: len(kept) for key, kept in fleet.contents.items() if key[0] in SHARED}
    prove_unit(BOTH.new, BOTH.site.of_unit("T-19"), fleet)

    after = {key: len(kept) for key, kept in fleet.contents.items() if key[0] in SHARED}
    assert {path for path, _ in before} >= {*SHARED}
    assert after == before
    assert BOTH.prove() == set()


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("before-the-day.html", "110&nbsp;psi", "111&nbsp;psi"),
        ("before-the-day.html", "</body>", "<!-- T-17 --></body>"),
        ("before-the-day.html", f'data-edition="{EDITION}"', 'data-edition="ba9876543210"'),
        ("before-the-day.html", ">T-19<", ">T-18<"),
        ("before-the-day.html", "tire", "tyre"),
        ("air-brakes.html", "<title>T-19", "<title>T-17"),
        ("search-data.js", "Build up", "Build  down"),
        ("search-data.js", "says T-19", "says T-18"),
    ],
)
def test_a_byte_changed_in_the_other_edition_is_caught_as_if_it_were_the_first(
    path: str, old: str, new: str
) -> None:
    site = changed(path, old, new)

    found = site.prove()

    assert path in {page for _, page in found}
    assert found == site.prove(after_another=False)


def test_a_page_that_still_shows_the_value_of_the_other_edition_is_caught() -> None:
    name = "tires.steer.cold_pressure"
    own, other = BOTH.new.facts[name], BOTH.new.facts["tires.drive.cold_pressure"]
    assert other.value != own.value
    fact = replace(own, value=other.value, shown=other.shown)
    new = replace(BOTH.new, facts={**BOTH.new.facts, name: fact})
    site = Both(replace(BOTH.site, guides=(*SITE.guides, new)), new)

    found = site.prove()

    assert ("value-not-read-back", "before-the-day.html") in found
    assert "air-brakes.html" not in {page for _, page in found}


PRESSURE = "tires.steer.cold_pressure"
OF_IT = ("before-the-day.html", "data.html", "index.html", "search-data.js")
"""Pages that say it."""


def with_another_pressure() -> Both:
    """Return the site with another pressure for the front tires of the new truck, drawn as well."""
    own, other = BOTH.new.facts[PRESSURE], BOTH.new.facts["tires.drive.cold_pressure"]
    assert isinstance(own.provenance, StatedIn)
    source = replace(own.provenance, source="door sticker")
    fact = replace(own, value=other.value, shown=other.shown, provenance=source)
    files = dict(BOTH.site.files)
    for path in OF_IT:
        text = BOTH.site.files[f"T-19/{path}"].decode()
        text = text.replace("110&nbsp;psi (760&nbsp;kPa)", "100&nbsp;psi (690&nbsp;kPa)")
        text = text.replace("110 psi (760 kPa)", "100 psi (690 kPa)")
        words = re.escape(source_words(own).replace("'", "&#39;"))
        stated = f'(data-source="{PRESSURE}"[^>]*>){words}<'
        text = re.sub(stated, rf"\g<1>{source_words(fact)}<", text)
        files[f"T-19/{path}"] = text.encode()
    new = replace(BOTH.new, facts={**BOTH.new.facts, PRESSURE: fact})
    return Both(replace(BOTH.site, files=files, guides=(*SITE.guides, new)), new)


OTHER_VALUE = with_another_pressure()


def verdict_on(path: str, raw: bytes, fleet: FleetClaims) -> tuple[object, ...]:
    """Return counts and failures of one page of the new truck."""
    new = OTHER_VALUE.new
    verdict = FileProving(Subject(new, fleet.edition_of(new), fleet)).prove(path, raw)
    return verdict.counts, verdict.failures, verdict.targets, verdict.ids, verdict.words


def after_another(fleet: FleetClaims) -> FleetClaims:
    prove_unit(SITE.guide("T-17"), SITE.of_unit("T-17"), fleet)
    return fleet


@pytest.mark.parametrize("path", ["data.html", "index.html"])
def test_a_page_that_differs_in_values_and_sources_alone_is_not_proved_in_full_again(
    path: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    fleet, raw = after_another(OTHER_VALUE.fleet()), OTHER_VALUE.site.files[f"T-19/{path}"]
    alone = verdict_on(path, raw, OTHER_VALUE.fleet())
    monkeypatch.delattr(prove_file, "prove_by_claims")

    assert verdict_on(path, raw, fleet) == alone
    assert alone[1] == ()


@pytest.mark.parametrize("path", ["before-the-day.html", "data.html", "index.html"])
def test_whatever_letter_is_changed_on_such_a_page_is_found_as_on_the_first(path: str) -> None:
    fleet, raw = after_another(OTHER_VALUE.fleet()), OTHER_VALUE.site.files[f"T-19/{path}"]
    chance = random.Random(19)  # noqa: S311 -- no secret hangs on it
    values = [m.start(1) for m in re.finditer(rb'data-(?:fact|source)="[^>]*>([^<]+)', raw)]
    places = [*values, *(chance.randrange(len(raw)) for _ in range(60))]

    for place in places:
        letter = chance.choice(b"17T <>&a-\x00")
        faulty = raw[:place] + bytes([letter]) + raw[place + 1 :]
        fresh = replace(fleet, contents={}, _editions={})
        assert verdict_on(path, faulty, fleet) == verdict_on(path, faulty, fresh), place


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        ("before-the-day.html", "100&nbsp;psi (690", "110&nbsp;psi (760"),
        ("data.html", "door sticker", "door &amp; sticker"),
        ("data.html", "door sticker", "plate"),
        ("data.html", "100&nbsp;psi (690", "100&nbsp;psi (691"),
        ("index.html", "100&nbsp;psi", "<b hidden>100</b>&nbsp;psi"),
        ("index.html", "100&nbsp;psi (690&nbsp;kPa)<", "<"),
        ("index.html", "100&nbsp;psi", "100&nbsp;psi T-18"),
    ],
)
def test_a_wrong_value_on_such_a_page_is_caught(path: str, old: str, new: str) -> None:
    fleet = after_another(OTHER_VALUE.fleet())
    text = OTHER_VALUE.site.files[f"T-19/{path}"].decode()
    assert old in text
    faulty = text.replace(old, new, 1).encode()

    found = verdict_on(path, faulty, fleet)

    assert found[1]
    assert found == verdict_on(path, faulty, OTHER_VALUE.fleet())


def test_a_value_that_also_sets_a_timer_must_be_the_same() -> None:
    name = "law.air_build_up_time"
    own = BOTH.new.facts[name]
    assert isinstance(own.value, Quantity)
    value = replace(own.value, amount=own.value.amount + 1)
    fact = replace(own, value=value, shown=(value,))
    new = replace(BOTH.new, facts={**BOTH.new.facts, name: fact})
    text = BOTH.site.files["T-19/air-brakes.html"].decode()
    raw = text.replace("45&nbsp;s<", "46&nbsp;s<").encode()
    site = Both(BOTH.site.changed("T-19/air-brakes.html", raw), new)
    site = Both(replace(site.site, guides=(*SITE.guides, new)), new)

    found = site.prove()

    assert "air-brakes.html" in {page for _, page in found}
    assert found == site.prove(after_another=False)


def test_a_caution_that_only_the_new_edition_has_is_missed_on_the_page() -> None:
    chapters = BOTH.new.chapters
    first = chapters[0].procedures[0]
    more = replace(first, expect=(*first.expect, replace(first.title, id="one.more")))
    chapter = replace(chapters[0], procedures=(more, *chapters[0].procedures[1:]))
    new = replace(BOTH.new, chapters=(chapter, *chapters[1:]))
    site = Both(replace(BOTH.site, guides=(*SITE.guides, new)), new)

    found = site.prove()

    assert {page for _, page in found} >= {f"{chapter.id}.html", "search-data.js"}


@pytest.mark.parametrize("page", ["search.html", "data.html", "search-data.js"])
def test_a_page_of_another_edition_in_its_place_is_caught(page: str) -> None:
    raw = SITE.files[f"E-04/{page}"].decode()
    raw = raw.replace("E-04", "T-19").replace(SITE.guide("E-04").edition, EDITION)
    site = Both(BOTH.site.changed(f"T-19/{page}", raw.encode()), BOTH.new)

    assert page in {page for _, page in site.prove()}


def commented() -> Site:
    """Return the site with a name in every frame that is no truck's, or not yet."""
    files = {
        path: raw.replace(b"</body>", b"<!-- on K-99 --></body>")
        for path, raw in SITE.files.items()
    }
    return replace(SITE, files=files)


def test_a_truck_that_comes_later_is_told_from_the_words_that_were_kept() -> None:
    site = commented()
    fleet = Both(site, BOTH.new).fleet()
    verdict = prove_unit(site.guide("T-17"), site.of_unit("T-17"), fleet)
    later = [("K-99", "K-99"), ("T-99", "T-99"), ("T-99", "BLF 9999"), ("T-17", "T-17")]
    doubted = may_be_held(verdict.words, identities_of(later), "T-17")

    assert verdict.is_proved
    assert [str(each) for each in doubted] == ["K-99"]

    held_back = Both(replace(site, held_back=("K-99",)), BOTH.new).fleet()
    again = prove_unit(site.guide("T-17"), site.of_unit("T-17"), held_back)
    assert {each.rule.name for each in again.failures} == {"foreign-identity"}


def test_every_identity_that_is_found_in_a_file_is_found_in_its_words() -> None:
    fleet = Both(SITE, BOTH.new).fleet()
    verdict = prove_unit(SITE.guide("E-04"), SITE.of_unit("E-04"), fleet)
    named = may_be_held(verdict.words, fleet.identities, "E-04")

    # The page of trucks to pick names them, and so do the sheets.
    assert {str(each) for each in named} >= {"T-17", "T-18"}


def batch(packed: bytes, number: str) -> bytes:
    """Prove one unit as another process would: with nothing but what was sent to it."""
    fleet: FleetClaims = pickle.loads(packed)  # noqa: S301 -- of this test
    own = fleet.for_batch(rounds=SITE.rounds, quizzes=SITE.quizzes)
    return pickle.dumps(prove_unit(SITE.guide(number), SITE.of_unit(number), own))


def _unpacked(verdict: bytes) -> UnitVerdict:
    unpacked: UnitVerdict = pickle.loads(verdict)  # noqa: S301 -- of this test
    return unpacked


def test_batches_come_to_the_verdict_of_one_process() -> None:
    records = tuple(map(record_of, SITE.guides))
    ids = frozenset(id_ for guide in SITE.guides for id_ in ids_of(guide))
    outside = [path for path in SITE.files if path.partition("/")[0] not in ("T-17", "T-18")]
    fleet = claims_of_site(
        records, SITE.read, outside, ids=ids, held_back=SITE.held_back, offer=SITE.offer
    )
    packed = pickle.dumps(fleet)
    verdicts = [_unpacked(batch(packed, each.number)) for each in records]
    kept: tuple[UnitRecord, ...] = pickle.loads(pickle.dumps(records))  # noqa: S301 -- likewise

    verdict = conclude(kept, verdicts, SITE.read, fleet)

    whole = Both(SITE, BOTH.new).fleet()
    alone = [prove_unit(each, SITE.of_unit(each.number), whole) for each in SITE.guides]
    assert verdict.all_failures == ()
    assert list(verdict.units) == alone
    assert fleet.digest == whole.digest


def test_what_a_verdict_hangs_on_has_another_digest_when_it_changes() -> None:
    fleet = BOTH.fleet()
    style = next(path for path in fleet.sheets)

    assert replace(fleet, sheets={style: "p { color: red }"}).digest != fleet.digest
    assert replace(fleet, ids=fleet.ids | {"one.more"}).digest != fleet.digest
    assert replace(fleet, paths=fleet.paths | {"more.html"}).digest != fleet.digest
    assert fleet.for_batch().digest == fleet.digest


def test_no_more_is_kept_than_a_few_editions_need(monkeypatch: pytest.MonkeyPatch) -> None:
    other = BOTH.site.of_unit("T-19")
    expected = prove_unit(BOTH.new, other, BOTH.fleet())
    monkeypatch.setattr("guidegen.proof.contents._MOST", 5)
    fleet = BOTH.fleet()
    for _ in range(2):
        prove_unit(SITE.guide("T-17"), SITE.of_unit("T-17"), fleet)
        assert len(fleet.contents) == 5
        assert prove_unit(BOTH.new, other, fleet) == expected
        assert len(fleet.contents) == 5
