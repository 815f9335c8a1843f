"""Where the tasks of a round are done, and how a driver walks from one to the next.

Takes in the worlds of a truck and the walk around it; gives out positions, the steps between
neighbors and what is done at each.
Refuses shortcuts: from the seat a driver climbs down first, and nobody walks through the truck.
"""

from guidegen.round.positions import Place, Walk
from guidegen.round.worlds import Move, Worlds

AROUND = "around"


class Ground:
    """The positions of one truck: its stations, and the ground below those off the walk.

    A driver goes from neighbor to neighbor along the walk, and can look at everything on the
    way. So what is done between two changes of state is a stretch of the walk and no longer any
    choice of stations, which keeps the search small.
    """

    def __init__(self, worlds: Worlds, walk: Walk) -> None:
        """Number the positions and measure between them, in millimeters."""
        self.around = walk.around
        self._stations = tuple(walk.places)
        self._numbers = {station: number for number, station in enumerate(walk.places)}
        self._places = list(walk.places.values())
        self.foot = list(range(len(self._places)))
        """By position: the ground below it, on the walk; itself if it is on the walk."""

        below = {place.along: at for at, place in enumerate(self._places) if not place.off}
        for number, place in enumerate(tuple(self._places)):
            if place.off and place.along not in below:
                below[place.along] = len(self._places)
                self.foot.append(len(self._places))
                self._places.append(Place(place.along, 0, place.x, place.y))
            self.foot[number] = below[place.along]
        self.far = [[walk.between(one, other) for other in self._places] for one in self._places]
        self.steps = self._steps_to_neighbors()
        """By position: its neighbors, with the way there."""

        self.here = [0] * len(self._places)
        """By position: the tasks there, one bit each."""

        self.loops = 0
        """The tasks around the truck."""

        for number, task in enumerate(worlds.tasks):
            if task.station == AROUND:
                self.loops |= 1 << number
            else:
                self.here[self._numbers[task.station]] |= 1 << number
        on_walk = (
            here for here, place in zip(self.here, self._places, strict=True) if not place.off
        )
        self.passed = self.loops | sum(on_walk)
        """The tasks that a driver who walks once around the truck comes past."""

        self._worlds = worlds
        self._moves: dict[int, list[list[Move]]] = {}
        """By world and position; a search comes into few worlds."""

    def moves(self, world: int, position: int) -> list[Move]:
        """Return the moves that are made in *world* at *position*."""
        if world not in self._moves:
            self._moves[world] = self._by_position(self._worlds.moves[world])
        return self._moves[world][position]

    def number_of(self, station: str) -> int:
        """Return the position of *station*."""
        return self._numbers[station]

    def end_of(self, position: int, move: Move) -> tuple[int, int]:
        """Return where *move* ends if it is made at *position*, and the way walked in it."""
        far = self.around if move.station == AROUND else 0
        if move.ends is None:
            return position, far
        end = self._numbers[move.ends]
        return end, far + self.far[position][end]

    def along(self, position: int) -> int:
        """Return where on the walk *position* is, or the ground below it."""
        return self._places[position].along

    def alongs(self, tasks: int) -> set[int]:
        """Return where on the walk *tasks* are done."""
        pairs = zip(self.here, self._places, strict=True)
        return {place.along for here, place in pairs if here & tasks}

    def _steps_to_neighbors(self) -> list[list[tuple[int, int]]]:
        steps: list[list[tuple[int, int]]] = [[] for _ in self._places]
        ring = [number for number, place in enumerate(self._places) if not place.off]
        ring.sort(key=lambda number: self._places[number].along)
        for one, other in zip(ring, [*ring[1:], ring[0]], strict=True):
            far = self.far[one][other]
            steps[one].append((other, far))
            steps[other].append((one, far))
        for number, foot in enumerate(self.foot):
            if foot != number:
                far = self.far[number][foot]
                steps[number].append((foot, far))
                steps[foot].append((number, far))
        return steps

    def _by_position(self, moves: tuple[Move, ...]) -> list[list[Move]]:
        found: list[list[Move]] = [[] for _ in self._places]
        for move in moves:
            if move.station is None:
                positions = list(range(len(self._places)))
            elif move.station == AROUND:
                positions = [number for number, foot in enumerate(self.foot) if number == foot]
            else:
                positions = [self._numbers[move.station]]
            for position in positions:
                found[position].append(move)
        return found
