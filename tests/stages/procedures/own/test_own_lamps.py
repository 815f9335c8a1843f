"""A fleet may say in its own words what a lamp means and asks for, and loses no warning by it."""

from pathlib import Path

import pytest

from guidegen.finding import Finding, Findings
from guidegen.procedures.lamps import by_gravity, read_lamps
from guidegen.procedures.own.compare import words_of
from guidegen.procedures.own.json_schema import own_lamp_json_schema
from guidegen.procedures.own.lamps import lamp_book, read_own_lamps
from guidegen.procedures.own.model import OwnProcedure, Replacement
from guidegen.procedures.own.read import originals_of, read_own_procedures
from guidegen.procedures.own.report import format_replaced
from guidegen.specs.topics.lamps import LAMPS

LAMP_FILE = Path(__file__).parents[4] / "site_templates" / "lamps.yml"
BOOK = lamp_book("site_templates/lamps.yml", LAMP_FILE.read_bytes())
PATH = "specs/own/lamps/low_air.yml"
DIGEST = "digest: DIGEST"
HEAD = f"replaces: {{lamp: low_air, {DIGEST}}}\n"
CALL = HEAD + "do:\n  - after: 4\n    text: Call the shop by radio.\n"
REWORDED = HEAD + "do:\n  - replaces: 1\n    text: Stop at the next safe place.\n"
ANSWER = """\
rewords_caution:
  - caution: {}
    reason: Our trucks run in closed yards only.
    approved_by: I. Quist
    date: 2026-11-20
"""


def read(text: str, path: str = PATH) -> tuple[tuple[OwnProcedure, ...], tuple[Finding, ...]]:
    assert BOOK is not None
    findings = Findings()
    raw = text.replace("DIGEST", digest(text)).encode()
    return read_own_lamps([(path, raw)], BOOK, findings), tuple(findings)


def digest(text: str) -> str:
    """Return the digest of the lamp, as a fix tells it to the office."""
    assert BOOK is not None
    findings = Findings()
    bare = text.replace(f", {DIGEST}", "").encode()
    read_own_lamps([(PATH, bare)], BOOK, findings)
    told = [each.fix for each in findings if "`digest: " in each.fix]
    return told[0].rpartition("`digest: ")[2].rstrip("`") if told else "0"


def only(own: tuple[OwnProcedure, ...]) -> tuple[OwnProcedure, Replacement]:
    (one,) = own
    assert one.replacement is not None
    return one, one.replacement


def said(own: tuple[OwnProcedure, ...]) -> list[str]:
    return [words_of(step.text) for step in only(own)[0].template.steps]


def names(findings: tuple[Finding, ...]) -> list[str]:
    return [each.rule.name for each in findings]


def test_lines_of_the_fleet_stand_among_those_of_the_library_in_the_order_typed() -> None:
    own, findings = read(CALL + "  - {after: 4, text: Wait for the shop.}\n")

    assert names(findings) == []
    assert said(own) == [
        "Stop at the nearest safe place while you still have air.",
        "Do not pump the brake pedal.",
        "Set the parking brake and chock the wheels.",
        "Do not drive until the leak is found and repaired.",
        "Call the shop by radio.",
        "Wait for the shop.",
    ]
    template = only(own)[0].template
    assert template.steps[4].text.span.file.path == PATH
    assert template.steps[3].text.span.file.path == "site_templates/lamps.yml"
    assert template.lamp is not None
    assert (template.id, template.lamp.act) == ("lamp-low-air", "stop_now")


@pytest.mark.parametrize(
    ("text", "about", "how"),
    [
        (REWORDED, "1", "other words"),
        (HEAD + "meaning: The air is low.\n", "meaning", "another meaning"),
        (HEAD + "act: report\n", "act", "`report` instead of `stop_now`"),
        (
            HEAD + "do:\n  - {before: 1, text: Call the shop by radio.}\n",
            "1",
            "a line of the fleet comes before it",
        ),
    ],
)
def test_warning_that_is_lost_is_an_error_until_somebody_answers_for_it(
    text: str, about: str, how: str
) -> None:
    own, findings = read(text)
    (lost,) = findings

    assert lost.rule.name == "caution-weakened"
    assert lost.what == f"the caution `{about}` of `lamp-low-air` may warn less: {how}"
    assert f"rewords_caution: [{{caution: {about}" in lost.fix
    assert "site_templates/lamps.yml" in "".join(n.span.place for n in lost.notes if n.span)
    assert "nobody answers for it" in format_replaced(own)

    own, findings = read(text + ANSWER.format(about))
    assert names(findings) == []
    assert "Approved by I. Quist, 2026-11-20." in format_replaced(own)


