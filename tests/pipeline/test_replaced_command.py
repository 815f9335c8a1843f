"""The office sees what its fleet has otherwise than the library, and who answers for it."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bs4 import BeautifulSoup

Run = Callable[..., Any]

HOSTILE = '"<script>alert(1)</script> wheel stops"'
DROPS = f"""\
drops_caution:
  - caution: kept-quiet
    reason: {HOSTILE}
    approved_by: Imelda Quist
    date: 2026-11-20
"""


def test_what_the_demo_replaces_is_told_with_its_places(run: Run, project: Path) -> None:
    done = run("replaced", folder=project)

    assert done.code == 0, done.err
    assert done.out.startswith(
        "1 procedure and 1 lamp of the library replaced, 4 of the fleet's own\n"
    )
    assert "step `give` changed" in done.out
    assert "specs/own/steps/day-report.yml:6:11" in done.out
    assert "site_templates/procedures/day-report.yml:35:11" in done.out


def test_caution_that_somebody_answers_for_is_in_every_report(run: Run, project: Path) -> None:
    steps = project / "specs" / "own" / "steps" / "day-report.yml"
    text = steps.read_text(encoding="utf-8")
    steps.write_text(text + DROPS, encoding="utf-8", newline="\n")

    done = run("replaced", "day-report", "--format", "json", "--out", "papers", folder=project)

    told = json.loads(done.out)
    assert done.code == 0, done.err
    (caution,) = (e for e in told["replaced"][0]["changes"] if e["kind"] == "caution")
    assert (caution["name"], caution["change"], caution["given_up"]) == ("kept-quiet", "gone", True)
    assert caution["answer"]["approved_by"] == "Imelda Quist"
    assert caution["library_place"].endswith("day-report.yml:10:9")
    page = BeautifulSoup((project / "papers" / "replaced.html").read_text("utf-8"), "html.parser")
    assert page.script is None
    (row,) = page.select("tr.given-up")
    assert "Approved by Imelda Quist, 2026-11-20." in row.get_text()
    assert "<script>alert(1)</script> wheel stops" in row.get_text()


def test_lost_caution_holds_all_back_and_the_report_still_shows_it(run: Run, project: Path) -> None:
    steps = project / "specs" / "own" / "steps" / "day-report.yml"
    text = steps.read_text(encoding="utf-8")
    steps.write_text(
        text.replace("  - replaces: give\n", "  - replaces: write\n    when: fitted(clutch)\n"),
        encoding="utf-8",
        newline="\n",
    )

    done = run("replaced", "--format", "json", folder=project)
    told = json.loads(done.out)

    assert done.code == 1
    assert [finding["rule"] for finding in told["findings"]] == ["caution-weakened"]
    assert told["replaced"][0]["changes"][0]["answer"] is None


def test_site_keeps_the_report_for_the_office(demo: Path) -> None:
    page = (demo / "site" / "office" / "replaced.html").read_text(encoding="utf-8")

    assert "No caution of the library is given up." in page
    assert "replaced.html" in (demo / "site" / "office" / "files.sha256").read_text("utf-8")


def test_name_that_is_not_replaced_is_wrong_usage(run: Run, project: Path) -> None:
    done = run("replaced", "day-reprot", folder=project)

    assert done.code == 2
    assert "did you mean `day-report`" in done.err
