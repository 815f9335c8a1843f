"""Whether a procedure calls each thing by its one name.

Takes in a procedure and the glossary; gives out a finding for each banned synonym in its texts.
Refuses synonyms: drivers look for the word that they were taught.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from guidegen.finding import Findings
from guidegen.procedures.model import ProcedureTemplate, TextTemplate
from guidegen.procedures.style import rules
from guidegen.procedures.style.glossary import Glossary
from guidegen.procedures.style.texts import texts_of, typed_text


@dataclass(frozen=True, slots=True)
class NameCheck:
    """A glossary, ready to look through texts."""

    names: Mapping[str, str]
    """The name to use, by banned synonym in small letters."""

    wanted: re.Pattern[str]
    banned: re.Pattern[str]

    @classmethod
    def of(cls, glossary: Glossary) -> "NameCheck":
        """Return *glossary* with the patterns of its names."""
        instead_of = glossary.instead_of
        names = {word.lower(): name for word, name in instead_of.items()}
        return cls(names, _any_of(glossary.terms), _any_of(instead_of))

    def check(self, template: ProcedureTemplate, findings: Findings) -> None:
        """Report every banned synonym in the texts of *template*."""
        for text in texts_of(template):
            self._check_text(text, findings)

    def find(self, text: str) -> Iterator[re.Match[str]]:
        """Yield each banned synonym in *text*; its first group is the synonym as typed."""
        # A wanted name may hold a banned word: `fuel/water separator` and `water separator`.
        open_to_doubt = self.wanted.sub(lambda found: " " * len(found.group()), text)
        yield from self.banned.finditer(open_to_doubt)

    def _check_text(self, text: TextTemplate, findings: Findings) -> None:
        typed = typed_text(text)
        for found in self.find(typed.raw):
            word = " ".join(found[1].split())
            name = self.names[word.lower()]
            findings.add(
                rules.SECOND_NAME,
                typed.span_at(found.start(1), found.end(1)),
                what=f"`{word}` is a second name for `{name}`",
                fix=f"write `{name}`",
            )


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Return a pattern for any of *words*, the longest first, also in the plural."""
    longest_first = sorted(words, key=len, reverse=True)
    listed = "|".join(r"\s+".join(map(re.escape, word.split())) for word in longest_first)
    return re.compile(rf"(?<![\w-])({listed or '(?!)'})(?:e?s)?(?![\w-])", re.IGNORECASE)
