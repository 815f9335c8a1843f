"""The commands that are killed, each with what must hold after a kill.

A program of its own, `python killed_commands.py COMMAND FOLDER`, since it must have no threads.
FOLDER holds the fleet that the tests have prepared. Prints one object of JSON.
"""

import argparse
import hashlib
import json
import os
import random
import sys
from collections.abc import Callable, Mapping
from dataclasses import asdict
from pathlib import Path

from folder_tree import Tree, digest_of, outline_of, put_back, tree_of
from killing import Again, Killer, Scene
from published_site import as_read, built, contents, versions_in
from read_before import Reader, Writer

import guidegen.build.release
import guidegen.commands.publish
import guidegen.commands.release
import guidegen.commands.workbook
from guidegen.build.project import open_project
from guidegen.build.publish import Publishing
from guidegen.build.record_files import check_editions, open_record
from guidegen.build.spec_journal import JOURNAL, WAITING
from guidegen.finding import Findings

KEEP = 2
LOCK = "release.lock"
LINES, HEAD = "revisions.jsonl", "head"


class PublishScene:
    """A site of some files is published over an older one, and the version before that goes.

    To a place with a link or to one with a pointer, as it is drawn.
    """

    def __init__(self, fleet: Path) -> None:
        self.old = contents(built(fleet.with_name("old-site"), "old"))
        self.new = contents(built(fleet / "site", "new"))
        self.is_pointer = False
        self.before: dict[bool, Tree] = {}
        self.readers: tuple[Reader, ...] = (
            Reader(guidegen.commands.publish, "_last_release", lambda: ""),
        )
        self.writer = Writer(Publishing, "publish")

    @property
    def place(self) -> Path:
        return Path("..") / ("pointer" if self.is_pointer else "link")

    def arguments(self) -> tuple[str, ...]:
        pointer = ("--pointer",) * self.is_pointer
        return "publish", str(self.place / "guides"), "--keep", str(KEEP), *pointer

    def get_ready(self, again: Again) -> None:
        for self.is_pointer in (False, True):
            self.place.mkdir()
            again(*self.arguments())
            again(*self.arguments(), "--site", "../old-site")
            assert self.look() == "old"
            self.before[self.is_pointer] = tree_of(self.place)

    def reset(self, lots: random.Random) -> None:
        self.is_pointer = lots.random() < 1 / 2
        put_back(self.place, self.before[self.is_pointer])

    def look(self) -> str:
        read = as_read(self.place / "guides", pointer=self.is_pointer)
        assert read in (self.old, self.new), "readers see neither version whole"
        return "old" if read == self.old else "new"

    def follow(self, again: Again) -> None:
        again(*self.arguments())
        assert self.look() == "new"
        kept = versions_in(self.place / "guides", pointer=self.is_pointer)
        assert len(kept) == 2 * KEEP + 1, kept
        left = [name for name in tree_of(self.place) if name.endswith((".new", ".lock"))]
        assert not left, left
        again("publish", str(self.place / "guides"), "--rollback")
        assert self.look() == "old"

    def state(self) -> object:
        return outline_of(self.place)


class ReleaseScene:
    """The first or the second revision of two trucks is released."""

    def __init__(self, fleet: Path) -> None:
        self.records = fleet / "records"
        self.before = self.after = tree_of(self.records)
        self._checked: set[str] = set()
        self.readers: tuple[Reader, ...] = (
            Reader(guidegen.commands.release, "plan_release", self._to_be_read),
            Reader(guidegen.commands.release, "_proved", self._to_be_read),
        )
        self.writer = Writer(guidegen.build.release, "write_release")

    def arguments(self) -> tuple[str, ...]:
        return "release", "--by", "Renske Aldous", "--date", "2026-11-30"

    def get_ready(self, again: Again) -> None:
        again(*self.arguments())
        self.after = tree_of(self.records)
        assert self.look() == "new"
        again(*self.arguments())
        of_before = {name: raw for name, raw in self.before.items() if name == HEAD}
        rest = {name: raw for name, raw in self.after.items() if name != HEAD}
        put_back(self.records, {**rest, **of_before})
        again(*self.arguments())

    def reset(self, lots: random.Random) -> None:
        del lots
        put_back(self.records, self.before)
        if not self.before and self.records.exists():
            self.records.rmdir()

    def look(self) -> str:
        tree = tree_of(self.records)
        before, raw, after = (each.get(LINES, b"") for each in (self.before, tree, self.after))
        assert raw in (before, after)
        assert isinstance(raw, bytes)
        # FIPS 180-4 (SHA-256) by hashlib: the chain, and the files that its lines name.
        above = "0" * 64
        for line in raw.splitlines(keepends=True):
            told = json.loads(line)
            assert told["before"] == above
            assert told["seal"] == hashlib.sha256(line[: line.rindex(b',"seal":')]).hexdigest()
            above = hashlib.sha256(line).hexdigest()
            for name, digest in (
                (f"editions/{told['edition']}.json", told["snapshot"]),
                (f"outputs/{told['unit']}-{told['revision']}.sha256", told["outputs"]),
            ):
                kept = tree[name]
                assert isinstance(kept, bytes)
                assert hashlib.sha256(kept).hexdigest() == digest, name
        self._check_as_readers_do(tree)
        return "old" if raw == before else "new"

    def follow(self, again: Again) -> None:
        again(*self.arguments())
        assert tree_of(self.records) == self.after, "the record is not as without a kill"

    def state(self) -> object:
        return outline_of(self.records)

    def _check_as_readers_do(self, tree: Tree) -> None:
        """Have guidegen itself read the record; once for all that it reads."""
        read = digest_of({n: raw for n, raw in tree.items() if not n.endswith((".new", LOCK))})
        if read in self._checked:
            return
        self._checked.add(read)
        findings = Findings()
        project = open_project(self.records.parent)
        record = open_record(project, findings)
        if record is not None:
            check_editions(project, record, findings)
        assert not len(findings), [each.what for each in findings]

    def _to_be_read(self) -> object:
        found = tree_of(self.records)
        return tuple(found.get(name) for name in (LINES, HEAD))


