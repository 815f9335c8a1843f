from dataclasses import replace

import pytest
from hand_made_site import Site, hand_made_site
from sample_fleet import fact

from guidegen.guide.model import Chapter, FactRef, Guide, Text
from guidegen.proof import rules
from guidegen.proof.fleet_claims import claims_of_fleet
from guidegen.proof.model import Counts, Failure, FleetVerdict
from guidegen.proof.prove import prove_fleet, prove_unit
from guidegen.quantity.model import Quantity
from guidegen.units.model import Fact, Presence, SectionState


@pytest.fixture(scope="module")
def site() -> Site:
    return hand_made_site()


def prove(site: Site) -> FleetVerdict:
    return prove_fleet(
        site.guides,
        site.read,
        site.files,
        held_back=site.held_back,
        offer=site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )


def failures(site: Site) -> list[str]:
    return [each.rule.name for each in prove(site).all_failures]


def edited(site: Site, path: str, old: str, new: str) -> Site:
    text = site.files[path].decode()
    assert old in text
    return site.changed(path, text.replace(old, new, 1).encode())


def with_guide(site: Site, guide: Guide) -> Site:
    guides = tuple(guide if each.number == guide.number else each for each in site.guides)
    return replace(site, guides=guides)


def test_a_sound_site_is_proved(site: Site) -> None:
    verdict = prove(site)

    assert verdict.all_failures == ()
    assert verdict.is_proved


def test_everything_that_was_read_back_is_counted(site: Site) -> None:
    units = {unit.unit: unit.counts for unit in prove(site).units}

    # Counted by hand in the pages of E-04. Values: ten rows, three names of the truck on the start
    # page, five in texts and the same five in the data of the search. Fixed words: on the start
    # page 22, in the chapters 9, 19 and 10, in the lamp finder 17, on the search page 8, on the
    # data page 35, in each of the nine navigations 9 and in the bar over it 3. On the page of
    # trucks to pick 4 values and 5 fixed words, on the sheet 55 and 125.
    assert units["E-04"] == Counts(
        pages=10,
        procedures=5,
        steps=7,
        cautions=2,
        values=10 + 3 + 5 + 5 + 4 + 55,
        labels=22 + 9 + 19 + 10 + 17 + 8 + 35 + 9 * (9 + 3) + 5 + 125,
        differences=22,
        lamps=3,
    )
    # The page of trucks to pick of T-18 names T-17 too, and T-18 has the sheet from T-17.
    more = Counts(pages=1, values=4 + 2, labels=7 + (11 + 4) - 1)
    assert units["T-17"] + more == units["T-18"]
    # Counted by hand in the round of T-17, which the electric truck has none of.
    assert [units[number].stops for number in ("T-17", "T-18", "E-04")] == [4, 4, 0]
    # Likewise in its quiz.
    assert [units[number].questions for number in ("T-17", "T-18", "E-04")] == [4, 4, 0]
    assert sum(units.values(), Counts()) == prove(site).counts


def test_units_are_proved_in_any_order_and_reported_in_that_of_the_guides(site: Site) -> None:
    turned = replace(site, guides=site.guides[::-1])

    assert [unit.unit for unit in prove(turned).units] == ["E-04", "T-18", "T-17"]
    assert prove(turned).counts == prove(site).counts


def test_guides_are_handed_on_one_by_one_as_they_are_proved(site: Site) -> None:
    seen: list[str] = []

    def watch(guides: object) -> list[Guide]:
        assert isinstance(guides, list)
        seen.extend(guide.number for guide in guides)
        return guides

    prove_fleet(
        site.guides, site.read, site.files, held_back=site.held_back, offer=site.offer, watch=watch
    )

    assert sorted(seen) == ["E-04", "T-17", "T-18"]


