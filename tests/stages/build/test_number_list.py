"""Every number of the library is on the reviewer's list, with its place, source and standing."""

import ast
import inspect
import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from guidegen.build.number_list.collect import (
    collect_numbers,
    modules_without_source,
    rule_modules,
)
from guidegen.build.number_list.find import Weight, heaviest, numbers_in
from guidegen.build.number_list.model import Ground, NumberEntry, NumberSection
from guidegen.build.number_pages import number_pages, write_number_pages
from guidegen.build.project import Project, open_project
from guidegen.cli import commands
from guidegen.finding import Findings

ROOT = Path(__file__).resolve().parents[3]
TEXTS = ("title", "hazard", "consequence", "avoid", "text", "meaning", "do", "symbol")
OUTCOMES = ("expect", "if_not")

# Written anew, so that a word that the list does not know is missed by one of the two only.
ANY_NUMBER = re.compile(
    r"[0-9¼½¾]|\b(?:zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|"
    r"fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|"
    r"eighty|ninety|hundred|thousand|million|dozen|half|quarter|quarters|third|thirds|twice|double|"
    r"both|first|second|fourth|fifth|tenth|single|pair|pairs)\b|"
    r"\b(?:a|an|per|each|every) (?:minute|hour|day|inch|mile)\b",
    re.IGNORECASE,
)


def collected(project: Project) -> tuple[NumberSection, ...]:
    findings = Findings()
    sections = collect_numbers(project, findings)
    assert list(findings) == []
    assert sections is not None
    return sections


@pytest.fixture(scope="module")
def sections() -> tuple[NumberSection, ...]:
    return collected(open_project(ROOT))


@pytest.fixture(scope="module")
def entries(sections: tuple[NumberSection, ...]) -> tuple[NumberEntry, ...]:
    return tuple(entry for section in sections for entry in section.entries)


def of(sections: tuple[NumberSection, ...], id_: str) -> tuple[NumberEntry, ...]:
    (section,) = (each for each in sections if each.id == id_)
    return section.entries


def written(node: object, key: str = "") -> Iterator[str]:
    """Yield the texts of a procedure or lamp file, by the keys that hold texts."""
    match node:
        case dict():
            for inner_key, inner in node.items():
                yield from written(inner, str(inner_key))
        case list():
            for inner in node:
                yield from written(inner, "text" if key in OUTCOMES else key)
        case str() if key in TEXTS:
            yield " ".join(re.sub(r"\{\{ *(.*?) *\}\}", r"{\1}", node).split())


def library_texts(root: Path) -> Iterator[tuple[str, str]]:
    folder = root / "site_templates"
    for path in [*sorted((folder / "procedures").glob("*.yml")), folder / "lamps.yml"]:
        for text in written(yaml.safe_load(path.read_text(encoding="utf-8"))):
            yield path.relative_to(root).as_posix(), text


def unlisted(root: Path, entries: tuple[NumberEntry, ...]) -> list[tuple[str, str]]:
    """Return the numbers of texts that no entry of the same file and text names."""
    listed: dict[tuple[str, str], str] = {}
    for entry in entries:
        key = entry.place.partition(":")[0], entry.says
        listed[key] = f"{listed.get(key, '')} {' '.join(entry.numbers)}".lower()
    missing = []
    for path, text in library_texts(root):
        shown = re.sub(r"\{.*?\}", "", text)
        said = listed.get((path, text)) or listed.get((path, f"It looks like {text}."), "")
        missing += [
            (path, found.group())
            for found in ANY_NUMBER.finditer(shown)
            if found.group().lower() not in said
        ]
    return missing


def test_every_number_in_a_text_of_the_library_is_on_the_list(
    entries: tuple[NumberEntry, ...],
) -> None:
    texts = list(library_texts(ROOT))

    assert len(texts) > 1500
    assert unlisted(ROOT, entries) == []


