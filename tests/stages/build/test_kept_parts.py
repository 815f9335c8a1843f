from pathlib import Path

import pytest

from guidegen.build.fleet_memory import FleetMemory, keep_memory, open_memory
from guidegen.build.kept_parts import MOST_IN_PART
from guidegen.build.prove import NOTHING_PRINTED
from guidegen.build.store import Store
from guidegen.build.unit_made import UnitKept, UnitMade
from guidegen.proof.model import Counts, UnitVerdict
from guidegen.proof.unit_record import UnitRecord
from guidegen.site.truck_line import TruckLine
from guidegen.specs.read_units import UnitRecord as SpecRecord

HERE = (Path("fleet"), Path("fleet/site"))
MANY = 3 * MOST_IN_PART


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "store", "this program")


@pytest.fixture
def kept(store: Store) -> FleetMemory:
    """A memory of many units that was kept and opened again."""
    keep_memory(FleetMemory(units={f"T-{n}": unit(n) for n in range(MANY)}), store, *HERE)
    return open_memory(store, *HERE)


def unit(number: int, state: str = "as it was left") -> UnitKept:
    name, edition = f"T-{number}", f"edition {number // 4}"
    line = TruckLine(name, "a tractor", "tractor", "", "north", name.lower())
    record = UnitRecord(name, edition, (name,), ("",), ())
    verdict = UnitVerdict(name, edition, Counts(pages=12), (), ())
    made = UnitMade(
        *(name, line, record, verdict, NOTHING_PRINTED, (), (), b"", state),
        *(frozenset[str](), "quiz"),
    )
    return UnitKept(made, "key", (), "claims")


def files_of(store: Store) -> dict[Path, int]:
    assert store.folder is not None
    return {path: path.stat().st_ino for path in store.folder.rglob("*") if path.is_file()}


def test_units_come_back_as_they_were_kept(kept: FleetMemory) -> None:
    assert kept.units == {f"T-{n}": unit(n) for n in range(MANY)}


def test_units_of_an_edition_lie_in_one_part() -> None:
    parts = FleetMemory(units={f"T-{n}": unit(n) for n in range(MANY)}).in_parts()["units"]

    of_part = [{each.made.verdict.edition for each in part.values()} for part in parts]
    assert len(parts) == MANY // MOST_IN_PART
    assert sum(map(len, of_part)) == len(set().union(*of_part))


def test_only_the_part_of_a_unit_that_changed_is_written_again(
    store: Store, kept: FleetMemory
) -> None:
    before = files_of(store)
    kept.units["T-7"] = unit(7, "changed")

    keep_memory(kept, store, *HERE)

    after = files_of(store)
    assert after.keys() == before.keys()
    # The part, and what is remembered besides what lies in parts.
    assert sum(after[path] != before[path] for path in after) == 2
    assert open_memory(store, *HERE).units == kept.units


def test_a_unit_that_is_gone_does_not_come_back(store: Store, kept: FleetMemory) -> None:
    del kept.units["T-7"]

    keep_memory(kept, store, *HERE)

    assert open_memory(store, *HERE).units == kept.units


@pytest.mark.parametrize("count", [1, MOST_IN_PART, MANY + 1])
def test_a_fleet_that_grew_or_shrank_is_laid_anew(
    store: Store, kept: FleetMemory, count: int
) -> None:
    kept.units = {f"T-{n}": unit(n) for n in range(count)}

    keep_memory(kept, store, *HERE)

    assert open_memory(store, *HERE).units == kept.units


def test_a_memory_is_written_whole_where_it_was_not_read(
    tmp_path: Path, store: Store, kept: FleetMemory
) -> None:
    elsewhere = Store(tmp_path / "elsewhere", "this program")
    other = (Path("fleet"), Path("fleet/other"))

    keep_memory(kept, elsewhere, *HERE)
    keep_memory(kept, store, *other)

    assert open_memory(elsewhere, *HERE).units == kept.units
    assert open_memory(store, *other).units == kept.units


def test_a_damaged_part_takes_no_other_with_it(store: Store, kept: FleetMemory) -> None:
    every = dict(kept.units)
    # What is remembered besides the units is small here.
    part = max(files_of(store), key=lambda path: path.stat().st_size)
    part.write_bytes(b"damaged")

    found = open_memory(store, *HERE)

    assert len(found.units) in {
        MANY - len(part) for part in FleetMemory(units=every).in_parts()["units"]
    }
    assert all(found.units[number] == every[number] for number in found.units)
    found.units = every
    keep_memory(found, store, *HERE)
    assert open_memory(store, *HERE).units == every


def record(number: int) -> tuple[tuple[int, int, int], SpecRecord]:
    return (number, 100, number), SpecRecord(f"specs/units/T-{number}.yml", None)


def test_what_was_read_comes_back_and_lies_still_while_files_do(store: Store) -> None:
    files = [record(number) for number in range(9)]
    kept = FleetMemory()
    kept.keep_records(10**18, files)
    keep_memory(kept, store, *HERE)
    before = files_of(store)

    found = open_memory(store, *HERE)
    again = [(state, found.recall_record(read.path, state)) for state, read in files]
    found.keep_records(2 * 10**18, [(state, read) for state, read in again if read])
    keep_memory(found, store, *HERE)

    assert [read for _, read in again] == [read for _, read in files]
    after = files_of(store)
    # Nothing but when it was read.
    assert sum(after[path] != before[path] for path in after) == 1


def test_a_file_that_was_read_anew_is_written_anew(store: Store) -> None:
    kept = FleetMemory()
    kept.keep_records(10**18, [record(1), record(2)])
    keep_memory(kept, store, *HERE)
    found = open_memory(store, *HERE)
    state, read = record(1)

    found.keep_records(2 * 10**18, [record(2), ((5, 5, 5), read)])
    keep_memory(found, store, *HERE)

    last = open_memory(store, *HERE)
    assert last.recall_record(read.path, (5, 5, 5)) == read
    assert last.recall_record(read.path, state) is None
