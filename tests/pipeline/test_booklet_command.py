"""`guidegen booklet`, as typed."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

Run = Callable[..., Any]
"""`run_guidegen` of this folder's conftest."""


def test_a_booklet_is_written_and_counted(run: Run, project: Path) -> None:
    ran = run("booklet", "E-02", "--stock", "a5", "--format", "json", folder=project)

    assert ran.code == 0
    result = json.loads(ran.out)
    assert result["unit"] == "E-02"
    assert result["pages"] > 40
    assert result["findings"] == []
    written = project / "booklets" / "E-02.pdf"
    assert written.read_bytes().startswith(b"%PDF-")
    assert [path.name for path in written.parent.iterdir()] == ["E-02.pdf"]


def test_a_booklet_of_a_truck_that_is_not_there_is_wrong_usage(run: Run, project: Path) -> None:
    ran = run("booklet", "E-20", folder=project)

    assert ran.code == 2
    assert "did you mean `E-02`?" in ran.err
    assert not (project / "booklets").exists()


def test_a_booklet_without_a_date_is_not_printed(run: Run, project: Path) -> None:
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith("issued:")]
    fleet.write_text("".join(kept), encoding="utf-8")

    ran = run("booklet", "E-02", folder=project)

    assert len(kept) == len(lines) - 1
    assert ran.code == 1
    assert "card-without-date" in ran.err
    assert not (project / "booklets").exists()
