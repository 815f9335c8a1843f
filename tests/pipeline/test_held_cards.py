"""A card whose text fits on no side is held back alone; all guides are published."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from few_trucks import keep
from run_in_fork import Ran

Run = Callable[..., Any]
TWO = GAS, OTHER = "R-12", "T-17"
CARD = "cards:\n  - {id: gas, title: Gas, size: pocket, procedures: [gas-leak-emergency]}\n"


Built = tuple[Path, Ran]
"""A fleet, and what its build left."""


@pytest.fixture(scope="module")
def narrow(seed: Path, run: Run, tmp_path_factory: pytest.TempPathFactory) -> Built:
    """Two trucks and a card with a work that only one of them has, too tall for its side.

    Built; not to be changed.
    """
    folder = keep(Path(shutil.copytree(seed, tmp_path_factory.mktemp("narrow") / "fleet")), TWO)
    fleet = folder / "specs" / "fleet.yml"
    text = fleet.read_text(encoding="utf-8")
    fleet.write_text(text + CARD, encoding="utf-8", newline="\n")
    return folder, run("build", "--format", "json", folder=folder)


def test_the_site_is_published_without_the_card_and_tells_why(run: Run, narrow: Built) -> None:
    folder, ran = narrow
    told = json.loads(ran.out)
    assert ran.code == 1, ran.err
    assert told["published"] is True
    assert told["findings"]
    for finding in told["findings"]:
        assert (finding["rule"], finding["unit"]) == ("text-taller-than-side", GAS)
        assert finding["path"].endswith("gas-leak-emergency.yml")
        assert finding["line"] > 0
    start = {unit: (folder / "site" / unit / "index.html").read_text() for unit in (GAS, OTHER)}
    assert "cards/gas.pdf" not in start[GAS]
    assert "cards/emergency.pdf" in start[GAS]
    assert not (folder / "site" / GAS / "cards" / "gas.pdf").exists()
    assert (folder / "site" / GAS / "cards" / "emergency.pdf").is_file()
    assert "cards/emergency.pdf" in start[OTHER]
    report = (folder / "site" / "office" / "proof.html").read_text(encoding="utf-8")
    assert f"The card `gas` of {GAS}: it is held back" in report

    again = run("prove", "--format", "json", folder=folder)

    assert again.code == 1
    assert json.loads(again.out)["findings"] == told["findings"]


def test_a_card_that_is_gone_is_not_taken_for_one_that_is_held_back(
    run: Run, narrow: Built, tmp_path: Path
) -> None:
    assert narrow[1].code == 1
    folder = Path(shutil.copytree(narrow[0], tmp_path / "fleet"))
    (folder / "site" / OTHER / "cards" / "visor.pdf").unlink()

    ran = run("prove", "--format", "json", folder=folder)

    rules = {finding["rule"] for finding in json.loads(ran.out)["findings"]}
    assert "page-missing" in rules
