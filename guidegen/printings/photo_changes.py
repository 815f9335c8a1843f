"""What is other about the photos on a card.

Takes in the words of the card that was printed and of the one that would be now, each with the
photos that stand on it; gives out one line a photo. Refuses to tell of photos of a procedure that
only one of the two has: that it came or went is told of itself.
"""

from collections.abc import Iterator, Mapping

from guidegen.guide.model import Procedure, Step
from guidegen.photos.model import Photo
from guidegen.revisions.tell import Telling

_CHANGED, _CAPTION = "Photo changed", "Caption of a photo changed"
_NEW, _GONE = "New photo", "Photo left out"


def photo_changes(telling: Telling) -> Iterator[str]:
    """Yield the words of each photo that is other, new or gone."""
    for given, known in telling.shared():
        title = telling.title(given.title, telling.given)
        before, after = _by_step(known), _by_step(given)
        for step in dict.fromkeys((*after, *before)):
            old, new = before.get(step, {}), after.get(step, {})
            # The number is that of the card that a driver gets, where the step is still there.
            at = _number(given, step) or _number(known, step)
            where = f"“{title}”" + (f", step {at}" if at else "")
            yield from (f"{words}: {where}" for words in _told(old, new))


def _told(old: Mapping[str, Photo], new: Mapping[str, Photo]) -> Iterator[str]:
    """Yield what became of the photos at one place, each by the hash of its picture."""
    gone, come = len(old.keys() - new.keys()), len(new.keys() - old.keys())
    changed = min(gone, come)
    yield from [_CHANGED] * changed
    yield from [_NEW] * (come - changed)
    yield from [_GONE] * (gone - changed)
    for picture, photo in new.items():
        if picture in old and old[picture].caption != photo.caption:
            yield _CAPTION


def _by_step(procedure: Procedure) -> Mapping[str, Mapping[str, Photo]]:
    found: dict[str, dict[str, Photo]] = {}
    for photo in procedure.photos:
        found.setdefault(photo.step, {})[photo.sha256] = photo
    return found


def _number(procedure: Procedure, step: str) -> int:
    wanted = f"{procedure.id}.steps.{step}"
    steps = (each for each in procedure.blocks if isinstance(each, Step))
    return next((each.number for each in steps if each.id == wanted), 0)