def test_a_number_that_is_typed_into_a_step_comes_onto_the_list(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "site_templates", tmp_path / "site_templates")
    path = tmp_path / "site_templates" / "procedures" / "heater-cord.yml"
    text = path.read_text(encoding="utf-8")
    old = "Check that the cord has three wires and is marked for outdoor use."
    new = "Wait eleven minutes, and check that the cord is marked for outdoor use."
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")

    found = collected(open_project(tmp_path))

    entry = next(each for each in of(found, "text-measured") if each.says == new)
    assert entry.numbers == ("eleven minutes",)
    line = text[: text.index(old)].count("\n") + 1
    assert entry.place == f"site_templates/procedures/heater-cord.yml:{line}"


def test_every_entry_stands_where_it_says(entries: tuple[NumberEntry, ...]) -> None:
    for entry in entries:
        path, _, line = entry.place.partition(":")
        lines = (ROOT / path).read_text(encoding="utf-8").split("\n")

        assert 1 <= int(line) <= len(lines), entry.place


def test_every_text_is_on_the_line_that_the_list_names(sections: tuple[NumberSection, ...]) -> None:
    for weight in ("text-measured", "text-counted", "text-least"):
        for entry in of(sections, weight):
            path, _, line = entry.place.partition(":")
            named = (ROOT / path).read_text(encoding="utf-8").split("\n")[int(line) - 1]
            if not path.endswith("lamps.yml"):
                assert entry.says.split("{")[0][:20].strip() in named, entry.place


def test_no_entry_lacks_a_number_a_source_or_a_standing(entries: tuple[NumberEntry, ...]) -> None:
    for entry in entries:
        assert all(entry.numbers)
        assert len(entry.source) > 3
        assert isinstance(entry.ground, Ground)


@pytest.mark.parametrize(("numbers", "source"), [((), "a rule"), (("3",), "  ")])
def test_an_entry_without_a_number_or_a_source_is_refused(
    numbers: tuple[str, ...], source: str
) -> None:
    with pytest.raises(ValueError, match="no number or no source"):
        NumberEntry("a.yml:1", numbers, "text", source, Ground.NAMED)


@pytest.mark.parametrize("path", sorted((ROOT / "site_templates" / "profiles").glob("*.yml")))
def test_every_value_of_a_profile_is_on_the_list_with_its_source(
    path: Path, sections: tuple[NumberSection, ...]
) -> None:
    file = yaml.safe_load(path.read_text(encoding="utf-8"))
    of_file = [each for each in of(sections, "places") if f"/{path.name}:" in each.place]
    expected = {
        (f"{section}.{name}", str(each["value"]), each["source"])
        for section in ("law", "bounds")
        for name, each in file.get(section, {}).items()
        if name != "name"
    }
    listed = {(e.says.split("`")[1], e.numbers[0], e.source) for e in of_file}

    assert listed == expected


def test_what_rests_on_memory_or_habit_says_so(sections: tuple[NumberSection, ...]) -> None:
    heights = [each for each in of(sections, "places") if "height_most" in each.says]

    assert {each.ground for each in heights} <= {Ground.MEMORY, Ground.PRACTICE}
    assert {each.ground for each in of(sections, "round")} == {Ground.PRACTICE}


@pytest.mark.parametrize(
    ("name", "numbers", "ground"),
    [
        ("NO_FILL_SHARE", ("4", "5"), Ground.NAMED),
        ("AMPACITIES", ("18", "16", "14", "12", "10", "13", "18", "25"), Ground.SECONDARY),
        ("MOST_DROP", ("3", "100"), Ground.SECONDARY),
        ("METRIC_SIZES", ("18", "16", "14", "12", "1", "1.5", "2.5", "4"), Ground.MEMORY),
    ],
)
def test_constants_of_formulas_are_on_the_list(
    name: str, numbers: tuple[str, ...], ground: Ground, sections: tuple[NumberSection, ...]
) -> None:
    (entry,) = (each for each in of(sections, "formulas") if each.says.startswith(f"`{name}`"))

    assert entry.numbers == numbers
    assert entry.ground is ground


def test_every_rule_with_numbers_has_a_source_for_them() -> None:
    assert modules_without_source() == ()