class ImportScene:
    """A workbook is imported that changes a model and two trucks and brings in a third."""

    def __init__(self, fleet: Path) -> None:
        self.fleet, self.specs = fleet, fleet / "specs"
        self.before = self.after = self._kept()
        self.book = (fleet / "fleet.xlsx").read_bytes()
        self.readers: tuple[Reader, ...] = (
            Reader(guidegen.commands.workbook, "plan_import", lambda: digest_of(self._kept())),
        )
        self.writer = Writer(guidegen.commands.workbook, "write_import")

    def arguments(self) -> tuple[str, ...]:
        return "workbook", "import", "fleet.xlsx", "--apply"

    def get_ready(self, again: Again) -> None:
        again(*self.arguments())
        self.after = self._kept()
        again(*self.arguments())
        assert self.look() == "new"
        changed = [name for name, raw in self.after.items() if self.before.get(name) != raw]
        assert len(changed) > 3, changed
        for name, raw in self.before.items():
            assert set(_comments_in(raw)) <= set(_comments_in(self.after[name])), name
        assert any(_comments_in(self.before[name]) for name in changed if name in self.before)

    def reset(self, lots: random.Random) -> None:
        del lots
        put_back(self.specs, self.before)

    def look(self) -> str:
        assert (self.fleet / "fleet.xlsx").read_bytes() == self.book, "the clerk's file was touched"
        kept = self._kept()
        for name in {*kept, *self.after}:
            assert kept.get(name) in (self.before.get(name), self.after[name]), f"half of {name}"
        if (self.specs / WAITING / JOURNAL).exists():
            return "decided"
        assert kept in (self.before, self.after), "some files are old and some are new"
        return "old" if kept == self.before else "new"

    def follow(self, again: Again) -> None:
        if self.look() == "decided":
            # Any command that reads specs.
            again("history", "T-17")
            assert self.look() == "new"
        again(*self.arguments())
        assert tree_of(self.specs) == self.after
        assert self.look() == "new"

    def state(self) -> object:
        return outline_of(self.specs)

    def _kept(self) -> Tree:
        """Return what those who read specs see."""
        tree = tree_of(self.specs)
        return {name: raw for name, raw in tree.items() if not name.startswith(f"{WAITING}/")}


def _comments_in(raw: bytes | str) -> list[bytes]:
    assert isinstance(raw, bytes)
    return [line[line.index(b"#") :] for line in raw.splitlines() if b"# " in line]


SCENES: Mapping[str, Callable[[Path], Scene]] = {
    "publish": PublishScene,
    "release": ReleaseScene,
    "import": ImportScene,
}


def main() -> None:
    """Kill one command, and print what came of it."""
    parser = argparse.ArgumentParser()
    parser.add_argument("command", choices=sorted(SCENES))
    parser.add_argument("folder", type=Path)
    parser.add_argument("--kills", type=int, required=True)
    parser.add_argument("--whole", type=int, required=True)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--on-disk", action="store_true", help="wait for the disk, as users do")
    asked = parser.parse_args()
    if not asked.on_disk:
        # A kill is no power cut: what was written stays, whether anybody waited for the disk.
        os.fsync = lambda fd: None  # noqa: ARG005 -- as the system's is called
        os.sync = lambda: None
    fleet = asked.folder.resolve() / "fleet"
    os.chdir(fleet)
    scene = SCENES[asked.command](fleet)
    lots = random.Random(asked.seed)  # noqa: S311 -- moments, not secrets
    killer = Killer(scene, asked.folder.resolve() / "said.txt", lots)
    try:
        told = killer.kill(asked.kills, asked.whole)
    finally:
        # Shown only if it went wrong.
        sys.stderr.write(f"{asked.command}: run {killer.number} with the seed {asked.seed}\n")
    json.dump(asdict(told), sys.stdout)


if __name__ == "__main__":
    main()
