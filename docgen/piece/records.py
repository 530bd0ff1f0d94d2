"""The plain frozen records in which operations, joints and assemblies answer.

All coordinates are in the part's own axes (0 length with the grain, 1 width, 2 thickness), in
millimetres, with the origin at the low corner of the nominal box. Angles are degrees. A `Number`
is an exact fraction where the file's arithmetic kept it exact, a float after a root or an angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple, TypeAlias

from docgen.geometry.shapes import HalfSpace, Outline, Shape, Vec
from docgen.places import Span
from docgen.units import Number

Point: TypeAlias = tuple[Number, Number, Number]
Axis: TypeAlias = int
"""An axis of the part: 0 length, 1 width, 2 thickness; a name, never one of an operation's numbers."""


class Face(NamedTuple):
    """A face of the nominal box: `axis` 0 length, 1 width, 2 thickness; `side` 0 low, 1 high."""

    axis: int
    side: int


class Stage(StrEnum):
    """When an operation is done."""

    PART = "part"
    GLUED = "glued"
    FITTED = "fitted"


class Authority(StrEnum):
    """Which figure rules."""

    CUT = "cut"  # cut to this figure
    FIT = "fit"  # cut over by so much, then fit to the mating part
    MATE = "mate"  # mark or drill through the mating part
    MEASURE = "measure"  # do not cut before the opening is measured
    HARDWARE = "hardware"  # the hardware's own sheet rules


