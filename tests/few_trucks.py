"""The demo fleet with some of its trucks only.

Where a fault of one truck is planted, every other truck costs its drawing, its proof and its sheets
for all others, and shows no more.
"""

from collections.abc import Collection
from pathlib import Path

FEW = ("E-02", "T-17", "T-18")
"""Two trucks of one model, and one that shares little with them."""


def keep(project: Path, trucks: Collection[str] = FEW) -> Path:
    """Leave some trucks in *project*; return it."""
    units = project / "specs" / "units"
    assert all((units / f"{truck}.yml").is_file() for truck in trucks)
    for path in units.iterdir():
        if path.stem not in trucks:
            path.unlink()
    return project


def keep_models(project: Path) -> Path:
    """Leave only models of which *project* has a truck; return it.

    Not for a project whose photos are of other models.
    """
    specs = project / "specs"
    texts = [path.read_text(encoding="utf-8") for path in (specs / "units").iterdir()]
    named = {
        line.partition(": ")[2]
        for text in texts
        for line in text.splitlines()
        if line[:6] == "model:"
    }
    assert named <= {path.stem for path in (specs / "models").iterdir()}
    for path in (specs / "models").iterdir():
        if path.stem not in named:
            path.unlink()
    return project


def without_cards(project: Path) -> Path:
    """Let *project* print no cards, which take half the time of a build; return it.

    A card needs an address for its code and a date. Not where what is typed could reach a card.
    """
    fleet = project / "specs" / "fleet.yml"
    lines = fleet.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith(("address:", "issued:"))]
    assert len(kept) < len(lines)
    fleet.write_text("".join(kept), encoding="utf-8", newline="\n")
    return project
