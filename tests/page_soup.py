"""Beautiful Soup with the questions that the tests ask of pages, and types."""

from pathlib import Path

from bs4 import BeautifulSoup, Tag


def soup_of(html: str) -> BeautifulSoup:
    return BeautifulSoup(html, "html.parser")


def soup_in(path: Path) -> BeautifulSoup:
    return soup_of(path.read_text(encoding="utf-8"))


def only(tag: Tag, selector: str) -> Tag:
    """Return the one element in *tag* that *selector* matches."""
    found = tag.select(selector)
    assert len(found) == 1, f"{len(found)} of {selector}"
    return found[0]


def attribute(tag: Tag, name: str) -> str:
    value = tag.attrs[name]
    return value if isinstance(value, str) else " ".join(value)


def attributes(tag: Tag, name: str, among: str = "") -> list[str]:
    """Return the values of the attribute *name* in *tag*, in order."""
    return [attribute(found, name) for found in tag.select(f"{among}[{name}]")]


def words(tag: Tag) -> str:
    return " ".join(tag.get_text().split())