def test_a_failure_names_the_place_in_the_spec_and_the_place_on_the_page(site: Site) -> None:
    broken = edited(site, "T-17/air-brakes.html", "135&nbsp;psi (930", "136&nbsp;psi (930")

    (failure,) = prove(broken).all_failures

    assert failure.rule is rules.VALUE_NOT_READ_BACK
    assert failure.place == "specs/units/sample.yml:1:1"
    assert failure.mark == 'data-text="air-build-up.steps.step-2" data-fact="brakes.air.cut_out"'
    assert failure.what == (
        "reads `136 psi (930 kPa)` for `brakes.air.cut_out`, which reads back as another amount: "
        "`136 psi`"
    )


def test_a_failure_is_a_finding_that_holds_its_unit_back(site: Site) -> None:
    broken = edited(site, "T-17/air-brakes.html", "It can kill you.", "It can harm you.")

    finding = prove(broken).all_failures[0].as_finding()

    assert finding.is_error
    assert finding.unit == "T-17"
    assert finding.where == "specs/units/sample.yml:1:1"
    assert finding.what == (
        'T-17/air-brakes.html, data-text="air-build-up.cautions.caution-2.consequence": reads '
        "`It can harm you.` and not `It can kill you.`"
    )


def test_a_finding_without_a_place_in_the_spec_stands_at_the_page() -> None:
    failure = Failure(rules.TITLE_DIFFERS, "T-17", "T-17/index.html", "is `x`", "repair it")

    assert failure.as_finding().where == "T-17/index.html"
    assert failure.as_finding().what == "is `x`"


def test_pages_are_told_apart_from_pages_of_a_guide_that_has_another_step(site: Site) -> None:
    guide = site.guide("E-04")
    procedure = guide.chapters[0].procedures[0]
    without = replace(procedure, blocks=procedure.blocks[1:])
    changed = replace(guide, chapters=(replace(guide.chapters[0], procedures=(without,)),))

    found = set(failures(with_guide(site, changed)))

    assert "step-that-does-not-apply" in found
    assert "page-too-many" in found


def test_a_chapter_that_the_guide_has_and_the_site_lacks_is_missing(site: Site) -> None:
    guide = site.guide("E-04")
    more = replace(guide.chapters[0], id="on-the-road")

    found = set(failures(with_guide(site, replace(guide, chapters=(*guide.chapters, more)))))

    assert {"page-missing", "contents-differ", "search-entry-missing"} <= found


def test_that_a_device_is_not_fitted_is_not_taken_for_not_on_record(site: Site) -> None:
    guide = site.guide("E-04")
    states = {**guide.sections, "engine": SectionState(Presence.NOT_ON_RECORD, None)}

    found = prove(with_guide(site, replace(guide, sections=states))).all_failures

    assert [each.rule.name for each in found if each.page == "E-04/data.html"] == [
        "fitting-differs"
    ]


def test_parts_of_a_thing_that_is_not_fitted_may_be_listed_and_need_not(site: Site) -> None:
    listed = edited(
        site,
        "E-04/data.html",
        "</ul>\n</div>",
        '<li data-absent="aftertreatment.parked_regeneration">Parked regeneration, started by the '
        "driver</li></ul>\n</div>",
    )

    assert failures(site) == failures(listed) == []


def converted(site: Site, shown: str) -> Site:
    """Let the guide and all files say another second amount for the cut-out of 135 psi."""
    guides = []
    for guide in site.guides:
        found = guide.facts.get("brakes.air.cut_out")
        if found is None:
            guides.append(guide)
            continue
        second = fact("brakes.air.cut_out", shown).value
        assert isinstance(second, Quantity)
        other = replace(found, shown=(found.shown[0], second))
        guides.append(replace(guide, facts={**guide.facts, other.name: other}))
    pairs = (("930&nbsp;kPa", shown.replace(" ", "&nbsp;")), ("930\\u00a0kPa", shown))
    files = dict(site.files)
    for old, new in pairs:
        files = {path: raw.replace(old.encode(), new.encode()) for path, raw in files.items()}
    return replace(site, guides=tuple(guides), files=files)


