"""The texts of one guide with their values in words.

Takes in the facts of a guide in words; gives out views of its texts and cautions.
Refuses to print an identity: what is stamped later stands there as a token.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from guidegen.guide.model import STAMPED, Caution, Text
from guidegen.procedures.model import Signal, Words
from guidegen.site.tokens import plain
from guidegen.site.views import CautionView, Part, TextView
from guidegen.units.model import Fact
from guidegen.wording import value_words


def put_into_words(facts: Mapping[str, Fact], token: Callable[[str], str]) -> Mapping[str, str]:
    """Return every one of *facts* in words; *token* gives what stands for an identity fact."""
    return {
        name: token(name) if name in STAMPED else plain(value_words(fact))
        for name, fact in facts.items()
    }


@dataclass(frozen=True, slots=True)
class Texts:
    """The words of one guide."""

    words: Mapping[str, str]
    """How each fact is printed, by name."""

    def text(self, text: Text) -> TextView:
        """Return the view of *text*."""
        parts = tuple(
            Part(plain(part.text))
            if isinstance(part, Words)
            else Part(self.words[part.name], part.name)
            for part in text.parts
        )
        return TextView(text.id, parts)

    def caution(self, caution: Caution) -> CautionView:
        """Return the view of *caution*."""
        return CautionView(
            id=caution.id,
            signal=caution.signal.value,
            hazard=self.text(caution.hazard),
            consequence=self.text(caution.consequence),
            avoid=self.text(caution.avoid),
            has_alert_symbol=caution.signal is not Signal.NOTICE,
        )
