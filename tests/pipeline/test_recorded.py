import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

Run = Callable[..., Any]


def with_limit(project: Path) -> None:
    path = project / "specs/fleet.yml"
    text = path.read_text(encoding="utf-8")
    assert "# recheck_after: 24 months" in text
    path.write_text(
        text.replace("# recheck_after: 24 months", "recheck_after: 24 months"),
        encoding="utf-8",
        newline="\n",
    )


def told(run: Run, project: Path, today: str) -> list[str]:
    done = run("check", "--today", today, "--format", "json", folder=project)
    assert done.code == 0, done.err
    return [f["rule"] for f in json.loads(done.out)["findings"]]


def test_check_warns_of_what_was_recorded_longer_ago_than_the_fleet_wants(
    run: Run, project: Path
) -> None:
    assert told(run, project, "2099-01-01") == []

    with_limit(project)

    assert told(run, project, "2027-10-20") == []
    assert told(run, project, "2027-10-21") == ["value-to-check-again"]


def test_missing_lists_what_is_to_be_checked_again(run: Run, project: Path) -> None:
    with_limit(project)

    done = run("missing", "--today", "2027-10-21", "--format", "json", folder=project)

    (old,) = json.loads(done.out)["check_again"]
    assert old["names"] == ["block_heater.circuit"]
    assert (old["recorded_on"], old["recorded_by"]) == ("2025-10-20", "Tobin Farrow")
    assert old["units"] == ["T-17"]


def test_the_data_page_says_when_a_value_was_recorded_and_by_whom(demo: Path) -> None:
    page = (demo / "site/T-17/data.html").read_text(encoding="utf-8")

    assert "; recorded 2025-10-20 by Tobin Farrow" in page
