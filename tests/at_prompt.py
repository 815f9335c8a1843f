"""Commands typed in this process: what a command reads in is then read in once."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from guidegen.cli import commands


@dataclass(frozen=True)
class Prompt:
    """Where the commands of one project are typed."""

    folder: Path
    """Of the project."""

    def run(self, *typed: str, code: int = 0) -> str:
        """Return all that the command printed; it must end with *code*."""
        done = CliRunner().invoke(commands, [*typed, "--project", str(self.folder)])
        assert done.exit_code == code, (typed, done.output, done.exception)
        return done.output

    def ask(self, *typed: str) -> dict[str, Any]:
        """Return what the command printed as JSON."""
        told: dict[str, Any] = json.loads(self.run(*typed, "--format", "json"))
        return told

    def edit(self, name: str, old: str, new: str) -> None:
        """Change a file of the project."""
        path = self.folder / name
        text = path.read_text(encoding="utf-8")
        assert old in text, name
        path.write_text(text.replace(old, new, 1), encoding="utf-8", newline="\n")
