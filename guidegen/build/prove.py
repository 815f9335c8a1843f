"""From a folder of published files to a verdict.

Takes in a fleet with its guides, and a folder; gives out what the proof found in it.
Refuses to trust what is in memory: every file is read back from the disk.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from types import MappingProxyType

from guidegen.build.load import Loaded
from guidegen.build.progress import Progress, unseen
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.proof.model import FleetVerdict
from guidegen.proof.prove import prove_fleet
from guidegen.proof.report import report_html, report_json
from guidegen.training.model import Quiz

OFFICE = "office"
"""Folder of the site that is for the office and not for drivers."""
_NO_QUIZZES: Mapping[str, Quiz] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of publishing or proving a site."""

    published: bool
    verdict: FleetVerdict
    findings: Findings
    """Failures of the proof."""

    @property
    def proved(self) -> bool:
        """Whether the proof has passed."""
        return self.verdict.is_proved

    @property
    def counts(self) -> Mapping[str, int]:
        """How much was proved, and how much failed."""
        return {
            "units": len(self.verdict.units),
            **asdict(self.verdict.counts),
            "failures": len(self.verdict.all_failures),
        }

    def in_place(self) -> "Outcome":
        """Return the outcome of a site that now stands where readers see it."""
        return replace(self, published=True)


def prove_folder(
    loaded: Loaded,
    held_back: tuple[str, ...],
    folder: Path,
    progress: Progress = unseen,
    quizzes: Mapping[str, Quiz] = _NO_QUIZZES,
) -> Outcome:
    """Return what the proof finds in *folder*."""

    def read(path: str) -> bytes | None:
        file = folder / path
        return file.read_bytes() if file.is_file() else None

    listing = sorted(
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and path.relative_to(folder).parts[0] != OFFICE
    )
    guides = loaded.guides.values()

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
        watch=watch,
    )
    findings = Findings()
    findings.extend(failure.as_finding() for failure in verdict.all_failures)
    return Outcome(published=False, verdict=verdict, findings=findings)


def write_reports(outcome: Outcome, folder: Path) -> None:
    """Write the report of the proof for people and for programs."""
    folder.mkdir(parents=True, exist_ok=True)
    _write(folder / "proof.html", report_html(outcome.verdict))
    _write(folder / "proof.json", report_json(outcome.verdict))


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8", newline="\n")
