"""What is remembered of an edition without loading it.

Takes in nothing; gives out a frozen value. Refuses to hold what can be made again.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KnownEdition:
    """What is remembered of an edition without loading it."""

    edition: str
    """Fingerprint."""

    has_tour: bool
    """Whether it has an inspection round."""
