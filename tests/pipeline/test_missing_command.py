import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

Run = Callable[..., Any]


def take_off_record(project: Path, unit_or_model: str, line: str) -> None:
    """Delete one line of a spec file, and whatever is indented below it."""
    path = project / "specs" / f"{unit_or_model}.yml"
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    start = next(n for n, each in enumerate(lines) if each.strip().startswith(line))
    depth = len(lines[start]) - len(lines[start].lstrip())
    end = start + 1
    while end < len(lines) and lines[end].strip() and _depth(lines[end]) > depth:
        end += 1
    path.write_text("".join(lines[:start] + lines[end:]), encoding="utf-8", newline="\n")


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip())


def test_a_fleet_on_record_has_nobody_waiting(run: Run, project: Path) -> None:
    done = run("missing", folder=project)

    assert done.code == 0, done.err
    assert done.out.startswith("0 of 8 trucks have no guide because of what is not on record")


def test_what_is_missing_is_told_and_closing_it_frees_the_truck(run: Run, project: Path) -> None:
    take_off_record(project, "models/fell-9", "transmission:")

    before = run("missing", "--format", "json", folder=project)

    told = json.loads(before.out)
    assert before.code == 1
    assert told["held_back"] == ["T-04"]
    assert told["close_first"][0]["name"] == "transmission"
    assert told["close_first"][0]["frees"] == ["T-04"]

    path = project / "specs/units/T-04.yml"
    unit = path.read_text(encoding="utf-8")
    path.write_text(f"{unit}\ntransmission: not fitted\n", encoding="utf-8", newline="\n")

    rules = {
        f["rule"]
        for f in json.loads(run("check", "--format", "json", folder=project).out)["findings"]
    }
    assert not rules & {"not-on-record", "fact-not-on-record"}


def test_page_lists_and_forms_are_written_for_the_trucks_that_lack_something(
    run: Run, project: Path
) -> None:
    take_off_record(project, "models/drumlin-72", "cut_out:")

    done = run("missing", "--out", "out", "--today", "2026-11-30", folder=project)

    assert done.code == 1, done.err
    out = project / "out"
    assert (out / "missing.csv").read_bytes().startswith(b"\xef\xbb\xbfyard,unit,model")
    assert "brakes.air.cut_out" in (out / "missing.html").read_text(encoding="utf-8")
    assert "Ridge Yard" in (out / "missing.txt").read_text(encoding="utf-8")
    assert (out / "missing.css").is_file()
    assert (out / "proof.css").is_file()
    assert {path.stem for path in (out / "forms").iterdir()} >= {"T-17", "T-18"}


def test_a_truck_whose_files_have_faults_is_not_counted_as_freed(run: Run, project: Path) -> None:
    take_off_record(project, "models/drumlin-72", "cut_out:")
    path = project / "specs/units/T-18.yml"
    text = path.read_text(encoding="utf-8").replace("model: drumlin-72", "model: drumlin-73")
    path.write_text(text, encoding="utf-8", newline="\n")

    told = json.loads(run("missing", "--format", "json", folder=project).out)

    assert told["not_read"] == ["T-18"]
    assert told["close_first"][0]["frees"] == ["T-17"]


def test_a_unit_that_is_not_there_is_wrong_usage(run: Run, project: Path) -> None:
    done = run("missing", "T-1717", folder=project)

    assert done.code == 2
    assert "there is no unit `T-1717`" in done.err
