"""Pages of a site that belong to no truck, and that were proved before.

Takes in what a run before left, and which trucks are what they were then; gives out which pages
need not be read again, and what this run leaves. Refuses a page of which anything that its proof
hangs on may have changed: its bytes, the site around it, or any truck that it lists.
"""

import hashlib
from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from guidegen.pickling import numerous
from guidegen.proof.fleet_claims import FleetClaims


@numerous
@dataclass(frozen=True, slots=True)
class ProvedPage:
    """One page in which nothing was found."""

    digest: str
    """Of its bytes."""

    listed: tuple[str, ...]
    """Numbers of the trucks whose start pages it leads to, once for each link."""


@dataclass(frozen=True, slots=True)
class ProvedPages:
    """All of a site."""

    site: str = ""
    """Digest of what their proof hangs on besides."""

    pages: Mapping[str, ProvedPage] = field(default_factory=dict)
    """By path."""


NONE_PROVED = ProvedPages()


@dataclass(slots=True)
class KnownPages:
    """What is known while a site is proved."""

    site: str
    before: Mapping[str, ProvedPage]
    unchanged: Container[str]
    """Numbers of the trucks that lists may state as they did when these were proved."""

    listed: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Of each page that lists trucks, as `ProvedPage.listed`."""

    now: dict[str, ProvedPage] = field(default_factory=dict)

    @classmethod
    def of(cls, before: ProvedPages, fleet: FleetClaims, unchanged: Container[str]) -> "KnownPages":
        """Return what a run *before* has proved that still holds.

        Args:
            before: What it left.
            fleet: What is known of the site now.
            unchanged: Numbers of the trucks of which the same was known then.
        """
        site = hashlib.sha256(repr((fleet.digest, sorted(fleet.numbers))).encode()).hexdigest()
        return cls(site, before.pages if before.site == site else MappingProxyType({}), unchanged)

    def find(self, path: str, raw: bytes) -> ProvedPage | None:
        """Return the page at *path* as it was proved before, if that still holds."""
        known = self.before.get(path)
        if known is None or known.digest != _digest(raw):
            return None
        return known if all(number in self.unchanged for number in known.listed) else None

    def keep(self, path: str, raw: bytes) -> None:
        """Remember that nothing was found in the page at *path*."""
        self.now[path] = ProvedPage(_digest(raw), self.listed.get(path, ()))

    def proved(self) -> ProvedPages:
        """Return what this run leaves; to be asked for only if it has found nothing at all."""
        return ProvedPages(self.site, self.now)


def nothing_known(fleet: FleetClaims) -> KnownPages:
    """Return what is known where nothing was proved before."""
    return KnownPages.of(NONE_PROVED, fleet, ())


def _digest(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()
