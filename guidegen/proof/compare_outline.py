"""Whether a difference sheet has its headings, contents and warnings around the differences.

Takes in what was read of a sheet and what it must say; records headings over the wrong
differences, contents that lead elsewhere and warnings that are missing. Refuses any text around
the differences that is not on a closed list.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guidegen.differences.standing import RANKS
from guidegen.finding import Rule
from guidegen.proof import rules
from guidegen.proof.compare_words import place_of
from guidegen.proof.faults import Faults
from guidegen.proof.links import target_of
from guidegen.proof.marks import Mark
from guidegen.proof.model import Reading
from guidegen.proof.prove_page import PageRead
from guidegen.proof.sheet_model import NUMBER, Heading, SheetClaims

_SEE_TEMPLATE = "repair the template of the difference sheet"
_AROUND = frozenset(
    {
        *("park_first", "handbook_first", "no_substitute", "on_record_only", "contents"),
        *("no_differences", "known_truck", "given_truck", "differences", "start", "data"),
        "all_trucks",
    }
)
"""Labels that may stand outside of the differences."""

_NEEDED = ("park_first", "handbook_first", "no_substitute", "on_record_only")
_HEADS = {(Mark.KNOWN_FACT, NUMBER): "known_truck", (Mark.FACT, NUMBER): "given_truck"}
"""Label that must stand right before a truck's number outside of the differences."""


@dataclass(frozen=True, slots=True)
class Outline:
    """What stands around the differences of one sheet."""

    claims: SheetClaims
    read: PageRead
    page: str
    """Path of the sheet from the root of the site."""

    @property
    def faults(self) -> Faults:
        """Where failures are recorded."""
        return self.read.faults

    def compare(self, around: Sequence[Reading]) -> None:
        """Hold headings, contents and the texts *around* the differences against the claims."""
        self._compare_outline()
        self._compare_needed(around)
        self._compare_contents(around)
        before: Reading | None = None
        for reading in around:
            self._compare_alone(reading, before)
            before = reading

    def _compare_outline(self) -> None:
        wanted = self.claims.outline
        found = list(_outline_of(self.read.body.readings))
        for heading in _headings(Counter(wanted) - Counter(found)):
            self._report_heading(rules.TEXT_MISSING, heading, "is not there")
        for heading in _headings(Counter(found) - Counter(wanted)):
            rule = rules.TEXT_REPEATED if heading in wanted else rules.LABEL_MISPLACED
            self._report_heading(rule, heading, "does not belong there")
        kinds = [each if isinstance(each, Heading) else "" for each in wanted]
        if Counter(found) == Counter(wanted) and kinds != [
            each if isinstance(each, Heading) else "" for each in found
        ]:
            what = "headings stand over other differences than their own"
            self.faults.add(rules.LABEL_MISPLACED, what, fix=_SEE_TEMPLATE)

    def _report_heading(self, rule: Rule, heading: Heading, what: str) -> None:
        mark = f'{heading.mark.value}="{heading.key}"'
        self.faults.add(rule, what, fix=_SEE_TEMPLATE, mark=mark)

    def _compare_needed(self, around: Sequence[Reading]) -> None:
        found = Counter(reading.claim[:2] for reading in around)
        needed = [(Mark.LABEL, key) for key in _NEEDED] + list(_HEADS)
        if not self.claims.rows:
            needed.append((Mark.LABEL, "no_differences"))
        for mark, key in needed:
            if not found[mark, key]:
                rule = rules.SIDE_NOT_TOLD if (mark, key) in _HEADS else rules.TEXT_MISSING
                place = f'{mark.value}="{key}"'
                self.faults.add(rule, "is not there", fix=_SEE_TEMPLATE, mark=place)
        if self.claims.rows and found[Mark.LABEL, "no_differences"]:
            what = "says that nothing differs, and something does"
            self.faults.add(rules.LABEL_MISPLACED, what, fix=_SEE_TEMPLATE)

    def _compare_alone(self, reading: Reading, before: Reading | None) -> None:
        mark, key = reading.claim.mark, reading.claim.key
        if (mark, key) in _HEADS:
            if before is None or before.claim[:2] != (Mark.LABEL, _HEADS[mark, key]):
                what = f"does not stand right after `{_HEADS[mark, key]}`"
                self.faults.add(
                    rules.SIDE_NOT_TOLD, what, fix=_SEE_TEMPLATE, mark=place_of(reading)
                )
        elif mark not in (Mark.RANK, Mark.REASON) and not (mark is Mark.LABEL and key in _AROUND):
            self.faults.add(
                rules.UNCLAIMED_MARK,
                "does not belong outside of a difference",
                fix=_SEE_TEMPLATE,
                mark=place_of(reading),
            )

    def _compare_contents(self, around: Sequence[Reading]) -> None:
        linked = [each for each in around if each.claim.mark is Mark.RANK and each.link]
        keys = [each.claim.key for each in linked]
        if keys != list(self.claims.ranks):
            what = f"the contents name {', '.join(f'`{key}`' for key in keys) or 'nothing'}"
            self.faults.add(rules.CONTENTS_DIFFER, what, fix=_SEE_TEMPLATE)
        for reading in linked:
            key = reading.claim.key
            place = f'[id="rank-{key}"] [{Mark.RANK.value}="{key}"]'
            leads = target_of(reading, self.page) == f"{self.page}#rank-{key}"
            if not leads or (key in RANKS and not self.read.parsed.css(place)):
                self.faults.add(
                    rules.LINK_TO_OTHER_PLACE,
                    f"`{reading.text}` leads to `{reading.link}`, and not to its heading",
                    fix=_SEE_TEMPLATE,
                    mark=place_of(reading),
                )


def _outline_of(readings: Iterable[Reading]) -> Iterator[Heading | str]:
    """Yield headings, and each difference when it begins."""
    current = ""
    for reading in readings:
        mark, held = reading.claim.mark, reading.claim.within.difference
        if held:
            if held != current:
                yield held
        elif mark is Mark.REASON or (mark is Mark.RANK and not reading.link):
            yield Heading(mark, reading.claim.key)
        current = held


def _headings(outline: Iterable[Heading | str]) -> Iterator[Heading]:
    return (each for each in outline if isinstance(each, Heading))
