"""Quizzes and sign-off sheets from the command line."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2  # type: ignore[import-untyped]  # it has no hints

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""


def pages(path: Path) -> list[str]:
    opened = pypdfium2.PdfDocument(path.read_bytes())
    texts = [" ".join(page.get_textpage().get_text_bounded().split()) for page in opened]
    opened.close()
    return texts


def test_a_quiz_is_printed_with_its_key_at_the_end(run: Run, project: Path) -> None:
    ran = run("quiz", "K-22", "--questions", "12", "--stock", "a4", folder=project)

    assert ran.code == 0, ran.err
    assert ran.out == "12 questions: training/K-22/quiz.pdf\n"
    texts = pages(project / "training" / "K-22" / "quiz.pdf")
    assert "Key Question Right Read it in the guide 1 " in texts[-1]
    assert not [text for text in texts[:-1] if "Read it in the guide" in text]


def test_a_quiz_as_json_names_one_right_answer_and_its_place(run: Run, project: Path) -> None:
    ran = run("quiz", "V-08", "--format", "json", folder=project)

    told = json.loads(ran.out)
    assert ran.code == 0
    assert told["unit"] == "V-08"
    assert len(told["questions"]) == 20
    for question in told["questions"]:
        assert question["right"] in question["answers"]
        assert question["where"]["words"]


def test_a_sign_off_sheet_tells_what_is_other_than_on_the_known_truck(
    run: Run, project: Path
) -> None:
    ran = run("signoff", "T-18", "--knows", "T-17", "--out", "sheets", folder=project)

    assert ran.code == 0, ran.err
    told = json.loads(run("signoff", "T-18", "--format", "json", folder=project).out)
    lines = sum(len(part["lines"]) for part in told["chapters"])
    assert ran.out == f"{lines} lines: sheets/T-18/signoff-from-T-17.pdf\n"
    first = pages(project / "sheets" / "T-18" / "signoff-from-T-17.pdf")[0]
    assert "This sheet is no license and no certificate." in first
    assert "What is other than on the truck you are signed off on: T-17" in first
    told = json.loads(
        run("signoff", "T-18", "--knows", "T-17", "--format", "json", folder=project).out
    )
    compared = json.loads(run("compare", "T-17", "T-18", "--format", "json", folder=project).out)
    assert compared["differences"] == told["differences"]


def test_a_unit_that_is_not_there_is_wrong_usage_with_a_guess(run: Run, project: Path) -> None:
    for arguments in (
        ("quiz", "T-71"),
        ("signoff", "T-71"),
        ("signoff", "T-17", "--knows", "T-71"),
    ):
        ran = run(*arguments, folder=project)
        assert ran.code == 2
        assert "did you mean `T-17`?" in ran.err
    assert not (project / "training").exists()


def test_a_truck_is_not_the_other_truck_that_a_driver_knows(run: Run, project: Path) -> None:
    ran = run("signoff", "T-17", "--knows", "T-17", folder=project)

    assert ran.code == 2
    assert "--knows names another truck than `T-17`" in ran.err
    assert not (project / "training").exists()


def test_what_is_printed_tells_why_a_truck_is_held_back_and_writes_nothing(
    run: Run, project: Path
) -> None:
    unit = project / "specs" / "units" / "T-17.yml"
    unit.write_text(unit.read_text(encoding="utf-8") + "\nwinch: 5\n", encoding="utf-8")
    before = {path for path in project.rglob("*") if path.is_file()}

    for arguments in (
        ("quiz", "T-17"),
        ("signoff", "T-17"),
        ("signoff", "T-18", "--knows", "T-17"),
        ("booklet", "T-17"),
        ("cards", "T-17"),
    ):
        ran = run(*arguments, folder=project)
        assert ran.code == 1, (arguments, ran.err)
        assert "T-17.yml" in ran.err
        assert "winch" in ran.err
    assert {path for path in project.rglob("*") if path.is_file()} == before


def test_nothing_is_printed_without_the_address_of_the_site(run: Run, project: Path) -> None:
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith("address:")]
    fleet.write_text("".join(kept), encoding="utf-8")

    for arguments in (("quiz", "T-17"), ("signoff", "T-18", "--knows", "T-17")):
        ran = run(*arguments, folder=project)
        assert ran.code == 1
        assert "card-without-address" in ran.err
    assert not (project / "training").exists()


def test_nothing_is_printed_that_is_not_dated(run: Run, project: Path) -> None:
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    fleet.write_text(
        "".join(line for line in lines if not line.startswith("issued:")), encoding="utf-8"
    )

    ran = run("quiz", "T-17", folder=project)

    assert ran.code == 1
    assert "card-without-date" in ran.err
    assert not (project / "training").exists()
