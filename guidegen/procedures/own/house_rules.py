"""A fleet's house rules, for the guides of its trucks.

Takes in Markdown files of the fleet; gives out each section as a procedure without place, state or
caution, whose steps are the rules. Refuses what a driver would not read in a cab: rules without a
heading, too long or too many, said twice, or with markup.
"""

import hashlib
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath

from guidegen.finding import Findings, Note
from guidegen.procedures.condition_model import Condition
from guidegen.procedures.model import ProcedureTemplate, StepTemplate, TextTemplate, Words
from guidegen.procedures.own import rules
from guidegen.procedures.own.markdown_text import DEEPEST_HEADING, Block, read_blocks
from guidegen.procedures.own.model import OwnProcedure
from guidegen.procedures.read_when import read_when
from guidegen.procedures.table_reader import TableReader, check_id
from guidegen.procedures.words import HOUSE_RULES
from guidegen.source import SourceFile, Span
from guidegen.source_text import read_text
from guidegen.yaml_nodes import Scalar, read_yaml

MOST_WORDS = 60
"""Of one rule: what is read in one look beside a running truck. Common practice, no source."""

MOST_RULES = 40
"""In one file: more is a handbook, which nobody reads in a cab. Common practice, no source."""

LONGEST_HEADING = 60
"""Letters: one line on a tablet. Common practice, no source."""

_FENCE = "---"
_SLUG = re.compile(r"[a-z0-9]+")
_SHORT = 8


def read_house_rules(
    files: Iterable[tuple[str, bytes]], findings: Findings
) -> tuple[OwnProcedure, ...]:
    """Return the sections of all files, in the order of their paths.

    Args:
        files: Path and bytes of each.
        findings: Takes their faults.
    """
    found: dict[str, OwnProcedure] = {}
    for path, raw in sorted(files):
        own = Findings()
        for template in _read(path, raw, own):
            first = found.setdefault(template.id, OwnProcedure(template))
            if first.template is not template:
                own.add(
                    rules.HOUSE_RULE_TWICE,
                    template.title.span,
                    what="two sections of house rules are called alike",
                    fix="give one of them another heading",
                    notes=(Note("the other stands at", first.template.title.span),),
                )
        findings.extend(own)
    return tuple(found.values())


def _read(path: str, raw: bytes, findings: Findings) -> tuple[ProcedureTemplate, ...]:
    file = read_text(path, raw, findings)
    if file is None:
        return ()
    head, body = _parted(file.text)
    applies = _applies(path, head, findings)
    blocks = read_blocks(file, body, findings)
    page = _Page(file, PurePosixPath(path).stem, applies, findings)
    return tuple(page.sections(blocks))


def _parted(text: str) -> tuple[str, str]:
    """Return the head between two lines of dashes and the body, each with the lines of *text*."""
    lines = text.split("\n")
    ends = [n for n, line in enumerate(lines) if n and line.rstrip() == _FENCE]
    if lines[0].rstrip() != _FENCE or not ends:
        return "", text
    end = ends[0]
    head = ["", *lines[1:end]]
    body = [*([""] * (end + 1)), *lines[end + 1 :]]
    return "\n".join(head), "\n".join(body)


def _applies(path: str, head: str, findings: Findings) -> Condition | None:
    if not head.strip():
        return None
    table = read_yaml(path, head.encode(), findings)
    if table is None:
        return None
    reader = TableReader(table, "the head of the house rules", findings)
    reader.check_names({}, ("applies",))
    return read_when(reader, "applies")


