"""The reviewer's list as Markdown and as plain values.

Takes in the sections of the list; gives out one page a section, and an index that counts what
rests on what. Refuses to leave a page of a section that is gone.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from guidegen.build.number_list.model import Ground, NumberEntry, NumberSection

INDEX = "index.md"


def number_pages(sections: Sequence[NumberSection]) -> Mapping[str, str]:
    """Return the text of each page by its file name, the index among them."""
    pages = {f"{section.id}.md": _page(section) for section in sections}
    return {INDEX: _index(sections), **pages}


def write_number_pages(sections: Sequence[NumberSection], folder: Path) -> tuple[Path, ...]:
    """Write all pages into *folder*, remove other pages there, and return the files."""
    folder.mkdir(parents=True, exist_ok=True)
    pages = number_pages(sections)
    for stray in folder.glob("*.md"):
        if stray.name not in pages:
            stray.unlink()
    for name, text in pages.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return tuple(folder / name for name in pages)


def numbers_as_json(sections: Sequence[NumberSection]) -> list[dict[str, Any]]:
    """Return the list as plain values, section by section."""
    return [
        {
            "section": section.id,
            "title": section.title,
            "entries": [
                {
                    "place": entry.place,
                    "numbers": list(entry.numbers),
                    "says": entry.says,
                    "source": entry.source,
                    "standing": entry.ground.value,
                }
                for entry in section.entries
            ],
        }
        for section in sections
    ]


def counted_numbers(sections: Sequence[NumberSection]) -> str:
    """Return one line for each section: how many entries, and what most of them rest on."""
    widest = max(len(section.title) for section in sections)
    return "\n".join(
        f"{section.title:{widest}}  {len(section.entries):5,}  {_grounds(section)}"
        for section in sections
    )


def _grounds(section: NumberSection) -> str:
    counts = Counter(entry.ground for entry in section.entries)
    return ", ".join(f"{counts[ground]} {ground.value}" for ground in Ground if counts[ground])


def _index(sections: Sequence[NumberSection]) -> str:
    total = sum(len(section.entries) for section in sections)
    grounds = [ground.value for ground in Ground]
    lines = [
        "# Numbers of the library",
        "",
        "Made from the files: `guidegen numbers --out docs/numbers`.",
        "",
        f"Every number that comes from us and not from a fleet's specs: {total:,} entries, each",
        "with its place, its source and what it rests on, the weakest first.",
        "Values of a truck are no part of it: they carry the document that the office copied.",
        "Nor are sizes on the screen, contrasts, and limits of the program that say nothing of a",
        "truck.",
        "",
        f"| Section | Entries | {' | '.join(grounds)} |",
        f"|---|--:|{'--:|' * len(grounds)}",
    ]
    for section in sections:
        counts = Counter(entry.ground for entry in section.entries)
        cells = " | ".join(str(counts[ground] or "") for ground in Ground)
        link = f"[{section.title}]({section.id}.md)"
        lines.append(f"| {link} | {len(section.entries)} | {cells} |")
    return "\n".join([*lines, ""])


def _page(section: NumberSection) -> str:
    lines = [f"# {section.title}", "", section.intro, ""]
    for ground in Ground:
        entries = [entry for entry in section.entries if entry.ground is ground]
        if entries:
            lines += _table(ground, entries)
    return "\n".join(lines)


def _table(ground: Ground, entries: Sequence[NumberEntry]) -> list[str]:
    heading = f"{ground.value[0].upper()}{ground.value[1:]}"
    rows = [
        f"| {_cell(', '.join(entry.numbers))} | {_cell(entry.says)} | {_cell(entry.source)} | "
        f"{entry.place} |"
        for entry in entries
    ]
    head = ["| Number | What it says | Source | Place |", "|---|---|---|---|"]
    return [f"## {heading}", "", *head, *rows, ""]


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")
