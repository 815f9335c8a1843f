"""Whether contents and links lead to what they name.

Takes in what was read of a page and of the navigation around it; records links that lead to
another place and contents that leave something out or name too much.
Refuses contents in another order than the guide's.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.guide.model import Guide
from guidegen.proof import rules
from guidegen.proof.claims import (
    DIFFERENCES_PATH,
    LAMP_FINDER,
    LAMPS_PATH,
    QUIZ,
    ROUND,
    SEARCH,
    EditionClaims,
    PageClaims,
    card_path,
)
from guidegen.proof.compare_words import place_of
from guidegen.proof.faults import Faults
from guidegen.proof.links import resolve_address
from guidegen.proof.marks import Mark
from guidegen.proof.model import Reading
from guidegen.proof.read_html import Body

_SEE_TEMPLATE = "repair the page template"
_MAY_NAVIGATE = (Mark.CHAPTER, Mark.LABEL, Mark.PROCEDURE_LINK)


@dataclass(frozen=True, slots=True)
class Links:
    """The links and contents of one page, held against the guide."""

    page: PageClaims
    claims: EditionClaims
    guide: Guide
    faults: Faults

    def compare(self, body: Body) -> None:
        """Hold the links and contents in the body against the guide."""
        for reading in body.readings:
            self.compare_link(reading)
        listed = [e.claim.key for e in body.readings if e.claim.mark is Mark.PROCEDURE_LINK]
        if (listed or self.page.kind == SEARCH) and tuple(listed) != self._procedures():
            self._add_contents(f"the contents name {_named(listed)}")
        for reading in body.readings:
            if reading.claim.mark is Mark.PROCEDURE_LINK and not reading.link:
                self._add_contents(f"`{reading.text}` leads nowhere")
        if self.page.kind == "start":
            self._compare_round(body.readings)
            self._compare_finder(body.readings)
            self._compare_picks(body.readings)
            self._compare_quiz(body.readings)
            self._compare_cards(body.readings)
            chapters = [e.claim.key for e in body.readings if e.claim.mark is Mark.CHAPTER]
            if chapters != [chapter.id for chapter in self.guide.chapters]:
                self._add_contents(f"the start page names {_named(chapters)}")

    def compare_navigation(self, navigation: Body) -> None:
        """Hold the navigation around the body against the guide."""
        chapters = [chapter.id for chapter in self.guide.chapters]
        found = [e.claim.key for e in navigation.readings if e.claim.mark is Mark.CHAPTER]
        labels = {e.claim.key for e in navigation.readings if e.claim.mark is Mark.LABEL}
        if found != chapters or not {"start", SEARCH, "data", "differences"} <= labels:
            self._add_contents(f"the navigation leads to {_named(found)}")
        self._compare_round(navigation.readings)
        self._compare_finder(navigation.readings)
        self._compare_quiz(navigation.readings)
        for reading in navigation.readings:
            if reading.claim.mark not in _MAY_NAVIGATE:
                self.faults.add(
                    rules.UNCLAIMED_MARK,
                    "does not belong in the navigation",
                    fix=_SEE_TEMPLATE,
                    mark=place_of(reading),
                )
            if not reading.link:
                self._add_contents(f"`{reading.text}` leads nowhere")
            self.compare_link(reading)

    def compare_tools(self, tools: Body) -> None:
        """Hold what the bar leads to against what it must lead to."""
        found = [e.claim.key for e in tools.readings if e.claim.mark is Mark.LABEL and e.link]
        if tuple(found) != self.claims.tools or len(found) != len(tools.readings):
            self._add_contents(f"the bar leads to {_named(found)}")
        for reading in tools.readings:
            self.compare_link(reading)

    def _compare_round(self, readings: Sequence[Reading]) -> None:
        """Hold the way to the inspection round against whether the truck has one."""
        ways = [e for e in readings if e.claim[:2] == (Mark.LABEL, ROUND) and e.link]
        if self.claims.round is not None and not ways:
            self._add_contents("nothing leads to the inspection round")
        elif self.claims.round is None and ways:
            self._add_contents("something leads to an inspection round, and the truck has none")

    def _compare_quiz(self, readings: Sequence[Reading]) -> None:
        """Hold the way to the quiz against whether the truck has one."""
        ways = [e for e in readings if e.claim[:2] == (Mark.LABEL, QUIZ) and e.link]
        if bool(ways) != (self.claims.quiz is not None):
            self._add_contents(f"{len(ways)} links lead to the quiz")

    def _compare_finder(self, readings: Sequence[Reading]) -> None:
        """Hold the way to the lamp finder against whether the truck has lamps on record."""
        ways = [e for e in readings if e.claim[:2] == (Mark.LABEL, LAMP_FINDER) and e.link]
        if bool(ways) != (self.claims.lamps is not None):
            self._add_contents(f"{len(ways)} links lead to the lamp finder")

    def _compare_picks(self, readings: Sequence[Reading]) -> None:
        """Hold the ways to the colors of lamps against the colors that the truck's lamps have."""
        picked = [e.claim.key for e in readings if e.claim.mark is Mark.LAMP_COLOR and e.link]
        colors = self.claims.lamps.colors if self.claims.lamps else ()
        if picked != [each.color for each in colors]:
            self._add_contents(f"the start page leads to the lamps of the colors {_named(picked)}")

    def _compare_cards(self, readings: Sequence[Reading]) -> None:
        """Hold the ways to printed cards against the cards that stand beside the page."""
        ways = [e.claim.key for e in readings if e.claim.mark is Mark.CARD and e.link]
        if tuple(ways) != self.claims.cards:
            self._add_contents(f"the start page leads to the cards {_named(ways)}")

    def compare_link(self, reading: Reading) -> None:
        """Hold where a text leads against what it names; most texts lead nowhere."""
        if not reading.link:
            return
        wanted = self._target(reading)
        if not wanted:
            return
        place, fragment = resolve_address(f"{self.guide.number}/{self.page.path}", reading.link)
        found = f"{place}#{fragment}" if fragment else place
        if found != wanted:
            self.faults.add(
                rules.LINK_TO_OTHER_PLACE,
                f"leads to `{found}` and not to `{wanted}`",
                fix=_SEE_TEMPLATE,
                mark=place_of(reading),
            )

    def _target(self, reading: Reading) -> str:
        folder, mark, key = self.guide.number, reading.claim.mark, reading.claim.key
        match mark:
            case Mark.CHAPTER:
                return f"{folder}/{key}.html"
            case Mark.PROCEDURE_LINK:
                return f"{folder}/{self.claims.leaf_of.get(key, '')}.html#{key}"
            case Mark.LAMP_COLOR:
                return f"{folder}/{LAMPS_PATH}#{key}"
            case Mark.CARD:
                return f"{folder}/{card_path(key)}"
            case Mark.LABEL:
                named = {
                    "start": f"{folder}/index.html",
                    "data": f"{folder}/data.html",
                    ROUND: f"{folder}/round.html",
                    LAMP_FINDER: f"{folder}/{LAMPS_PATH}",
                    "to_round": f"{folder}/round.html",
                    "to_lamps": f"{folder}/{LAMPS_PATH}",
                    "chapters": f"{folder}/{self.page.path}#chapters",
                    SEARCH: f"{folder}/search.html",
                    QUIZ: f"{folder}/quiz.html",
                    "differences": f"{folder}/{DIFFERENCES_PATH}",
                    "all_trucks": "index.html",
                }
                return named.get(key, "")
            case _:
                return ""

    def _procedures(self) -> tuple[str, ...]:
        if self.page.kind == SEARCH:
            return self.claims.by_alphabet
        return self.claims.contents.get(self.page.name, ())

    def _add_contents(self, what: str) -> None:
        self.faults.add(rules.CONTENTS_DIFFER, what, fix=_SEE_TEMPLATE)


def _named(keys: Sequence[str]) -> str:
    return ", ".join(f"`{key}`" for key in keys) or "nothing"