@dataclass(frozen=True, slots=True)
class Origin:
    """The place in the file that made a record, the joint or assembly behind it, and its source."""

    span: Span | None = None
    because: tuple[Span, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """A cutter taken away from the part; `shape` in the part's axes, overshooting open sides by 1 mm.

    `stage` is set where this cut comes later than the feature itself: the fat of a tongue goes at the fitting.
    A cut that is `mated` is marked from the mate before gluing: where it comes to lie tells no parts apart. `beside` is the
    plane of the shoulders about a tenon: what lies beyond it goes but for the tenon.
    """

    shape: Shape
    stage: Stage | None = None
    mated: bool = False
    beside: HalfSpace | None = None


REMARK = 12
"""Letters: a longer label of a size is a remark on its figure, as "to the centre", and stands at the foot."""


class SizeKind(StrEnum):
    """What a dimension measures."""

    LENGTH = "length"
    ANGLE = "angle"
    RADIUS = "radius"
    DIAMETER = "diameter"


@dataclass(frozen=True, slots=True)
class Size:
    """A dimension that fixes the operation's `parameters`.

    LENGTH: from `start` to `end`, measured along the unit vector `along`.
    RADIUS, DIAMETER: `start` is the centre, `end` a point of the arc, `along` the axis of the arc. A diameter that is
    told where its circle is seen from the side has that view's direction for `along`, and `other`, the point of its rim
    to which the leader goes.
    ANGLE: `start` is the apex, `end` a point on one arm, `other` a point on the second arm, `along`
    the axis about which the angle opens.
    `face` is the face on which the feature is best seen (None: the size belongs to the whole part).
    """

    kind: SizeKind
    start: Vec
    end: Vec
    along: Vec
    value: Number
    parameters: tuple[str, ...] = ()
    face: Face | None = None
    other: Vec | None = None
    label: str = ""  # what stands before the figure: "long point", "rabbet"
    authority: Authority = Authority.CUT
    over: Number = 0  # with FIT: how much fat is left, mm
    note: str = ""  # second reading for angles, "full width", "to the end of the arc"
    times: int = 1  # how many equal cuts of the operation it tells: two slots in one row
    reference: bool = False  # words beside the view tell it already, as "tenon centred": in brackets
    place: bool = False  # a labelled size that tells where, not how large: it may run from the side opposite


BOTH = 3
"""In place of a mark's wood side: wood stays on both sides of the line, as at a shoulder."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A line for a story stick.

    `position` is measured along the part's length axis from the low end of the nominal box.
    `wood`: -1 the wood that stays lies toward the datum, +1 away from it, 0 a centre line, BOTH a line beyond which wood
    stays too.
    """

    position: Number
    wood: int
    label: str
    face: Face


class Purpose(StrEnum):
    """What a hole is for."""

    PLAIN = "plain"
    CLEARANCE = "clearance"
    TAPPED = "tapped"
    PILOT = "pilot"
    DOWEL = "dowel"
    BORE = "bore"  # for a sleeve, insert, cross-dowel, bearing


@dataclass(frozen=True, slots=True)
class Sink:
    """A countersink (`angle` set) or a counterbore (`depth` set) at a hole's mouth; mm, degrees."""

    diameter: Number
    depth: Number | None = None
    angle: Number | None = None

    def deep(self, hole: Number) -> float:
        """Return how deep it goes, mm: its bore, and its cone down to the rim of a `hole` of this diameter."""
        bore = float(self.depth or 0)
        if self.angle is None:
            return bore
        return bore + float(self.diameter - hole) / 2 / math.tan(math.radians(float(self.angle) / 2))


@dataclass(frozen=True, slots=True)
class Leaning:
    """How a drill leans as it goes in, degrees: from square to the face, along a sight line that runs `toward` a side.

    The sight line is `swung` by `sight` to another side; 0 and "" where the lean shows in one view alone. `text` says it all.
    """

    lean: Number
    toward: str
    sight: Number
    swung: str
    text: str


@dataclass(frozen=True, slots=True)
class HoleRow:
    """Equal holes in one face, one row of the drilling chart.

    `points` are the hole mouths on the face; `direction` points into the wood. `depth` is the depth of
    the full diameter, None for a through hole. Holes that match across parts carry one `name`.
    """

    name: str
    purpose: Purpose
    face: Face
    points: tuple[Point, ...]
    direction: Vec
    diameter: Number
    drill: str  # as bought: "17/64", "#7", "6.8 mm"
    depth: Number | None = None
    thread: str = ""  # full designation: "1/4-20 UNC"
    thread_depth: Number | None = None  # full threads, mm
    percent: float | None = None  # per cent of thread on the 1.29904 basis
    sink: Sink | None = None
    fastener: str = ""  # key into Piece.fasteners
    mate: str = ""  # path of the part it matches
    authority: Authority = Authority.CUT
    note: str = ""
    reach: Number | None = None  # along the axis, where the hole comes out by another face than the one behind
    meets: str = ""  # name of the holes of the same part that it is to meet inside the wood: a bolt and its barrel nut
    ruled: bool = False  # a row laid out with a rule, near enough to its places: it wants neither template nor stick
    names: tuple[str, ...] = ()  # of each hole on all pages, filled in when the piece stands: "A1"; () without a `name`
    leaning: Leaning | None = None  # the end of the `note` says so too
    tip: Number | None = None  # degrees of the drill's point where it is no common twist drill's; 180 is flat
    off: Face | None = None  # the side that their places are measured from, where that is not the part's datum


@dataclass(frozen=True, slots=True)
class SlotRow:
    """A slot right through a part for a fastener that has to move: a row of the drilling chart, cut with a router.

    `centre` is its middle on the face; `length` over all runs along the axis `along`. `bore` is a wider slot for the head:
    (width, depth).
    """

    name: str
    face: Face
    centre: Point
    along: Axis
    length: Number
    width: Number
    bore: tuple[Number, Number] | None = None
    called: str = ""  # on all pages, filled in when the piece stands: "A1"


@dataclass(frozen=True, slots=True)
class Travel:
    """How a cutter runs over a part: on `face`, along the axis `along`, through the point `at` on that face.

    `start` and `stop` are where the full cut ends along the run; None runs out of the part. `edge` is the side to which
    the cut is open (a rabbet, a rounded arris); a trench between two walls has none.
    """

    face: Face
    along: Axis
    at: Point
    start: Number | None = None
    stop: Number | None = None
    edge: Face | None = None
    deep: Number = 0  # under the face, mm
    wide: Number = 0  # what the cutter takes from wall to wall or from the edge, mm
    near: Face | None = None  # the side that the near wall of a trench is told from
    also: tuple[tuple[Face, Number], ...] = ()  # other faces that are cut in the same way, each with its depth: cheeks


@dataclass(frozen=True, slots=True)
class Setting:
    """A machine set-up for one operation; equal settings are run together.

    `values` are (name, value, kind) with kind "length", "angle", "count" or "text": what is set at the machine.
    `places` are said the same way and tell where it is done on this part: stops, distances from an end.
    """

    machine: str  # "table saw", "router", "drill press", ... a key of the cautions
    what: str  # "dado, flat-bottomed", "mitre across the face"
    values: tuple[tuple[str, Number | str, str], ...]
    note: str = ""
    places: tuple[tuple[str, Number | str, str], ...] = ()
    travel: Travel | None = None
    feed: str = ""  # which way the cutter runs, where no travel on one face tells it
    mate: str = ""  # what the cut has to fit, to be tried on the test piece
    late: bool = False  # takes away faces that other cuts are measured from: run when those are done
    tall: Number = 0  # wood that stands above the table where a blade goes through, mm; 0: the part's thickness
    clear: tuple[Shape, ...] = ()  # room that the tool takes beyond its cut, part axes: its bearing, its chuck
    jig: tuple[str, str] = ("", "")  # what has to be made for it beside the parts, and its size in words
    base: Number = 0  # how wide the face is on which the router stands, where no travel tells it, mm
    skims: bool = False  # turned to the full width of its square, which has to be milled thicker than the part's box
    fitted: str = ""  # what is fitted to this cut later, so that nothing goes into the test cut: "runner"
    run: Number = 0  # how long a cut is that is led by its jig, where that is not the part's length, mm


@dataclass(frozen=True, slots=True)
class Caution:
    """A key into shared/cautions.yaml, with what is special to this piece."""

    key: str
    note: str = ""


OTHER_CUT = "other cut of this end"
"""What a template calls a line that its own cut does not follow; drawn as a phantom line."""


@dataclass(frozen=True, slots=True)
class Template:
    """A true-size outline to be taped to wood.

    `outline` (and `lines`, drawn inside) lie in the plane of `face`, in its two in-plane axes in rising
    order (face axis 2: x length, y width; axis 1: x length, y thickness; axis 0: x width, y thickness),
    as seen on the face from outside: `mirrored` says that x runs the other way when looked at so.
    Templates with the same `shared` key (equal corner radii) are printed once.
    """

    title: str
    face: Face
    outline: Outline  # what stays
    waste: tuple[Outline, ...] = ()  # what goes, to be hatched
    holes: tuple[tuple[float, float, float], ...] = ()  # x, y, diameter
    lines: tuple[tuple[tuple[float, float], tuple[float, float], str], ...] = ()  # from, to, label
    datum: tuple[tuple[tuple[float, float], tuple[float, float]], ...] = ()  # datum edges, drawn bold
    grain: float | None = None  # direction of the grain in the plane, degrees from x
    notes: tuple[str, ...] = ()
    shared: str = ""
    loose: bool = False  # it lies at the origin, not where the feature stands: no hole can be told to lie in it
    checks: tuple[tuple[float, float, float], ...] = ()  # holes through the mate, to check only: x, y, diameter
    openings: tuple[Outline, ...] = ()  # cut out of the inside: their lines are cuts, the waste within is hatched
    whole: bool = False  # the outline is the whole face as this feature leaves it: other cuts through the part go too
    radii: bool = True  # False: arcs of the outline stand for a curve that is no circle, so that no radius is told
    guide: bool = False  # it is there for its holes: their surroundings are shown, each hole by its name
    of: str = ""  # what is made by it, where that is no part of the list: a button
    lies: str = ""  # where it is laid, in words, where its face does not say it: "on the outer face, at either end"
    points: tuple[
        tuple[float, float, str], ...
    ] = ()  # its curve is laid out by: x, y, name or ""; shown on the outline
    glued: bool = False  # it is laid over the joint of parts that are glued up: its datum edges are their outer faces


@dataclass(frozen=True, slots=True)
class Assumed:
    """What a drawing need not say: square, flush, centred, through."""

    text: str


@dataclass(frozen=True, slots=True)
class Allowance:
    """Wood that a joint adds beyond the nominal box at `face` (a tongue, a tenon)."""

    face: Face
    amount: Number
    reason: str


@dataclass(frozen=True, slots=True)
class Spare:
    """Wood left on beyond the nominal box at `face`, until the part is fitted: the box is what it has in the end."""

    face: Face
    amount: Number
    note: str = ""  # how it goes, in words: "by planing the lower edge alone"


@dataclass(frozen=True, slots=True)
class Defect:
    """A place where the wood itself is not sound: a knot, a pitch pocket. `point` on `face`, `diameter` over its edge."""

    what: str
    face: Face
    point: Point
    diameter: Number
    depth: Number  # how far it goes into the wood


@dataclass(frozen=True, slots=True)
class Made:
    """All that one operation answers for one part."""

    cuts: tuple[Cut, ...] = ()
    sizes: tuple[Size, ...] = ()
    marks: tuple[Mark, ...] = ()
    holes: tuple[HoleRow, ...] = ()
    settings: tuple[Setting, ...] = ()
    cautions: tuple[Caution, ...] = ()
    templates: tuple[Template, ...] = ()
    assumed: tuple[Assumed, ...] = ()
    allowances: tuple[Allowance, ...] = ()
    defects: tuple[Defect, ...] = ()
    slots: tuple[SlotRow, ...] = ()
    outlined: bool = False  # all sides of the blank go, a new outline stays: it is left at its rough size until then
    spare: tuple[Spare, ...] = ()
    gone: tuple[Face, ...] = ()  # sides that it slants away: nothing is measured from them
    off: Face | None = None  # the side that its place runs from, since what goes into it bears there


@dataclass(frozen=True, slots=True)
class Feature:
    """One operation as it stands on one part."""

    name: str  # unique in the part: "dado 2"
    word: str  # the operation's word: "dado"
    title: str  # as the sheets say it: "dado (housing) for shelf"
    stage: Stage
    made: Made
    parameters: tuple[tuple[str, Number], ...] = ()  # every number of the operation
    origin: Origin = field(default_factory=Origin)
