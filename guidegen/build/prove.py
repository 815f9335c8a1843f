"""From a folder of published files to a verdict.

Takes in a fleet with its guides, and a folder; gives out what the proof found in it.
Refuses to trust what is in memory: every file is read back from the disk.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from types import MappingProxyType

from guidegen.build.card_proof import CardProof
from guidegen.build.held_cards import StatedCards, state_cards
from guidegen.build.load import Loaded
from guidegen.build.print_shop import PrintShop
from guidegen.build.progress import Progress, unseen
from guidegen.finding import Finding, Findings
from guidegen.guide.model import Guide
from guidegen.paper_proof.model import PaperCounts, PaperVerdict
from guidegen.proof.claims import card_path
from guidegen.proof.fleet_claims import Read
from guidegen.proof.model import Failure, FleetVerdict
from guidegen.proof.prove import prove_fleet
from guidegen.proof.report import STYLE, STYLE_NAME, report_html, report_json
from guidegen.training.model import Quiz

OFFICE = "office"
"""Folder of the site that is for the office and not for drivers."""
NO_CARDS = StatedCards({}, {}, Findings())
NOTHING_PRINTED = PaperVerdict(PaperCounts(), (), ())
_NO_QUIZZES: Mapping[str, Quiz] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of publishing or proving a site."""

    published: bool
    verdict: FleetVerdict
    findings: Findings
    """Failures of the proof, and of cards that are held back."""

    printed: PaperCounts = field(default_factory=PaperCounts)
    """How much was read back of what is printed."""

    @property
    def proved(self) -> bool:
        """Whether the proof has passed."""
        return self.verdict.is_proved

    @property
    def counts(self) -> Mapping[str, int]:
        """How much was proved, and how much failed."""
        counts = asdict(self.verdict.counts)
        if self.verdict.counts.revisions == 0:
            del counts["revisions"]
        return {
            "units": len(self.verdict.units),
            **counts,
            **({"sides": self.printed.sides} if self.printed.sides else {}),
            "failures": len(self.verdict.all_failures),
        }

    def with_failures(self, failures: Iterable[Failure]) -> "Outcome":
        """Return the outcome with what is wrong beside the pages of trucks."""
        found = tuple(failures)
        told = Findings()
        told.extend((*self.findings, *(each.as_finding() for each in found)))
        verdict = replace(self.verdict, failures=(*self.verdict.failures, *found))
        return replace(self, verdict=verdict, findings=told)

    def in_place(self) -> "Outcome":
        """Return the outcome of a site that now stands where readers see it."""
        return replace(self, published=True)


def outcome_of(
    loaded: Loaded,
    verdict: FleetVerdict,
    printed: PaperVerdict,
    held: Iterable[str] = (),
    findings: Iterable[Finding] = (),
) -> Outcome:
    """Return what came of proving a site that no reader sees yet.

    Args:
        loaded: The fleet that it is of.
        verdict: On its pages.
        printed: On its cards.
        held: Statements of cards that are held back.
        findings: Why, and what else was found.
    """
    whole = replace(
        verdict,
        units=tuple(
            replace(each, failures=_in_own_places(each.failures, loaded)) if each.failures else each
            for each in verdict.units
        ),
        failures=_in_own_places((*verdict.failures, *printed.failures), loaded),
        unchecked=(*verdict.unchecked, *dict.fromkeys(printed.unchecked), *held),
    )
    told = Findings()
    told.extend(findings)
    told.extend(failure.as_finding() for failure in whole.all_failures)
    return Outcome(published=False, verdict=whole, findings=told, printed=printed.counts)


def prove_folder(  # noqa: PLR0913, PLR0917 -- a site is all of this
    loaded: Loaded,
    held_back: tuple[str, ...],
    folder: Path,
    progress: Progress = unseen,
    quizzes: Mapping[str, Quiz] = _NO_QUIZZES,
    shop: PrintShop | None = None,
) -> Outcome:
    """Return what the proof finds in *folder*.

    Args:
        loaded: The fleet with its guides.
        held_back: Numbers of units that have a file and no guide.
        folder: The published files.
        progress: Shows how far the work has come.
        quizzes: By edition.
        shop: What printed the cards; none if there are none.
    """

    def read(path: str) -> bytes | None:
        file = folder / path
        return file.read_bytes() if file.is_file() else None

    listing = sorted(
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and path.relative_to(folder).parts[0] != OFFICE
    )
    guides = loaded.guides.values()
    stated = state_cards(shop, guides, read) if shop else NO_CARDS

    def watch(proving: Iterable[Guide]) -> Iterator[Guide]:
        return progress(proving, len(guides), "proving")

    verdict = prove_fleet(
        guides,
        read,
        listing,
        held_back=held_back,
        offer=loaded.offer,
        rounds=loaded.rounds,
        quizzes=quizzes,
        cards=stated.by_unit,
        history=loaded.history,
        has_packs=True,
        watch=watch,
    )
    printed = prove_printed(guides, shop, read, progress) if shop else NOTHING_PRINTED
    return outcome_of(loaded, verdict, printed, stated.unchecked, stated.findings)


def _in_own_places(failures: Iterable[Failure], loaded: Loaded) -> tuple[Failure, ...]:
    """Return *failures* with each place in the file of the unit that it is about, or its model."""
    return tuple(replace(each, span=loaded.own_place(each.unit, each.span)) for each in failures)


def prove_printed(
    guides: Collection[Guide], shop: PrintShop, read: Read, progress: Progress = unseen
) -> PaperVerdict:
    """Return what the proof finds of all cards of the site, each read back from its PDF."""
    verdicts: dict[str, PaperVerdict] = {}
    proof = CardProof()
    # Trucks of one edition follow one another, so that what they share is read once.
    in_editions = sorted(guides, key=lambda each: (each.edition, each.number))
    for guide in progress(in_editions, len(guides), "proving cards"):
        # Which photos have room on a card is found out anew.
        cards = shop.fitted(guide, shop.dealt(guide))
        drawn = ((card, read(f"{guide.number}/{card_path(card.kind.id)}")) for card in cards)
        # That a file is not there has been said by the proof of the site.
        found = ((card, pdf) for card, pdf in drawn if pdf is not None)
        verdicts[guide.number] = proof.prove(found, guide, shop.issue(guide), shop.logo)
    return sum((verdicts[guide.number] for guide in guides), NOTHING_PRINTED)


def write_reports(outcome: Outcome, folder: Path) -> None:
    """Write the report of the proof for people and for programs."""
    folder.mkdir(parents=True, exist_ok=True)
    _write(folder / STYLE_NAME, STYLE)
    _write(folder / "proof.html", report_html(outcome.verdict, asdict(outcome.printed)))
    _write(folder / "proof.json", report_json(outcome.verdict, asdict(outcome.printed)))


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
