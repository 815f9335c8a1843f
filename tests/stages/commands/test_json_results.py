"""Every command that comes to a result can print it for programs, and nothing else with it."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
import pytest
from click.testing import CliRunner
from few_trucks import keep

from guidegen.build.start import start_project
from guidegen.cli import commands
from guidegen.commands.results import FINDINGS, RESULTS, WITHOUT
from guidegen.finding import FaultyInput, Findings


def all_commands(group: click.Group, before: str = "") -> Iterator[tuple[str, click.Command]]:
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        assert command is not None
        if isinstance(command, click.Group):
            yield from all_commands(command, f"{before}{name} ")
        else:
            yield f"{before}{name}", command


@pytest.fixture(scope="module")
def fleet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three trucks, not built; not to be changed."""
    folder = tmp_path_factory.mktemp("json") / "fleet"
    assert start_project(folder, Findings())
    return keep(folder)


def ran(*words: str, code: int = 0) -> dict[str, Any]:
    """Run a command in this process; return the one value that it prints, and nothing else."""
    done = CliRunner().invoke(commands, [*words, "--format", "json"])
    assert done.exit_code == code, (words, done.output, done.exception)
    value = json.loads(done.stdout)
    assert isinstance(value, dict)
    assert isinstance(value[FINDINGS], list)
    return value


def test_every_command_offers_json_or_says_why_not() -> None:
    offers = {
        name: any("--format" in each.opts for each in command.params)
        for name, command in all_commands(commands)
    }

    assert {name for name, has_it in offers.items() if not has_it} == set(WITHOUT)
    assert {name for name, has_it in offers.items() if has_it} == set(RESULTS)
    assert all(len(why) > 20 for why in WITHOUT.values())


@pytest.mark.parametrize(
    "words",
    [
        *(("doctor",), ("missing",), ("history", "T-17"), ("compare", "T-17", "E-02")),
        ("explain", "T-17", "tires"),
    ],
)
def test_what_is_printed_has_the_documented_keys(
    fleet: Path, words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(fleet)

    # A machine that cannot do this or that is no fault of the command.
    code = CliRunner().invoke(commands, ["doctor"]).exit_code if words == ("doctor",) else 0

    assert set(ran(*words, code=code)) == {*RESULTS[words[0]], FINDINGS}


def test_commands_that_need_no_fleet_print_their_files_and_rules(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    started = ran("init", "fleet", "--workbook")
    assert started == {
        "folder": "fleet",
        "started": True,
        "workbook": "fleet/fleet.xlsx",
        FINDINGS: [],
    }
    again = ran("init", "fleet", code=1)
    assert not again["started"]
    assert [each["rule"] for each in again[FINDINGS]] == ["folder-not-empty"]
    for words in (("schema",), ("rules", "--out", "rules"), ("reference", "--out", "reference")):
        files = ran(*words)["files"]
        assert files
        assert all(Path(file).is_file() for file in files)
    (rule,) = ran("rules", "cut-out-unusual")["rules"]
    assert set(rule) == {"name", "severity", "why", "page"}
    assert len(ran("rules")["rules"]) == len(list(Path("rules").glob("*.md"))) - 1


def test_a_workbook_is_exported_and_its_changes_are_told_to_programs(
    fleet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copytree(fleet / "specs", tmp_path / "specs")
    monkeypatch.chdir(tmp_path)

    made = ran("workbook", "export")
    told = ran("workbook", "import", "fleet.xlsx")

    assert set(made) == {*RESULTS["workbook export"], FINDINGS}
    assert made["trucks"] == 3
    assert told == {"written": False, "changes": [], "new": [], "newer": [], FINDINGS: []}
    assert set(told) == {*RESULTS["workbook import"], FINDINGS}


def test_a_change_that_was_cut_short_and_cannot_be_finished_is_told_as_json_too(
    fleet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def ends(*_: object) -> None:
        raise FaultyInput(Findings())

    monkeypatch.setattr("guidegen.commands.machine.open_project", ends)
    monkeypatch.chdir(fleet)

    assert ran("doctor") == {FINDINGS: []}


def test_wrong_usage_prints_nothing_where_programs_read(
    fleet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(fleet)

    done = CliRunner().invoke(commands, ["rules", "no-such-rule", "--format", "json"])

    assert done.exit_code == 2
    assert done.stdout == ""
