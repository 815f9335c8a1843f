"""Quizzes and sign-off sheets of a fleet's trucks, as files.

Takes in a project, its fleet and what to print; gives out the path of the PDF that was written.
Refuses a sheet that is not proved, or that does not say which guide it was made from, and when.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.build.load import Loaded
from guidegen.build.print_issue import check_issue, issue_in
from guidegen.build.print_shop import logo_of, paper_folder, theme_of
from guidegen.build.project import Project
from guidegen.build.whole_file import write_whole
from guidegen.decks.sizes import SIDES
from guidegen.finding import Findings
from guidegen.paper import quiz as quiz_sheet
from guidegen.paper import signoff as signoff_sheet
from guidegen.paper.matter import Matter
from guidegen.paper.sheet_press import Body, SheetPress
from guidegen.paper.signoff import Told
from guidegen.paper.stock import Stock
from guidegen.paper_proof.logo import LogoRead
from guidegen.paper_proof.model import PaperVerdict
from guidegen.paper_proof.prove import prove_quiz_sheet, prove_signoff
from guidegen.paper_proof.sheet_claims import SheetOrder
from guidegen.training.model import Quiz
from guidegen.training.signoff import Signoff


@dataclass(frozen=True, slots=True)
class TrainingOrder:
    """What paper to print on, and where to put the file."""

    unit: str
    """Its number; it has a guide."""

    stock: Stock
    folder: Path


@dataclass(frozen=True, slots=True)
class TrainingShop:
    """All that is needed to print for trainers."""

    project: Project
    loaded: Loaded

    def quiz(self, quiz: Quiz, order: TrainingOrder, findings: Findings) -> Path | None:
        """Write the quiz of a truck, its key on a page of its own at the end."""

        def body(matter: Matter) -> Body:
            return quiz_sheet.quiz_body(quiz, matter)

        def prove(pdf: bytes, sheet: SheetOrder, logo: LogoRead | None) -> PaperVerdict:
            return prove_quiz_sheet(pdf, quiz, sheet, logo)

        return self._print(_Sheet(quiz_sheet.TEMPLATE, "quiz", body, prove), order, findings)

    def signoff(
        self, signoff: Signoff, told: Sequence[Told], order: TrainingOrder, findings: Findings
    ) -> Path | None:
        """Write the sign-off sheet of a truck; *told* are its differences in words."""

        def body(matter: Matter) -> Body:
            return signoff_sheet.signoff_body(signoff, matter, told, revision)

        def prove(pdf: bytes, sheet: SheetOrder, logo: LogoRead | None) -> PaperVerdict:
            return prove_signoff(
                pdf, replace(sheet, known_revision=revision), known_guide, logo=logo
            )

        known = signoff.differences.known if signoff.differences else ""
        known_guide = self.loaded.guides[known] if known else None
        revision = issue_in(self.loaded, known_guide).revision if known_guide else ""
        name = f"signoff-from-{known}" if known else "signoff"
        return self._print(_Sheet(signoff_sheet.TEMPLATE, name, body, prove), order, findings)

    def _print(self, sheet: "_Sheet", order: TrainingOrder, findings: Findings) -> Path | None:
        own = Findings()
        fleet, guide = self.loaded.fleet, self.loaded.guides[order.unit]
        check_issue(self.loaded, own)
        theme = theme_of(self.project, own)
        findings.extend(own)
        if own.has_errors or theme is None:
            return None
        issue = issue_in(self.loaded, guide)
        press = SheetPress.at(paper_folder(self.project) / sheet.template, theme, fleet.name)
        drawn = press.draw(sheet.body(Matter(guide)), guide, issue, order.stock, findings)
        if drawn is None:
            return None
        asked = SheetOrder(guide, SIDES[order.stock.id], issue, fleet.span)
        verdict = sheet.prove(drawn, asked, logo_of(theme, paper_folder(self.project)))
        findings.extend(failure.as_finding() for failure in verdict.failures)
        if not verdict.is_proved:
            return None
        return write_whole(order.folder / order.unit / f"{sheet.name}.pdf", drawn)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """One kind of sheet: how it is drawn, and how it is proved."""

    template: str
    name: str
    body: Callable[[Matter], Body]
    prove: Callable[[bytes, SheetOrder, LogoRead | None], PaperVerdict]
