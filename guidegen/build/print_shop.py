"""Cards of a fleet's trucks, from its files.

Takes in a project and its fleet; gives out the PDF of each card.
Refuses to print what is not dated or leads nowhere: a card outlives the guide it came from.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.build.load import Loaded
from guidegen.build.print_issue import check_issue, issue_in
from guidegen.build.project import Project
from guidegen.decks.deal import deal_cards
from guidegen.decks.kinds import card_kinds
from guidegen.decks.model import Card, CardKind, Issue
from guidegen.decks.sizes import SIDES, Side
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.paper.card import CardPress
from guidegen.paper.logo import logo_from
from guidegen.paper.matter import Matter
from guidegen.paper.theme import Theme, theme_from
from guidegen.paper.typeset import Typesetter
from guidegen.paper_proof.booklet_claims import BookletOrder
from guidegen.paper_proof.logo import LogoRead, read_logo
from guidegen.round.model import Round
from guidegen.specs.read import read_cards, read_theme

CARDS_FILE = "cards.yml"
PAPER_FOLDER = "paper"
THEME_FILE = "theme.yml"
_ANY_DATE = "2000-01-01"
"""Of a page that is thrown away."""


@dataclass(frozen=True, slots=True)
class PrintedCard:
    """One card of one truck."""

    unit: str
    card: Card
    """With the photos that stand on it."""

    pdf: bytes
    """One page a side, in order."""


@dataclass(frozen=True, slots=True)
class PrintShop:
    """All that is needed to print for a fleet."""

    loaded: Loaded
    kinds: tuple[CardKind, ...]
    theme: Theme
    press: CardPress
    folder: Path
    """Of the templates of all that is printed."""

    project: Project
    """Whose files it was opened from."""

    logo: LogoRead | None = None
    """The fleet's mark alone, as it was read; for the proof."""

    def cards(
        self, number: str, kinds: Collection[CardKind], findings: Findings
    ) -> Iterator[PrintedCard]:
        """Yield the cards of the unit *number*; what fits on no side becomes a finding."""
        guide = self.loaded.guides[number]
        matter = Matter(guide)
        for card in self.fitted(guide, self.dealt(guide, kinds)):
            pdf = self.press.draw(card, matter, self.issue(guide), findings)
            if pdf is not None:
                yield PrintedCard(number, card, pdf)

    def booklet(self, number: str, stock: Side, findings: Findings) -> bytes | None:
        """Return the booklet of the unit *number*; what fits on no page becomes a finding.

        Args:
            number: Of a unit with a guide.
            stock: One of `BOOKLET_STOCKS`.
            findings: Takes what does not fit.
        """
        # No site needs it.
        from guidegen.paper.booklet import Booklet, BookletPress  # noqa: PLC0415

        guide = self.loaded.guides[number]
        fleet = self.loaded.fleet
        press = BookletPress.at(self.folder, self.theme, fleet.name)
        booklet = Booklet(guide, self._round_of(guide), stock, fleet.span)
        return press.draw(booklet, self.issue(guide), findings)

    def order(self, number: str, stock: Side) -> BookletOrder:
        """Return what the booklet of the unit *number* is held against."""
        guide, fleet = self.loaded.guides[number], self.loaded.fleet
        tour = self._round_of(guide)
        return BookletOrder(guide, tour, stock, fleet.name, self.issue(guide), fleet.span)

    def by_edition(self, units: Iterable[str]) -> tuple[str, ...]:
        """Return *units* with those of one edition next to one another, each once."""
        editions: dict[str, list[str]] = {}
        for number in dict.fromkeys(units):
            editions.setdefault(self.loaded.guides[number].edition, []).append(number)
        return tuple(number for numbers in editions.values() for number in numbers)

    def dealt(self, guide: Guide, kinds: Collection[CardKind] | None = None) -> tuple[Card, ...]:
        """Return the cards of *guide*, of all kinds if none are named."""
        return deal_cards(guide, self._round_of(guide), self.kinds if kinds is None else kinds)

    def fitted(self, guide: Guide, cards: Iterable[Card]) -> Iterator[Card]:
        """Yield *cards* of *guide*, each with the photos that have room on it."""
        matter, issue = Matter(guide), self.issue(guide)
        yield from (self.press.fitted(card, matter, issue) for card in cards)

    def issue(self, guide: Guide) -> Issue:
        """Return what every side of the truck of *guide* says of its origin."""
        return issue_in(self.loaded, guide)

    def _round_of(self, guide: Guide) -> Round | None:
        return self.loaded.rounds.get(guide.edition)


