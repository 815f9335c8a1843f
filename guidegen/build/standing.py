"""Which units of a site stand as they would come out now.

Takes in what is published, the shell, the site as it is and what earlier runs left; gives out the
units that need not be made again, and what is known of all units. Refuses to trust a folder in
which any file has another size or time than it was left with, or which might name a truck that is
new.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from guidegen.build.fleet_memory import FleetMemory
from guidegen.build.pack_site import shared_files
from guidegen.build.print_issue import dated
from guidegen.build.published import Published
from guidegen.build.store import hash_of
from guidegen.build.unit_made import UnitKept, UnitMade
from guidegen.differences.offer import choice_for
from guidegen.proof.fleet_claims import FleetClaims
from guidegen.proof.foreign import Identity, identities_of
from guidegen.proof.unit_record import UnitRecord, record_of
from guidegen.proof.words_held import may_be_held
from guidegen.site.pack import PackedFile
from guidegen.site.shell import Shell
from guidegen.site.truck_line import TruckLine, truck_line
from guidegen.training.fleet_quizzes import LazyQuizzes


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands of a site, and what is known of its units before they are made."""

    units: Mapping[str, UnitKept]
    """Those that need not be made again, by number."""

    lines: Mapping[str, TruckLine]
    """What drivers find each unit by."""

    records: Mapping[str, UnitRecord]
    """What the proof of the whole site needs of each unit."""

    keys: Mapping[str, str]
    """Hash of all that the folder of each unit is made of."""

    pools: Mapping[str, str]
    """Hash of the values of each fact that quizzes may ask of other trucks."""

    shared: tuple[PackedFile, ...]
    """What pages of all units load."""

    claims: FleetClaims
    claims_digest: str
    root: Mapping[str, bytes]
    """All files that belong to no truck, by path, if every unit gets its folder."""

    _interned: dict[bytes, bytes] = field(default_factory=dict)

    def interned(self, made: UnitMade) -> UnitMade:
        """Return *made* with what units of an edition share as one value: it stores small."""
        words = self._interned.setdefault(made.verdict.words, made.verdict.words)
        return replace(made, verdict=replace(made.verdict, words=words))


def look_at_units(
    published: Published, shell: Shell, target: Path, memory: FleetMemory
) -> Standing:
    """Return which units of the site at *target* stand.

    Args:
        published: What the site is made of.
        shell: What the site engine has drawn.
        target: The folder that readers see.
        memory: What earlier runs have left.

    Raises:
        FaultyInput: If the theme lacks what makes the site an app.
    """
    own = published.shell_files(shell)
    shared = shared_files(own)
    keys = dict(_keys(published, shell, shared, memory))
    known = {n: kept for n, kept in memory.units.items() if keys.get(n) == kept.key}
    lines, records = dict[str, TruckLine](), dict[str, UnitRecord]()
    for number in keys:
        if number in known:
            lines[number] = known[number].made.line
            records[number] = known[number].made.record
        else:
            guide = published.loaded.guides[number]
            lines[number], records[number] = truck_line(guide), record_of(guide)
    root = published.root_files(shell, lines.values(), ())
    claims = published.claims(records.values(), root, shell.frames, published.held_back)
    digest, pools = claims.digest, _pools(published)
    new = _identities(record for number, record in records.items() if number not in memory.units)
    withheld = identities_of((number, number) for number in published.held_back).every
    changed = _identities(
        record
        for number, record in records.items()
        if number in memory.units and memory.units[number].made.record != record
    )
    doubts = _Doubts((*new, *changed, *withheld))
    standing = {
        number: kept
        for number, kept in known.items()
        if kept.claims_digest == digest
        and kept.made.state == memory.state_of_folder(target / number)
        and not doubts.has(kept.made)
    }
    units = dict(_with_quizzes(standing, pools, published.quizzes))
    return Standing(units, lines, records, keys, pools, shared, claims, digest, root)


def _with_quizzes(
    units: Mapping[str, UnitKept], pools: Mapping[str, str], quizzes: LazyQuizzes
) -> Iterator[tuple[str, UnitKept]]:
    """Yield those of *units* whose quiz is as it was.

    A quiz is written anew, to see, only if values of other trucks that it was drawn from changed.
    """
    written: dict[str, str] = {}
    for number, kept in units.items():
        made = kept.made
        if all(pools.get(fact, "") == values for fact, values in kept.pools):
            yield number, kept
            continue
        edition = made.verdict.edition
        if edition not in written:
            written[edition] = quizzes.digest_of(edition)
        if written[edition] == made.quiz:
            now = ((fact, pools.get(fact, "")) for fact in sorted(quizzes.asked_by(edition) | {""}))
            yield number, replace(kept, pools=tuple(now))


@dataclass(slots=True)
class _Doubts:
    """Whether proved files might name trucks that are new."""

    identities: tuple[Identity, ...]
    _known: dict[int, frozenset[str]] = field(default_factory=dict)

    def has(self, made: UnitMade) -> bool:
        """Whether the files of *made* might name one of another unit."""
        if not self.identities:
            return False
        words = made.verdict.words
        # Units of an edition share the value, which lives as long as the memory does.
        if id(words) not in self._known:
            held = may_be_held(words, self.identities, "")
            self._known[id(words)] = frozenset(each.unit for each in held)
        return bool(self._known[id(words)] - {made.number})


def _identities(records: Iterable[UnitRecord]) -> tuple[Identity, ...]:
    typed = ((each.number, typed) for each in records for typed in each.identity)
    return tuple(identities_of(typed).every)


def _keys(
    published: Published, shell: Shell, shared: Iterable[PackedFile], memory: FleetMemory
) -> Iterator[tuple[str, str]]:
    """Yield the hash of all that the folder of each unit is made of, by number."""
    loaded = published.loaded
    offer = loaded.offer
    of_all = hash_of(
        memory.base,
        repr(published.fleet),
        repr(sorted(shell.frames.items())),
        repr([(each.path, each.sha256) for each in shared]),
        repr([(each.guide.number, each.guide.edition) for each in offer.trucks]),
        *published.template_parts(),
    )
    for number, (edition, record) in loaded.guides.members.items():
        told = _told_of(number, published)
        choice = repr(choice_for(number, offer).key) if offer.trucks else ""
        yield number, hash_of(of_all, edition, record.signature, told, choice, *record.own_parts)


def _told_of(number: str, published: Published) -> str:
    """Return all that the folder of a unit says of what was released."""
    history = published.loaded.history
    if history is None:
        return ""
    told = history.of(number)
    # Cards of a guide that was never released bear the date of the fleet's last release.
    made = dated(published.loaded) if published.has_cards and told.issued is None else ""
    return f"{told!r} {made}"


def _pools(published: Published) -> Mapping[str, str]:
    """Return the hash of all values of each fact, and of what trucks have and have not."""
    knowledge = published.quizzes.knowledge
    pools = {
        name: hash_of(*(f"{spelled}\0{fact.shown!r}" for spelled, fact in sorted(values.items())))
        for name, values in knowledge.values.by_fact.items()
    }
    return {**pools, "": hash_of(*sorted(knowledge.fittings.names))}
