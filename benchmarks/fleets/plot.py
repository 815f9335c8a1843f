"""Lines over units, both scales logarithmic, as SVG.

Takes in named series of points above zero; gives out one SVG document.
Refuses nothing: without a point the plot is empty. Its colors change with the reader's: a style
asks for dark. Series are told apart by their marks too, not by color alone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import chain
from math import ceil, floor, log10

WIDTH, HEIGHT = 760, 360
"""Without the names of the series, which stand below."""

_LEFT, _RIGHT, _TOP, _BOTTOM = 80, 36, 50, 50
_LEGEND_COLUMNS, _LEGEND_STEP = 2, 22

# Each color stands out by 3:1 or more from its ground. Source: WCAG 2.2, 1.4.11.
_STYLE = """\
.ground{fill:#fff}.grid{stroke:#d0d0d0}.axis{stroke:#555}text{fill:#222;font:14px sans-serif}
.title{font-weight:bold;font-size:16px}.line{fill:none;stroke-width:2.5}
.s0{stroke:#0b57b7;fill:#0b57b7}.s1{stroke:#b3420b;fill:#b3420b}.s2{stroke:#107050;fill:#107050}
.s3{stroke:#7a2fa0;fill:#7a2fa0}.s4{stroke:#6b6b00;fill:#6b6b00}.s5{stroke:#555;fill:#555}
@media (prefers-color-scheme:dark){
.ground{fill:#16181c}.grid{stroke:#3a3d44}.axis{stroke:#aaa}text{fill:#e8e8e8}
.s0{stroke:#7db4ff;fill:#7db4ff}.s1{stroke:#ff9d66;fill:#ff9d66}.s2{stroke:#5fd0a5;fill:#5fd0a5}
.s3{stroke:#d59bf5;fill:#d59bf5}.s4{stroke:#d6d64a;fill:#d6d64a}.s5{stroke:#bbb;fill:#bbb}
}"""

_MARKS = (
    "M-5-5h10v10h-10z",
    "M0-6L6 5H-6z",
    "M0-6L6 0L0 6L-6 0z",
    "M-5-1.500h10v3h-10z",
    "M0 6L6-5H-6z",
    "M-1.500-6h3v12h-3z",
)


@dataclass(frozen=True, slots=True)
class Series:
    """One line."""

    name: str
    points: tuple[tuple[float, float], ...]
    """Units and value, by units."""


@dataclass(frozen=True, slots=True)
class _Scale:
    low: int
    high: int
    """Powers of ten at both ends."""
    start: float
    end: float
    """Where they stand in the drawing."""

    def at(self, value: float) -> float:
        share = (log10(value) - self.low) / (self.high - self.low)
        return round(self.start + share * (self.end - self.start), 1)

    @property
    def ticks(self) -> Iterator[float]:
        return (10.0**power for power in range(self.low, self.high + 1))


def draw_plot(title: str, measure: str, series: Sequence[Series]) -> str:
    """Return the plot of *series*, *measure* being what the upright axis counts."""
    points = list(chain.from_iterable(each.points for each in series))
    across = _scale([x for x, _ in points], _LEFT, WIDTH - _RIGHT)
    up = _scale([y for _, y in points], HEIGHT - _BOTTOM, _TOP)
    rows = ceil(len(series) / _LEGEND_COLUMNS)
    height = HEIGHT + rows * _LEGEND_STEP + 10
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img">',
        f"<title>{escape(title)}</title>",
        f"<style>{_STYLE}</style>",
        f'<rect class="ground" width="{WIDTH}" height="{height}"/>',
        f'<text class="title" x="{_LEFT}" y="26">{escape(title)}</text>',
        *_axes(across, up, measure),
        *chain.from_iterable(_line(index, each, across, up) for index, each in enumerate(series)),
        "</svg>\n",
    ]
    return "\n".join(parts)


def _scale(values: Sequence[float], start: float, end: float) -> _Scale:
    low = floor(log10(min(values, default=1)))
    high = ceil(log10(max(values, default=10)))
    return _Scale(low, max(high, low + 1), start, end)


def _axes(across: _Scale, up: _Scale, measure: str) -> Iterator[str]:
    for tick in up.ticks:
        y = up.at(tick)
        yield f'<path class="grid" d="M{_LEFT} {y}H{WIDTH - _RIGHT}"/>'
        yield f'<text x="{_LEFT - 8}" y="{y + 5}" text-anchor="end">{tick:,g}</text>'
    foot = HEIGHT - _BOTTOM
    for tick in across.ticks:
        x = across.at(tick)
        yield f'<path class="grid" d="M{x} {_TOP}V{foot}"/>'
        yield f'<text x="{x}" y="{foot + 20}" text-anchor="middle">{tick:,.0f}</text>'
    yield f'<path class="axis" fill="none" d="M{_LEFT} {_TOP}V{foot}H{WIDTH - _RIGHT}"/>'
    middle = (_LEFT + WIDTH - _RIGHT) / 2
    yield f'<text x="{middle}" y="{foot + 40}" text-anchor="middle">units</text>'
    y = (_TOP + foot) / 2
    yield f'<text transform="translate(20 {y})rotate(-90)" text-anchor="middle">{measure}</text>'


def _line(index: int, series: Series, across: _Scale, up: _Scale) -> Iterator[str]:
    # A second round of the colors has other marks and broken lines.
    turn, color = divmod(index, len(_MARKS))
    mark = _MARKS[(color + 3 * turn) % len(_MARKS)]
    placed = [(across.at(x), up.at(y)) for x, y in series.points]
    if len(placed) > 1:
        path = "L".join(f"{x} {y}" for x, y in placed)
        dashes = ";stroke-dasharray:7 5" if turn else ""
        yield f'<path class="line s{color}" style="fill:none{dashes}" d="M{path}"/>'
    row, column = divmod(index, _LEGEND_COLUMNS)
    x = _LEFT + column * (WIDTH - _LEFT) / _LEGEND_COLUMNS
    y = HEIGHT + 10 + row * _LEGEND_STEP
    for at_x, at_y in [*placed, (x, y - 5)]:
        yield f'<path class="s{color}" transform="translate({at_x} {at_y})" d="{mark}"/>'
    yield f'<text x="{x + 14}" y="{y}">{escape(series.name)}</text>'