@dataclass(slots=True)
class _Page:
    """One file."""

    file: SourceFile
    stem: str
    applies: Condition | None
    findings: Findings

    def sections(self, blocks: tuple[Block, ...]) -> Iterator[ProcedureTemplate]:
        start = Span(self.file, 1, 1, 1, 2)
        check_id(Scalar(self.stem, start, is_plain=True), self.findings)
        first = blocks[0] if blocks else None
        if first is None or first.level != 1:
            what = "the file does not begin with the name of its rules"
            fix = "write `# Rules of the yard` above the first rule"
            place = first.span if first else start
            self.findings.add(rules.HOUSE_RULES_INCOMPLETE, place, what=what, fix=fix)
            return
        self.check_size(blocks)
        for heading, its in _by_section(blocks):
            self.check_heading(heading, is_first=heading is first)
            has_parts = heading is first and any(block.level for block in blocks[1:])
            if its:
                yield self.section(first, heading, its)
            elif not has_parts:
                what = f"no rule stands below `{heading.text}`"
                fix = "write its rules below it, or take the heading out"
                self.findings.add(rules.HOUSE_RULES_INCOMPLETE, heading.span, what=what, fix=fix)

    def section(self, first: Block, heading: Block, its: tuple[Block, ...]) -> ProcedureTemplate:
        id_, title = f"rules-{self.stem}", first.text
        if heading is not first:
            id_ = "-".join((id_, *_SLUG.findall(heading.text.lower())))
            title = f"{first.text}: {heading.text}"
        return ProcedureTemplate(
            id=id_,
            title=TextTemplate(f"{id_}.title", (Words(title),), heading.span),
            chapter=HOUSE_RULES,
            applies=self.applies,
            state=(),
            station="",
            cautions=(),
            steps=tuple(self.rules_of(id_, its)),
            expect=(),
            if_not=(),
            references=(f"House rules of the fleet, {self.file.path}",),
            span=heading.span,
        )

    def rules_of(self, id_: str, its: tuple[Block, ...]) -> Iterator[StepTemplate]:
        met: dict[str, Block] = {}
        for block in its:
            self.check_rule(block)
            if met.setdefault(block.text, block) is not block:
                self.findings.add(
                    rules.HOUSE_RULE_TWICE,
                    block.span,
                    what="this rule stands twice in its section",
                    fix="delete one of the two",
                    notes=(Note("first at", met[block.text].span),),
                )
            # By its words: another rule above it is no change of this one.
            name = hashlib.sha256(block.text.encode()).hexdigest()[:_SHORT]
            text = TextTemplate(f"{id_}.steps.r{name}", (Words(block.text),), block.span)
            yield StepTemplate(f"r{name}", text, None, block.span)

    def check_size(self, blocks: tuple[Block, ...]) -> None:
        count = sum(not block.level for block in blocks)
        if count > MOST_RULES:
            what = f"the file holds {count} rules, and the most is {MOST_RULES}"
            fix = "keep what a driver must know in the cab, and hand out the rest on paper"
            last = [block for block in blocks if not block.level][MOST_RULES]
            self.findings.add(rules.HOUSE_RULE_TOO_LONG, last.span, what=what, fix=fix)

    def check_heading(self, heading: Block, *, is_first: bool) -> None:
        if heading.level != (1 if is_first else DEEPEST_HEADING):
            what = f"the heading `{heading.text[:LONGEST_HEADING]}` is of the wrong level"
            fix = "one `# …` names the rules, and `## …` each section"
            self.findings.add(rules.HOUSE_RULE_MARKUP, heading.span, what=what, fix=fix)
        if len(heading.text) > LONGEST_HEADING or not _SLUG.search(heading.text.lower()):
            what = f"a heading has {len(heading.text)} letters, and the most is {LONGEST_HEADING}"
            if len(heading.text) <= LONGEST_HEADING:
                what = "a heading has no letter from a to z and no digit"
            fix = "name the section in a few words"
            self.findings.add(rules.HOUSE_RULE_TOO_LONG, heading.span, what=what, fix=fix)

    def check_rule(self, block: Block) -> None:
        count = len(block.text.split())
        if count > MOST_WORDS:
            what = f"this rule has {count} words, and the most is {MOST_WORDS}"
            fix = "make several rules of it, or leave out what the driver need not know"
            self.findings.add(rules.HOUSE_RULE_TOO_LONG, block.span, what=what, fix=fix)
        if "{{" in block.text:
            what = "a house rule holds a placeholder, and would print its braces"
            fix = "write a procedure in `specs/own/procedures` for what names a truck's values"
            self.findings.add(rules.HOUSE_RULE_MARKUP, block.span, what=what, fix=fix)


def _by_section(blocks: tuple[Block, ...]) -> Iterator[tuple[Block, tuple[Block, ...]]]:
    """Yield each heading with the rules below it; the first block is a heading."""
    places = [place for place, block in enumerate(blocks) if block.level]
    for place, end in zip(places, [*places[1:], len(blocks)], strict=True):
        yield blocks[place], blocks[place + 1 : end]