def test_line_that_only_tells_somebody_and_a_graver_act_need_no_answer() -> None:
    head = "replaces: {lamp: def_level, digest: 0}\nact: stop_soon\n"
    assert BOOK is not None
    findings = Findings()
    text = head + "do:\n  - {before: 1, text: Stop at the next safe place.}\n"
    own = read_own_lamps([("specs/own/lamps/def_level.yml", text.encode())], BOOK, findings)

    assert names(tuple(findings)) == ["original-changed"]
    graver, replacement = only(own)
    assert [(e.name, e.answered_by) for e in replacement.changes if e.name == "act"] == [
        ("act", "")
    ]
    lamps = read_lamps("lamps.yml", LAMP_FILE.read_bytes(), Findings())
    order = list(by_gravity({**lamps, graver.template.id: graver.template}.values()))
    acts = [lamps[id_].lamp for id_ in order[: order.index("lamp-def-level")]]
    assert all(sign is not None and sign.act in {"stop_now", "stop_soon"} for sign in acts)
    assert words_of(graver.template.steps[0].text) == "Stop at the next safe place."


@pytest.mark.parametrize(
    ("text", "rule", "column"),
    [
        (CALL.replace("low_air", "low_iar"), "replaces-nothing", 18),
        (CALL.replace("low_air", "abs"), "file-name-not-id", 18),
        (CALL.replace(f", {DIGEST}", ""), "part-missing", 1),
        (CALL.replace("after: 4", "after: 9"), "replaces-nothing", 12),
        (CALL.replace("after: 4", "near: 4"), "unknown-part", 5),
        (REWORDED + "  - {replaces: 1, text: Stop now.}\n", "replaced-twice", 16),
        (HEAD + "drops_caution: []\n", "unknown-part", 1),
        (HEAD + "act: stop\n", "unknown-act", 6),
        (CALL + ANSWER.format("7"), "replaces-nothing", 14),
        (CALL + ANSWER.format("2"), "statement-needless", 14),
        (
            CALL.replace("Call the shop by radio.", "Call 555 of the shop."),
            "number-in-template",
            16,
        ),
        (CALL.replace("Call the", "Call " + "the " * 20), "step-too-long", 11),
        (CALL.replace(DIGEST, "digest: 1a2b3c"), "original-changed", 35),
    ],
)
def test_fault_is_told_where_it_stands(text: str, rule: str, column: int) -> None:
    _, findings = read(text)

    assert rule in names(findings)
    span = next(each.span for each in findings if each.rule.name == rule)
    assert span is not None
    assert (span.file.path, span.column) == (PATH, column)
    assert all(each.fix for each in findings)


def test_lamp_is_looked_for_among_the_procedures_in_vain_and_the_fix_says_where_it_stands() -> None:
    findings = Findings()
    steps = b"replaces: {procedure: lamp-low-air, digest: 0}\n"
    read_own_procedures(
        (), [("specs/own/steps/lamp-low-air.yml", steps)], originals_of([]), findings
    )

    assert [each.fix for each in findings] == [
        "write it in `specs/own/lamps`, as `replaces: {lamp: low_air}`"
    ]


def test_schema_for_editors_names_every_lamp_and_one_place_for_each_line() -> None:
    parts = own_lamp_json_schema()["properties"]

    assert parts["replaces"]["properties"]["lamp"]["enum"] == list(LAMPS)
    line = parts["do"]["items"]
    assert [each["required"] for each in line["oneOf"]] == [["replaces"], ["after"], ["before"]]
    assert set(line["properties"]) == {"text", "replaces", "after", "before"}