def test_functions_of_rules_hold_no_numbers_that_the_list_would_miss() -> None:
    """Nothing, one, two and the hundred of percents are what formulas are made of."""
    held = {
        (module.__name__, node.value)
        for module in rule_modules()
        for function in ast.walk(ast.parse(inspect.getsource(module)))
        if isinstance(function, ast.FunctionDef)
        for node in ast.walk(function)
        if isinstance(node, ast.Constant) and type(node.value) in (int, float)
    }

    assert {number for _, number in held} <= {0, 1, 2, 100}


@pytest.mark.parametrize(
    ("text", "found", "weight"),
    [
        ("Wait a quarter of an hour.", ["quarter of an hour"], Weight.MEASURED),
        ("Hold it for ten seconds.", ["ten seconds"], Weight.MEASURED),
        ("It falls within a minute.", ["a minute"], Weight.MEASURED),
        ("Watch for one more minute.", ["one more minute"], Weight.MEASURED),
        ("Stay 100 feet away.", ["100 feet"], Weight.MEASURED),
        ("Keep three points of contact.", ["three"], Weight.COUNTED),
        ("Slow down by one third.", ["one", "third"], Weight.COUNTED),
        ("Call 911 first.", ["911", "first"], Weight.NAMED),
        ("Look at the fifth wheel.", ["fifth wheel"], Weight.NAMED),
        ("Have a second person help.", ["second"], Weight.LEAST),
        ("Stop at once and set both chocks.", ["both"], Weight.LEAST),
    ],
)
def test_numbers_are_found_in_digits_and_in_words(
    text: str, found: list[str], weight: Weight
) -> None:
    numbers = numbers_in(text)

    assert [each.text for each in numbers] == found
    assert heaviest(numbers) is weight


@pytest.mark.parametrize("text", ["Stop at once.", "It can crush a foot.", "Nobody is anyone."])
def test_words_that_only_look_like_numbers_are_left_out(text: str) -> None:
    assert numbers_in(text) == ()


def test_the_pages_in_the_documents_are_those_that_the_library_makes(
    sections: tuple[NumberSection, ...],
) -> None:
    folder = ROOT / "docs" / "numbers"
    held = {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}

    assert held == dict(number_pages(sections)), (
        "make the pages again: guidegen numbers --out docs/numbers"
    )


def test_every_entry_has_a_row_on_its_page(sections: tuple[NumberSection, ...]) -> None:
    pages = number_pages(sections)
    for section in sections:
        rows = [row for row in pages[f"{section.id}.md"].split("\n") if row.startswith("| ")]
        heads = [row for row in rows if row.startswith("| Number")]

        assert len(rows) - len(heads) == len(section.entries)


def test_writing_removes_pages_of_sections_that_are_gone(
    tmp_path: Path, sections: tuple[NumberSection, ...]
) -> None:
    (tmp_path / "gone.md").write_text("old", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")

    write_number_pages(sections, tmp_path)

    assert {path.name for path in tmp_path.iterdir()} == {*number_pages(sections), "notes.txt"}


def test_the_command_gives_the_list_as_json(entries: tuple[NumberEntry, ...]) -> None:
    ran = CliRunner().invoke(commands, ["numbers", "--project", str(ROOT), "--format", "json"])

    listed = json.loads(ran.stdout)
    found = [entry for section in listed["sections"] for entry in section["entries"]]
    assert ran.exit_code == 0
    assert listed["findings"] == []
    assert [entry["place"] for entry in found] == [entry.place for entry in entries]
    assert all(entry["standing"] and entry["source"] for entry in found)


def test_a_library_with_a_fault_is_reported_and_not_listed(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "site_templates", tmp_path / "site_templates")
    path = tmp_path / "site_templates" / "profiles" / "uk.yml"
    path.write_text("law:\n  name: UK\n  tread_depth_other: {value: 1 mm}\n", encoding="utf-8")

    ran = CliRunner().invoke(commands, ["numbers", "--project", str(tmp_path)])

    assert ran.exit_code == 1
    assert "uk.yml" in ran.stderr
