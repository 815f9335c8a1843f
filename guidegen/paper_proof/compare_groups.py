"""Whether what belongs together stands together.

Takes in where each piece was found, and the objects of each side; records groups that are parted,
type that is too small, cautions with the wrong symbol and drawings that are not as their figures.
Refuses a picture that no figure accounts for.
"""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.paper_proof import rules
from guidegen.paper_proof.compare_card_photos import GroupOnSide, Look, compare_card_photos
from guidegen.paper_proof.compare_figures import compare_figure, report_loose
from guidegen.paper_proof.compare_photos import compare_photos
from guidegen.paper_proof.model import CodePlace, Expected, Group, Part, Piece
from guidegen.paper_proof.placed import Placed
from guidegen.paper_proof.sheet_model import Box, DrawnRead, SideRead, TextRead, around
from guidegen.paper_proof.stream import Stream
from guidegen.photos.model import Photo
from guidegen.proof.faults import Faults

_WITHOUT_SYMBOL = "NOTICE"
"""Signal word of cautions that are not about injury: no safety alert symbol; ANSI Z535.4."""

_SYMBOL = (0.7, 1.6)
"""Width and height of the alert symbol, least and most, as shares of the type beside it."""


_OVERLAP = 1.0
"""Points that letters of two groups may reach over each other."""


class _Area(NamedTuple):
    """What a group takes of a side."""

    side: int
    box: Box
    piece: Piece