def test_a_conversion_that_guide_and_pages_agree_on_is_reckoned_again(site: Site) -> None:
    # 135 psi are 930.79 kPa by the definitions of pound, inch and standard gravity.
    assert failures(converted(site, "931 kPa")) == []
    assert set(failures(converted(site, "940 kPa"))) == {"value-converted-wrongly"}
    assert set(failures(converted(site, "903 kPa"))) == {"value-converted-wrongly"}


def test_a_title_with_a_value_is_read_back_wherever_it_stands(site: Site) -> None:
    broken = edited(
        site,
        "T-17/before-the-day.html",
        'data-procedure-link="tire-check">Check the tires at 110',
        'data-procedure-link="tire-check">Check the tires at 115',
    )

    assert failures(broken) == ["value-not-read-back"]


def test_an_edition_is_looked_at_and_not_believed(site: Site) -> None:
    # Two guides under one fingerprint that differ: the second is held against its own words.
    guide = site.guide("T-18")
    title = replace(guide.chapters[1].procedures[0].title, parts=(FactRef("identity.number"),))
    assert isinstance(title, Text)
    other = replace(guide.chapters[1].procedures[0], title=title)
    chapters = (guide.chapters[0], Chapter("air-brakes", (other,)), *guide.chapters[2:])
    changed = replace(guide, chapters=chapters)
    assert changed.edition == site.guide("T-17").edition

    found = {
        (failure.unit, failure.rule.name)
        for failure in prove(with_guide(site, changed)).all_failures
        if "/from-" not in failure.page
    }

    # Its quiz was made of the other guide, and its title stands elsewhere in the alphabet.
    assert found == {
        ("T-18", "contents-differ"),
        ("T-18", "text-not-read-back"),
        ("T-18", "identity-differs"),
        ("T-18", "question-unsound"),
    }


def test_one_unit_is_proved_without_the_files_of_others(site: Site) -> None:
    fleet = claims_of_fleet(
        site.guides,
        site.read,
        site.files,
        site.held_back,
        site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )

    verdict = prove_unit(site.guide("E-04"), site.of_unit("E-04"), fleet)

    assert verdict.is_proved
    assert verdict.edition == site.guide("E-04").edition
    assert fleet.unchecked


def test_a_frame_is_held_against_that_of_most_trucks(site: Site) -> None:
    broken = edited(site, "E-04/data.html", "Road service", "Road service of E")

    (failure,) = prove(broken).all_failures

    assert (failure.rule, failure.unit) == (rules.FRAME_DIFFERS, "E-04")


def test_a_number_in_an_oil_grade_is_no_other_truck(site: Site) -> None:
    # The oil of T-17 is of category CK-4, and there is a truck of that number.
    other = replace(site.guide("E-04"), number="CK-4")
    number = replace(other.facts["identity.number"], value="CK-4")
    kept = {"identity.number": number, "identity.vin": unknown_vin(other)}
    fleet = claims_of_fleet(
        (*site.guides, replace(other, facts={**other.facts, **kept})),
        site.read,
        site.files,
        offer=site.offer,
        rounds=site.rounds,
        quizzes=site.quizzes,
    )

    assert prove_unit(site.guide("T-17"), site.of_unit("T-17"), fleet).failures == ()


def unknown_vin(guide: Guide) -> Fact:
    return replace(guide.facts["identity.vin"], value="1XKWDB0X57J211825")


def test_what_cannot_be_told_from_an_amount_is_said_to_be_unchecked(site: Site) -> None:
    guide = site.guide("E-04")
    number = replace(guide.facts["identity.number"], value="17")
    bare = replace(guide, number="17", facts={**guide.facts, "identity.number": number})
    fleet = claims_of_fleet((bare,), site.read, site.files)

    (statement,) = [each for each in fleet.unchecked if "17" in each]

    assert statement.startswith("Whether pages of other trucks mention 17 in passing")
