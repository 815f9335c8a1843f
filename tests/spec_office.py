"""An office that keeps specs: exports workbooks, and imports what a clerk made of them."""

from dataclasses import dataclass
from pathlib import Path

from clerk import Clerk, at_desk

from guidegen.build.project import Project
from guidegen.build.workbook_files import export_workbook
from guidegen.build.workbook_import import ImportPlan, plan_import, write_import
from guidegen.finding import Findings


@dataclass(frozen=True)
class Office:
    """A project whose specs may be changed."""

    project: Project
    fresh: bytes
    """The workbook of the specs as they were at first."""

    @property
    def specs(self) -> Path:
        return self.project.specs

    def export(self) -> bytes:
        findings = Findings()
        made = export_workbook(self.project, findings)
        assert made is not None, list(findings)
        return made[0]

    def desk(self) -> Clerk:
        return at_desk(self.fresh)

    def plan(self, raw: bytes) -> tuple[ImportPlan | None, Findings]:
        findings = Findings()
        return plan_import(self.project, "fleet.xlsx", raw, findings), findings

    def take(self, raw: bytes) -> ImportPlan:
        """Import without a fault."""
        plan, findings = self.plan(raw)
        assert plan is not None
        assert not findings.has_errors, [(f.where, f.what) for f in findings]
        assert write_import(self.project, plan, findings)
        return plan

    def refused(self, raw: bytes) -> list[tuple[str, str]]:
        """Return place and rule of every error; at least one must be there."""
        _, findings = self.plan(raw)
        assert findings.has_errors
        return [(finding.where, finding.rule.name) for finding in findings.errors]

    def text(self, name: str) -> str:
        return (self.specs / name).read_text(encoding="utf-8")
