"""What a served page says of itself, beside what it says of the truck.

Takes in a page and how far its proof has come; gives out the page with a bar at its end. Refuses
to be part of the site: the bar is put in when the page is sent, and its files have addresses of
their own.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from importlib import resources

from guidegen.finding import Finding

OWN = "guidegen-serve"
"""First part of all addresses that belong to the server and not to the site."""

STATE_PATH = f"{OWN}/state"
_FILES = {"live.js": "text/javascript", "live.css": "text/css"}
_MOST_TOLD = 5
_END = b"</body>"

PREVIEW = "Preview. This page was proved alone; the whole site is being built and proved."
ALONE = "Preview. Each page is proved alone when it is opened; `guidegen build` proves the whole."
HELD = "Not up to date: this page stands as it was before, because of what was found."
FAULTY = "Something was found in the files. This page is not held back by it."
UNPROVED = "The whole site was built, and the proof did not pass it."


@dataclass(frozen=True, slots=True)
class Bar:
    """What is said; empty if the page is as it will be published."""

    words: str = ""
    found: tuple[Finding, ...] = ()

    @property
    def html(self) -> str:
        """The inside of the bar."""
        if not self.words:
            return ""
        items = "".join(f"<li>{escape(line)}</li>" for line in _lines(self.found))
        return f"<p>{escape(self.words)}</p>{f'<ul>{items}</ul>' if items else ''}"


def with_bar(page: bytes, bar: Bar, version: int) -> bytes:
    """Return *page* with *bar*, and with the script that shows it again when it has changed.

    Args:
        page: HTML.
        bar: What is said.
        version: Of what is known when the page is sent.
    """
    kind = "held" if bar.found else "preview"
    hidden = "" if bar.words else " hidden"
    added = (
        f'<link rel="stylesheet" href="/{OWN}/live.css">'
        f'<div id="{OWN}" class="{OWN}-{kind}" role="status" data-version="{version}" '
        f'data-page="{digest_of(page)}"{hidden}>{bar.html}</div>'
        f'<script src="/{OWN}/live.js"></script>'
    ).encode()
    before, end, after = page.rpartition(_END)
    return b"".join((before, added, end, after)) if end else page + added


def digest_of(page: bytes) -> str:
    """Return what tells *page* from what it was before."""
    return hashlib.sha256(page).hexdigest()[:16]


def own_file(name: str) -> tuple[str, bytes] | None:
    """Return type and bytes of one of the bar's own files."""
    kind = _FILES.get(name)
    if kind is None:
        return None
    return kind, resources.files("guidegen.serving").joinpath(name).read_bytes()


def _lines(found: Sequence[Finding]) -> list[str]:
    lines = [
        f"{each.where}: {each.what}; {each.fix}" if each.where else f"{each.what}; {each.fix}"
        for each in found[:_MOST_TOLD]
    ]
    more = len(found) - _MOST_TOLD
    return [*lines, f"and {more} more, in the terminal"] if more > 0 else lines
