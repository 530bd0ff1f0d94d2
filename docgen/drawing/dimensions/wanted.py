"""What is to be dimensioned in a view, and what was printed. View millimetres in, paper millimetres out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from docgen.drawing.records import Point, Record
from docgen.piece.records import Size


@dataclass(frozen=True, slots=True)
class Linear:
    """The distance from `a` to `b` measured along the unit vector `along`, all in view mm."""

    key: str  # stable; ties are settled by it
    a: Point
    b: Point
    along: Point
    text: str
    sizes: tuple[Size, ...] = ()
    overall: bool = False  # goes outermost
    datum: bool = False  # `a` lies on a datum: may become one of the running dimensions
    over: bool = False  # on the other side from where it would stand
    taken: float = 0.0  # view mm that are left out between `a` and `b` where the view is broken
    reaches: bool = False  # the extension line of a datum begins at `a` itself, not at the outline of the view


@dataclass(frozen=True, slots=True)
class Callout:
    """Lines of text with a leader to a circle (`radius` in view mm) or, with radius 0, to a point of an edge."""

    key: str
    at: Point
    radius: float
    lines: tuple[str, ...]
    sizes: tuple[Size, ...] = ()
    toward: float | None = None  # direction in degrees in which an arc lies from its centre: the leader ends there
    spread: float = 0.0  # half the opening of the arc, degrees
    near: bool = False  # stands at the circle without a leader where there is room
    others: tuple[Point, ...] = ()  # like circles, to any of which the leader may go as well


@dataclass(frozen=True, slots=True)
class Angular:
    """The angle at `apex` between the arms through `first` and `second`, all in view mm."""

    key: str
    apex: Point
    first: Point
    second: Point
    text: str
    sizes: tuple[Size, ...] = ()


Wanted: TypeAlias = Linear | Callout | Angular


@dataclass(frozen=True, slots=True)
class Costs:
    """What a candidate pays; the cheapest is taken, ties go to the one tried first."""

    over_line: float = 3.0  # a leader or extension line that crosses a line of the view
    over_dimension: float = 6.0  # the same across a dimension line
    away: float = 0.25  # per mm from what is dimensioned
    outside_text: float = 2.0  # text that does not stand between its arrows
    over_hatch: float = 1.0  # per mm of a slanted dimension line that runs over hatching
    growth: float = 0.1  # per mm by which the view with its figures becomes wider or higher


@dataclass(frozen=True, slots=True)
class Rules:
    """Distances on paper in mm. ISO practice: 10 mm to the first line, then 7 mm or more, 2 mm overshoot."""

    height: float = 3.5
    first: float = 10.0
    pitch: float = 7.5
    gap: float = 1.0  # outline to extension line
    over: float = 2.0  # extension line past the dimension line
    lift: float = 1.0  # text above the dimension line
    clear: float = 0.7  # least air around text
    running_from: int = 4  # so many dimensions from one datum become running dimensions
    apart: bool = False  # two run as well, where the figure of the shorter one would stand under the other's arrow
    lanes: int = 14
    costs: Costs = field(default_factory=Costs)


@dataclass(frozen=True, slots=True)
class Placed:
    """A printed dimension: what was wanted, where its arrows point (paper mm), how it was set."""

    wanted: Wanted
    how: str  # "lane", "running", "inside", "leader", "angle"
    arrows: tuple[Point, Point] | None
    records: tuple[Record, ...]


@dataclass(frozen=True, slots=True)
class Arranged:
    """All dimensions of one view; `left` found no place and must be told in words."""

    placed: tuple[Placed, ...]
    left: tuple[Wanted, ...]
    bounds: tuple[float, float, float, float]  # of view and dimensions, paper mm

    @property
    def records(self) -> tuple[Record, ...]:
        """All records, in the order of placing."""
        return tuple(r for p in self.placed for r in p.records)
