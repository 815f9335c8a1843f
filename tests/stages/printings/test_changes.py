from collections.abc import Callable, Iterable
from dataclasses import replace

import pytest
from printed import kind
from sample_fleet import T_17, T_18, Warn, procedure
from sample_printings import BRAKES, KINDS_OF_FLEET, deck, kept, said, with_facts

from guidegen.finding import Findings
from guidegen.guide.model import Chapter, Guide, Procedure
from guidegen.printings.changes import KINDS, Change, Kind, card_changes
from guidegen.printings.deck import deck_bytes, read_deck
from guidegen.procedures.model import Signal
from guidegen.revisions.snapshot import digest_of
from guidegen.units.model import StatedIn

DRAIN = ["Pull the cord.", "Keep each drain open until no more water comes."]


def with_procedure(changed: Procedure) -> Guide:
    chapters = (
        Chapter(
            chapter.id,
            tuple(changed if each.id == changed.id else each for each in chapter.procedures),
        )
        for chapter in T_17.chapters
    )
    return replace(T_17, chapters=tuple(chapters), edition="0" * 12)


def other(given: Guide) -> dict[str, list[tuple[Kind, str]]]:
    """Return the changes of each card that reads otherwise than that of T-17."""
    before, after = said(T_17), said(given)
    known, now = kept(T_17), deck(given)
    changed = [id_ for id_ in after if after[id_] != before[id_]]
    found: dict[str, tuple[Change, ...]] = {id_: card_changes(known, now, id_) for id_ in changed}
    return {id_: [(each.kind, each.words) for each in told] for id_, told in found.items()}


def test_a_limit_is_told_on_each_card_that_prints_it_and_on_no_other() -> None:
    told = (Kind.LIMIT, "Governed (cut-out) pressure 135 psi → 130 psi")

    assert other(with_facts(brakes__air__cut_out="130 psi")) == {
        "brakes": [told],
        "fluids": [told],
    }


def test_what_only_the_data_page_says_makes_no_card_old() -> None:
    assert other(with_facts(engine__idle_speed="700 rpm")) == {}
    # Where a value was copied from stands on no card.
    known = T_17.facts["brakes.air.cut_out"]
    assert isinstance(known.provenance, StatedIn)
    sourced = replace(known, provenance=replace(known.provenance, source="retrofit order 7"))
    facts = {**T_17.facts, known.name: sourced}
    assert other(replace(T_17, facts=facts, edition="0" * 12)) == {}


def test_a_limit_comes_before_an_amount_on_the_same_card() -> None:
    given = with_facts(engine__oil_capacity="40 qt", brakes__air__cut_out="130 psi")

    assert [kind_ for kind_, _ in other(given)["fluids"]] == [Kind.LIMIT, Kind.VALUE]


def test_a_place_at_the_brakes_is_a_control_and_one_at_the_engine_is_not() -> None:
    given = with_facts(
        brakes__air__drain_location="at the right rail", engine__dipstick_location="on the right"
    )

    kinds = [kind_ for kind_, _ in other(given)["places"]]
    assert kinds == [Kind.CONTROL, Kind.VALUE]


def test_a_value_that_is_printed_in_other_digits_is_a_word() -> None:
    ((kind_, words),) = other(with_facts(engine__oil_capacity="44.0 qt"))["fluids"]

    assert kind_ is Kind.WORD
    assert words.startswith("Printed otherwise: ")


@pytest.mark.parametrize(
    ("changed", "kind_"),
    [
        (["Pull the cord slowly.", DRAIN[1]], Kind.WORD),
        ([*DRAIN, "Let go."], Kind.WORK),
        (DRAIN[:1], Kind.WORK),
        ([Warn(Signal.WARNING, "Air whips.", "It can hurt you.", "Stand clear."), *DRAIN], None),
    ],
)
def test_of_a_procedure_a_caution_is_worse_than_a_step_and_a_step_than_a_word(
    changed: list[str | Warn], kind_: Kind | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(globals(), "T_17", with_procedure(_drain(DRAIN)))

    told = other(with_procedure(_drain(changed)))

    assert list(told) == ["brakes"]
    assert [each for each, _ in told["brakes"]] == [kind_ or Kind.CAUTION]


def _drain(lines: Iterable[str | Warn]) -> Procedure:
    return procedure("drain-air-tanks", "Drain the air tanks", lines, station="left_side")


def test_work_that_came_with_a_caution_is_a_caution() -> None:
    warn = Warn(Signal.WARNING, "Air whips.", "It can hurt you.", "Stand clear.")
    chapters = (
        T_17.chapters[0],
        replace(T_17.chapters[1], procedures=(*T_17.chapters[1].procedures, _new(warn))),
    )

    told = other(replace(T_17, chapters=chapters, edition="0" * 12))

    assert told == {"brakes": [(Kind.CAUTION, "New: procedure “Blow out the lines”")]}


def _new(*lines: str | Warn) -> Procedure:
    return procedure("blow-out", "Blow out the lines", [*lines, "Open the valve."])


def test_another_title_is_a_word() -> None:
    renamed = replace(BRAKES, title="Brakes")

    told = card_changes(kept(T_17), deck(T_17, [renamed]), "brakes")

    assert [(each.kind, each.words) for each in told] == [
        (Kind.WORD, "Title “Brake check” → “Brakes”")
    ]


def test_the_plate_of_another_truck_makes_another_card_of_one_edition() -> None:
    assert T_17.edition == T_18.edition
    one, another = said(T_17), said(T_18)

    assert one["brakes"] == another["brakes"]
    assert one["walk"] != another["walk"]
    (change,) = card_changes(kept(T_17), deck(T_18), "walk")
    assert change.kind is Kind.WORD
    assert "VIN, plate or yard" in change.words


def test_size_and_look_of_a_card_say_nothing() -> None:
    letter = tuple(replace(each, side=kind("letter").side) for each in KINDS_OF_FLEET)

    assert said(T_17, letter) == said(T_17)


def test_a_file_of_words_is_the_same_for_every_truck_of_an_edition() -> None:
    assert deck_bytes(deck(T_17)) == deck_bytes(deck(T_18))
    assert kept(T_17).cards == deck(T_17).cards


def _flipped(raw: bytes) -> bytes:
    return raw.replace(b"135", b"153", 1)


def _of_another_form(raw: bytes) -> bytes:
    return raw.replace(b'"form":1', b'"form":9')


@pytest.mark.parametrize("harm", [_flipped, _of_another_form])
@pytest.mark.parametrize("is_hashed_anew", [True, False])
def test_a_file_of_words_that_is_not_as_it_was_is_found(
    harm: Callable[[bytes], bytes],
    is_hashed_anew: bool,  # noqa: FBT001 -- named by the parameters
) -> None:
    raw = deck_bytes(deck(T_17))
    changed = harm(raw)
    assert changed != raw
    digest = digest_of(changed if is_hashed_anew else raw)
    findings = Findings()

    read = read_deck("records/printings/decks/x.json", changed, digest, findings)

    if is_hashed_anew and harm is _flipped:
        assert read is not None
        return
    assert read is None
    assert [each.rule.name for each in findings] == ["printed-words-damaged"]


def test_every_kind_has_words() -> None:
    assert set(KINDS) == set(Kind)