@dataclass(frozen=True, slots=True)
class Groups:
    """The groups of one PDF held against where their pieces were found."""

    expected: Expected
    sides: Sequence[SideRead]
    stream: Stream
    look: Look
    """Shows parts of sides."""

    faults: Faults

    def compare(self, placed: Sequence[Placed]) -> None:
        """Hold every group against the places of its pieces."""
        by_group: dict[int, list[Placed]] = {}
        for each in placed:
            by_group.setdefault(each.wanted.group, []).append(each)
        for number, found in by_group.items():
            self._compare_sides(found)
            for each in found:
                self._compare_size(each)
                if each.wanted.piece.signal:
                    self._compare_symbol(each)
            self._compare_figure(self.expected.groups[number], found)
            if self.expected.groups[number].turns:
                self._compare_turn(found[0], placed)
        self._compare_places(by_group)
        self._compare_spoken(by_group)
        report_loose(self._pictures_without_figure(by_group), self.faults)

    def opens_side(self, side: int, placed: Sequence[Placed]) -> str:
        """Return the pattern of what goes on at the top of *side*, or empty text."""
        first = next((each for each in placed if each.sides(self.stream)[0] == side), None)
        if first is None:
            return ""
        group = self.expected.groups[first.wanted.group]
        goes_on = not group.opens or first.wanted.piece is not group.pieces[0]
        if not goes_on or not group.running:
            return ""
        return f"{self.expected.continued} {group.running}".strip()

    def chapter_of(self, side: int, placed: Sequence[Placed]) -> str:
        """Return the pattern of the title of the last chapter that begins on *side* or before."""
        chapter = ""
        for each in placed:
            group = self.expected.groups[each.wanted.group]
            if group.chapter == each.wanted.piece.pattern and each.sides(self.stream)[0] <= side:
                chapter = group.chapter
        return chapter

    def _compare_sides(self, found: Sequence[Placed]) -> None:
        sides = sorted({side for each in found for side in each.sides(self.stream)})
        if len(sides) == 1:
            return
        first, last = sides[0] + 1, sides[-1] + 1
        caution = next((each for each in found if each.wanted.piece.part is Part.CAUTION), None)
        piece = (caution or found[-1]).wanted.piece
        rule = rules.CAUTION_PARTED if caution else rules.GROUP_PARTED
        self.faults.add(
            rule,
            f"{piece.of} and what belongs to it stand on sides {first} to {last}",
            fix="let the template keep them on one side",
            span=piece.span,
            mark=piece.of,
        )

    def _compare_turn(self, first: Placed, placed: Sequence[Placed]) -> None:
        side, piece = first.sides(self.stream)[0], first.wanted.piece
        if any(each.start < first.start and each.sides(self.stream)[1] == side for each in placed):
            self.faults.add(
                rules.KEY_NOT_APART,
                f"{piece.of} stands on side {side + 1}, and so does what comes before it",
                fix="let the template begin a new side",
                span=piece.span,
                mark=piece.of,
            )

    def _compare_places(self, by_group: Mapping[int, Sequence[Placed]]) -> None:
        """Look whether each group has a place of its own: a value beside its own label."""
        areas = [area for group, found in by_group.items() for area in self._areas(group, found)]
        for one, two in itertools.combinations(areas, 2):
            if one.side == two.side and one.box.touches(two.box, _OVERLAP):
                self.faults.add(
                    rules.READING_ORDER_DIFFERS,
                    f"{two.piece.of} stands among the words of {one.piece.of}",
                    fix="repair the template that places them",
                    span=two.piece.span,
                    mark=two.piece.of,
                )

    def _compare_spoken(self, by_group: Mapping[int, Sequence[Placed]]) -> None:
        """Look whether what is read aloud for photos comes in the order of the photos."""
        wanted: dict[int, list[Photo]] = {}
        for number, found in by_group.items():
            side = found[0].sides(self.stream)[0]
            wanted.setdefault(side, []).extend(self.expected.groups[number].photos)
        for side, photos in wanted.items():
            alts = [photo.alt for photo in photos]
            spoken = [each for each in self.sides[side].spoken if each in alts]
            if sorted(spoken) == sorted(alts) and spoken != alts:
                self.faults.add(
                    rules.SPOKEN_DIFFERS,
                    "is read aloud as another photo of its side",
                    fix="let each photo be read aloud as what it is",
                    span=photos[0].span,
                    mark=photos[0].id,
                )

    def _areas(self, number: int, found: Sequence[Placed]) -> Iterator[_Area]:
        boxes: dict[int, list[Box]] = {}
        for each in found:
            for read in each.reads(self.stream):
                if read.text.strip():
                    boxes.setdefault(each.sides(self.stream)[0], []).append(read.box)
        group = self.expected.groups[number]
        if group.photos and boxes:
            pictures = self._pictures_of(found, group)
            boxes[next(iter(boxes))] += [each.box for each in pictures if not each.is_path]
        for side, own in boxes.items():
            yield _Area(side, around(own), found[-1].wanted.piece)

    def _compare_size(self, placed: Placed) -> None:
        piece = placed.wanted.piece
        reads = [each for each in placed.reads(self.stream) if each.text.strip()]
        least = min((each.points for each in reads), default=piece.points)
        if least < piece.points - 0.01:
            self.faults.add(
                rules.TEXT_SMALL,
                f"{piece.of} is set in {least:.1f} pt and not in {piece.points:g} pt or more",
                fix="set it larger in the theme; what does not fit goes on another side",
                span=piece.span,
                mark=piece.of,
            )

    def _compare_symbol(self, placed: Placed) -> None:
        piece, first = placed.wanted.piece, placed.reads(self.stream)[0]
        side = self.sides[placed.sides(self.stream)[0]]
        has_symbol = any(_is_symbol(each, first) for each in side.drawn)
        if has_symbol == (piece.signal == _WITHOUT_SYMBOL):
            what = "has the alert symbol" if has_symbol else "has no alert symbol beside its word"
            self.faults.add(
                rules.ALERT_SYMBOL_DIFFERS,
                f"{piece.of} {what}",
                fix="draw the symbol beside DANGER, WARNING and CAUTION, and nowhere else",
                span=piece.span,
                mark=piece.of,
            )

    def _compare_figure(self, group: Group, found: Sequence[Placed]) -> None:
        if not found:
            return
        drawn = self._pictures_of(found, group)
        if group.figure is not None:
            shapes = [each for each in drawn if each.is_path or not group.photos]
            compare_figure(group.figure, shapes, self.faults)
        if not group.photos and not group.left_out:
            return
        number = found[0].sides(self.stream)[0]
        side, dots = self.sides[number], [each for each in drawn if not each.is_path]
        if not self.expected.are_photos_resized:
            compare_photos(group.photos, dots, side.spoken, self.faults)
            return
        places = {id(piece): place for place, piece in enumerate(group.pieces)}
        reads = {places[id(each.wanted.piece)]: each.reads(self.stream) for each in found}
        on_side = GroupOnSide(group, number, side, reads, dots)
        compare_card_photos(on_side, self.look, self.faults)

    def _pictures_of(self, found: Sequence[Placed], group: Group) -> list[DrawnRead]:
        """Return the pictures that are drawn in a group, from the text before it to its last.

        A photo without a caption stands behind that, and before whatever text comes next.
        """
        reads = [read for each in found for read in each.reads(self.stream)]
        side = self.sides[found[0].sides(self.stream)[0]]
        first, last = reads[0].place, reads[-1].place
        before = max((each.place for each in side.texts if each.place < first), default=-1)
        if group.figure is None:
            # A photo stands behind words of its group, and one before them is of another.
            before = first
        if group.photos or group.left_out:
            after = [each.place for each in side.texts if each.place > last]
            last = min(after, default=side.objects[-1].place + 1)
        return [each for each in pictures_on(side) if before < each.place < last]

    def _pictures_without_figure(self, by_group: dict[int, list[Placed]]) -> Iterator[str]:
        accounted = {
            (found[0].sides(self.stream)[0], each.place)
            for number, found in by_group.items()
            if _has_pictures(self.expected.groups[number])
            for each in self._pictures_of(found, self.expected.groups[number])
        }
        for number, side in enumerate(self.sides):
            loose = [e for e in pictures_on(side) if (number, e.place) not in accounted]
            has_code = number == 0 and self.expected.code is CodePlace.FIRST_BODY
            if len(loose) != has_code:
                yield f"side {number + 1}"


def _has_pictures(group: Group) -> bool:
    return group.figure is not None or bool(group.photos or group.left_out)


def pictures_on(side: SideRead) -> list[DrawnRead]:
    """Return what is drawn in the body but for lines, borders and grounds."""
    return [each for each in side.drawn if not each.is_artifact]


def _is_symbol(drawn: DrawnRead, word: TextRead) -> bool:
    least, most = (share * word.points for share in _SYMBOL)
    return (
        drawn.is_path
        and drawn.strokes
        and not drawn.fills
        and abs(drawn.box.bottom - word.baseline) < word.points / 2
        and 0 <= drawn.box.left - word.box.right < word.points
        and least < drawn.box.width < most
        and least < drawn.box.height < most
    )