def open_print_shop(project: Project, loaded: Loaded, findings: Findings) -> PrintShop | None:
    """Return what prints for the fleet *loaded*, or nothing if its cards or theme have faults."""
    own = Findings()
    check_issue(loaded, own)
    kinds = _kinds(project, loaded, own)
    theme = theme_of(project, own)
    findings.extend(own)
    if own.has_errors or theme is None:
        return None
    folder = paper_folder(project)
    press = CardPress.at(folder, theme, loaded.fleet.name)
    return PrintShop(loaded, kinds, theme, press, folder, project, logo_of(theme, folder))


def open_stated_shop(project: Project, loaded: Loaded, findings: Findings) -> PrintShop | None:
    """Return what prints the cards that go with the site of *loaded*.

    A fleet that states neither address nor date of issue asks for none, which is no fault.
    A fleet that keeps a record needs no date of its own.
    """
    if not (loaded.fleet.address or loaded.fleet.issued):
        return None
    return open_print_shop(project, loaded, findings)


def resized(kinds: Collection[CardKind], size: str | None) -> tuple[CardKind, ...]:
    """Return *kinds*, all of the size named *size* if one is named."""
    if size is None:
        return tuple(kinds)
    return tuple(replace(kind, side=SIDES[size]) for kind in kinds)


def _kinds(project: Project, loaded: Loaded, findings: Findings) -> tuple[CardKind, ...]:
    path = project.template(CARDS_FILE)
    library = read_cards(project.shown(path), path.read_bytes(), findings)
    return card_kinds(library or (), loaded.fleet.cards, loaded.library, findings)


def theme_of(project: Project, findings: Findings) -> Theme | None:
    """Return how printed matter of *project* looks, or nothing if its theme has faults."""
    path = _theme_path(project)
    file = read_theme(project.shown(path), path.read_bytes(), findings)
    theme = None if file is None else theme_from(file, findings)
    if file is None or theme is None or file.logo is None:
        return theme
    stated = path.parent / str(file.logo.file.value)
    raw = stated.read_bytes() if stated.is_file() else None
    logo = logo_from(file.logo, raw, findings)
    return None if logo is None else replace(theme, logo=logo)


def theme_files(project: Project) -> Iterator[Path]:
    """Yield the files that `theme_of` reads: that of the theme, and that of the mark it names."""
    path = _theme_path(project)
    yield path
    file = read_theme(project.shown(path), path.read_bytes(), Findings())
    if file is not None and file.logo is not None:
        yield path.parent / str(file.logo.file.value)


def _theme_path(project: Project) -> Path:
    own = project.specs / THEME_FILE
    return own if own.is_file() else project.template(f"{PAPER_FOLDER}/{THEME_FILE}")


def logo_of(theme: Theme, folder: Path) -> LogoRead | None:
    """Return the mark of *theme* as the proof reads it, if there is one; *folder* is of templates.

    It is drawn alone, and read back.
    """
    if theme.logo is None:
        return None
    alone = Typesetter(folder / "logo.typ", theme.as_file()).draw(b"{}", {}, _ANY_DATE)
    return read_logo(alone, theme.logo.alt)


def paper_folder(project: Project) -> Path:
    """Return the folder of the templates of printed matter."""
    return project.template(f"{PAPER_FOLDER}/card.typ").parent
