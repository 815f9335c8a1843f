"""Photos that have no room on a card, as findings for the office.

Takes in which photo was left out on which card of which truck; gives out a finding for each photo
and kind of card, with the trucks in it. Refuses to tell it once for each truck: a photo of a model
is of a thousand.
"""

from collections.abc import Iterable, Iterator

from guidegen.build.load import Loaded
from guidegen.build.off_card import OffCard
from guidegen.finding import Finding
from guidegen.guide.show_photos import photos_in
from guidegen.photos import rules

_MOST_NAMED = 3


def off_card_findings(off: Iterable[tuple[str, OffCard]], loaded: Loaded) -> Iterator[Finding]:
    """Yield a finding for each photo and kind of card of *off*.

    Args:
        off: Each with the number of the truck, in order.
        loaded: The fleet.
    """
    trucks: dict[OffCard, list[str]] = {}
    for number, each in off:
        trucks.setdefault(each, []).append(number)
    for each, numbers in trucks.items():
        guide = loaded.guides[numbers[0]]
        photo = next((photo for photo in photos_in(guide) if photo.id == each.photo), None)
        named = ", ".join(numbers[:_MOST_NAMED])
        more = len(numbers) - _MOST_NAMED
        of = f"{named} and {more:,} more" if more > 0 else named
        yield Finding(
            rules.PHOTO_NOT_ON_CARD,
            photo.span if photo else None,
            f"no room on card `{each.card}`, size `{each.size}`, of {of}",
            "give the card a bigger size, or fewer procedures; tablet and booklet show the photo",
        )
