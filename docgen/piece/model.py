"""The piece: parts with placements, what was done to them, and what belongs to the whole."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeAlias

from docgen.expressions import Expr
from docgen.geometry.shapes import Extrusion, Frame, Vec
from docgen.piece.hardware import Fitting
from docgen.piece.naming import spoken
from docgen.piece.records import Authority, Face, Feature, Origin, Point, Size, Spare
from docgen.project.model import PartDef
from docgen.project.statements import Lazy
from docgen.units import Number, Quantity, Units

FACE_WORDS = {"left": (0, 0), "right": (0, 1), "front": (1, 0), "back": (1, 1), "bottom": (2, 0), "top": (2, 1)}
"""Face word → (piece axis, side): across 0, deep 1, up 2."""

SIDE_NOUNS = ("end", "edge", "face")
"""What the sides of a part are called by their axis: length, width, thickness. Of a strip on edge the last two change places."""

THINNER = 1e-3  # mm that a part's width is less than its thickness before the sides across its width are the faces


@dataclass(frozen=True, slots=True)
class Material:
    """What a part is made of. Lengths in mm, density in kg/m³."""

    name: str
    thickness: Number
    species: str = ""  # solid wood: name in shared/tables/wood_*.csv
    sheet: str = ""  # sheet goods, glass: name in shared/tables/panel_materials.csv
    bought: str = ""  # "5/4" or a nominal thickness as bought
    stock: tuple[Number, Number] | None = None  # stated stock length and width
    density: float | None = None
    origin: Origin = field(default_factory=Origin)
    movement: tuple[float | None, float] | None = None  # stated: radial, tangential, share for 1 % of moisture
    stiffness: float | None = None  # stated: modulus of elasticity along the grain, MPa

    @property
    def solid_wood(self) -> bool:
        """True when the material has grain that moves across its width."""
        return bool(self.species)


@dataclass(frozen=True, slots=True)
class Part:
    """A blank in its own axes and its rigid placement.

    `size` is the nominal box (length, width, thickness); the blank is the box plus the allowances of the
    features. `frame` takes the part's axes into the piece's axes (across, deep, up) at rest.
    `words` tells for each face word which face of the box it means, at rest and before any turn.
    `box` is the nominal box in the piece's axes before any turn, exact where the file is; `rest` is the placement
    before any turn.
    """

    path: str  # "left side", "drawer.front"
    number: int  # balloon number, from 1, in the order of the file
    material: Material
    size: tuple[Number, Number, Number]
    frame: Frame
    words: tuple[tuple[str, Face], ...]
    grain_word: str  # "across", "deep" or "up": where the length axis points at rest
    features: tuple[Feature, ...] = ()
    show: Face | None = None
    group: str = ""  # name of the tilting or turning group, if any
    turned: bool = False  # placed by a turn: its faces are not square to the piece
    authority: Authority = Authority.CUT  # MEASURE for fronts, backs, panes
    hardware: bool = False  # bought, not made: no part sheet
    note: str = ""
    origin: Origin = field(default_factory=Origin)
    box: tuple[tuple[Number, Number], tuple[Number, Number], tuple[Number, Number]] = ((0, 0), (0, 0), (0, 0))
    rest: Frame = field(default_factory=Frame)
    called: str = ""  # what it is called on paper, no two alike; "" becomes the path as it is said

    def __post_init__(self) -> None:
        """Give a part that was made alone its name."""
        if not self.called:
            object.__setattr__(self, "called", spoken(self.path))

    def face(self, word: str) -> Face:
        """Return the face that `word` (left, right, front, back, top, bottom) means; KeyError if none."""
        return dict(self.words)[word]

    def word(self, face: Face) -> str:
        """Return the word of `face`."""
        return next(w for w, f in self.words if f == face)

    def side(self, face: Face) -> str:
        """Return a side of the nominal box as the trade says it: "bottom end", "front edge", "left face".

        An end that a joint made longer is a shoulder, and where wood is left on a line is struck: positions are measured
        from the nominal box.
        """
        if any(s.face == face for s in self.spare):
            return f"{self.word(face)} line"
        longer = any(a.face == face for f in self.features for a in f.made.allowances)
        return f"{self.word(face)} shoulder" if longer else self.plain_side(face)

    def plain_side(self, face: Face) -> str:
        """Return what a side is called whatever is cut there, on every page alike: "top end", "front edge", "left face"."""
        noun = 0 if face.axis == 0 else 2 if face.axis == self.broad_axis else 1
        return f"{self.word(face)} {SIDE_NOUNS[noun]}"

    @property
    def broad_axis(self) -> int:
        """The axis square to the broad faces: 2, or 1 for a part that is thinner in its width."""
        wide, thick = (high - low for low, high in map(self.span, (1, 2)))
        return 1 if thick - wide > THINNER else 2

    @property
    def spare(self) -> tuple[Spare, ...]:
        """All wood that is left on until the part is fitted."""
        return tuple(s for f in self.features for s in f.made.spare)

    def over(self, axis: int) -> Number:
        """Return how much more than its figure the part is cut along `axis`, to be fitted later, mm."""
        return sum((s.amount for s in self.spare if s.face.axis == axis), 0)

    def span(self, axis: int) -> tuple[Number, Number]:
        """Return the blank's extent along `axis`: the nominal box plus the allowances."""
        low: Number = 0
        high: Number = self.size[axis]
        for feature in self.features:
            for a in feature.made.allowances:
                if a.face == Face(axis, 0):
                    low = min(low, -a.amount)
                elif a.face == Face(axis, 1):
                    high = max(high, self.size[axis] + a.amount)
        return low, high


@dataclass(frozen=True, slots=True)
class Run:
    """Parts cut in turn from one blank so that the grain runs around; in order along the blank."""

    name: str
    parts: tuple[str, ...]
    inner: tuple[str, ...]  # face word of each part that ends up inside the case
    closed: bool = False
    radius: Number = 0  # outside radius that the corners get later
    origin: Origin = field(default_factory=Origin)


@dataclass(frozen=True, slots=True)
class Group:
    """Parts that turn together about an axis (a tilting frame, a door)."""

    name: str
    parts: tuple[str, ...]
    point: Vec  # on the axis, piece axes, mm
    axis: int  # 0 across, 1 deep, 2 up
    range: tuple[Number, Number]  # degrees, right-handed about the axis; 0 is at rest
    stays: tuple[int, str] = (0, "")  # how many bought stays hold it where it is put, and what they are


@dataclass(frozen=True, slots=True)
class Fastener:
    """A screw, bolt or sleeve with its length worked out; lengths in mm."""

    key: str  # "A": the name that its holes carry
    what: str  # "machine screw, button head"
    thread: str  # "1/4-20 UNC"
    length: Number | None
    count: int
    washer: Number = 0  # thickness under the head, all together
    head: tuple[Number, Number] = (0, 0)  # head (or washer) diameter, height
    grip: Number = 0  # wood between head and tapped part
    engagement: Number = 0
    tapped_depth: Number = 0  # full threads
    drill_depth: Number = 0
    wood_behind: Number | None = None  # left beyond the drill's point
    points: tuple[Point, ...] = ()  # where the heads sit, in the piece's axes
    direction: Vec = (0.0, 0.0, 0.0)  # from the head into the wood, piece axes
    parts: tuple[str, str] = ("", "")  # held part, tapped part
    depends: tuple[str, ...] = ()  # measurements after which it may be ordered
    notes: tuple[str, ...] = ()
    origin: Origin = field(default_factory=Origin)
    slot: Vec = (0.0, 0.0, 0.0)  # how far it can travel in a slot, to either side of its place, piece axes
    metal: bool = False  # its thread holds in a nut or an insert, not in wood
    passes: Number = 0  # wood of the second part that it passes before its thread begins
    pilot: str = ""  # drill of a pilot hole that no feature makes: drilled through the first part in its place
    lays: bool = False  # it fixes the first part, which is laid in: driven when that lies in its place


class Sets(StrEnum):
    """When something beside the parts goes to its place."""

    LAST = "last"  # fitted when all is finished
    GLUED = "glued"  # goes in with the glue: dowel, spline, wedge
    SLOTS = "slots"  # glued into slots that are cut across a glued corner
    HEADS = "heads"  # glued over the heads of the screws of the same statement
    BOLTED = "bolted"  # goes on with the fastener of the same statement: a washer between two parts
    FIXES = "fixes"  # fixes what is laid in: brads, small screws


@dataclass(frozen=True, slots=True)
class Item:
    """Something beside the parts: slides, sleeves, washers are bought; with the authority to be cut it is made."""

    what: str
    count: int
    size: str = ""
    authority: Authority = Authority.HARDWARE
    note: str = ""
    origin: Origin = field(default_factory=Origin)
    where: str = ""  # the parts that it joins, or the holes it sits in
    sets: Sets = Sets.LAST
    parts: tuple[str, ...] = ()  # with FIXES: the parts that it fixes


@dataclass(frozen=True, slots=True)
class Loose:
    """A small thing of wood in a joint: a loose tenon, spline, key, dowel, wedge, button, plug.

    `shape` is its solid in its own axes and stands along axis 2; `frame` takes those axes into the piece's at rest.
    `told` are its sizes in words (what, value), those that the lists tell.
    """

    what: str  # "loose tenon"
    shape: Extrusion
    frame: Frame
    grain: int  # own axis along which its fibres run
    long: int  # own axis of its length: the one that is dimensioned
    told: tuple[tuple[str, Number], ...]
    parts: tuple[str, ...]
    sits: tuple[tuple[str, str], ...]  # (part path, feature name): the cuts that are made for it
    clear: Number = 0  # left free at each end of its length
    shows: bool = False  # some of it is seen on the finished piece
    sheet: bool = False  # plywood does as well
    leaves: Vec = (0.0, 0.0, 0.0)  # own axes: where it comes out of what is joined already, if it does
    driven: bool = False  # a wedge: it spreads its first part within the last, by which it goes in, and is sawn flush


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint between parts, as made: which features it cut on which parts."""

    word: str
    title: str
    parts: tuple[str, ...]
    features: tuple[tuple[str, str], ...]  # (part path, feature name)
    figures: tuple[tuple[str, Number, str], ...] = ()  # (name, value, kind) worked out by the joint
    origin: Origin = field(default_factory=Origin)
    closes: Vec = (0.0, 0.0, 0.0)  # along which it closes, piece axes, where neither tongue nor trench tells it
    holds: bool = False  # glued: the cut in each later part holds the first over its whole width
    driven: bool = False  # a round end driven home with glue: no clamp presses it
    loose: tuple[Loose, ...] = ()  # what is set into its cuts
    fittings: tuple[Fitting, ...] = ()  # what is bought for it, where it has a solid
    cut_as: tuple[tuple[str, str], ...] = ()  # (part path, what is cut there), where the word says something else


@dataclass(frozen=True, slots=True)
class Drawer:
    """A drawer: its parts, the opening and how it runs; lengths in mm."""

    name: str
    parts: tuple[str, ...]
    opening: tuple[tuple[Number, Number], tuple[Number, Number], tuple[Number, Number]]  # across, deep, up
    clearance: Number  # a side, for the slide
    slide_length: Number
    gap: Number  # round the front
    figures: tuple[tuple[str, Number, str], ...] = ()
    origin: Origin = field(default_factory=Origin)
    runners: tuple[str, ...] = ()  # strips of wood beside it that it hangs on; they stay when it comes out
    bed: str = ""  # the part under it that it slides on; neither: it runs on bought slides

    @property
    def called(self) -> str:
        """What it is called on paper: "drawer 2"."""
        return spoken(self.name)

    @property
    def on_wood(self) -> bool:
        """Whether it slides on strips or on the case, and nothing is bought for it to run on."""
        return bool(self.runners or self.bed)


@dataclass(frozen=True, slots=True)
class Pane:
    """A panel or pane in a frame's rabbet, with its chain of sizes; lengths in mm."""

    name: str
    frame: tuple[str, ...]
    pane: str
    clearance: Number  # a side
    rabbet: tuple[Number, Number]  # into the stock's width, depth for the pane
    figures: tuple[tuple[str, Number, str], ...] = ()
    origin: Origin = field(default_factory=Origin)
    word: str = "pane"  # what it is called: "pane" of glass, "panel" of wood


@dataclass(frozen=True, slots=True)
class Kind:
    """Parts that are the same, counted together; `mirrored` ones are the other hand."""

    parts: tuple[str, ...]
    mirrored: tuple[str, ...] = ()

    @property
    def first(self) -> str:
        """Path of the part that stands for all."""
        return self.parts[0]

    @property
    def count(self) -> int:
        """How many are made, both hands."""
        return len(self.parts) + len(self.mirrored)


@dataclass(frozen=True, slots=True)
class TemplateWish:
    """What the file asks of the templates: a face of parts ("" for the one that is seen), or none of theirs.

    With `none` and no face it goes for all faces, with no parts for all parts.
    """

    parts: tuple[str, ...]
    face: str = ""
    none: bool = False
    origin: Origin = field(default_factory=Origin)


@dataclass(frozen=True, slots=True)
class DrawingWish:
    """What the file asks of the sheet of one part.

    "dimension": `made` is printed on the view of `face`. "drop": `size` is left out. "move": `size` is told on the view of
    `face`, if one is named, and on the `other_side` of its view. "note": `text` with a leader to `at`, part axes, on `face`.
    `size` names a feature and the place among its sizes, or "" and an axis for a size of the blank.
    """

    word: str
    part: str
    size: tuple[str, int] = ("", -1)
    face: Face | None = None
    other_side: bool = False
    made: Size | None = None
    at: Vec | None = None
    text: str = ""
    origin: Origin = field(default_factory=Origin)


Figures: TypeAlias = tuple[tuple[str, Quantity, str], ...]


@dataclass(frozen=True, slots=True)
class Rules:
    """What sizes and places are made of: formulas by size, the parts with their places as formulas, the statements."""

    formulas: tuple[tuple[str, Expr], ...] = ()
    parts: tuple[PartDef, ...] = ()
    statements: tuple[Lazy, ...] = ()
    drawn: tuple[tuple[str, Quantity], ...] = ()  # what the file says of the sizes whose value was measured or set
    materials: tuple[tuple[str, tuple[str, ...]], ...] = ()  # material → the sizes that its thickness is made of


@dataclass(frozen=True, slots=True)
class Piece:
    """Everything that is known of the piece; solids are made on demand by `piece.solids`."""

    title: str
    number: str
    revision: str
    date: str
    author: str
    units: Units
    projection: str  # "third angle" or "first angle"
    paper: str  # "" or a layout name the file asks for
    notes: tuple[str, ...]
    sizes: Figures  # (name, value, "size" | "measured" | "set")
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...] = ()
    runs: tuple[Run, ...] = ()
    groups: tuple[Group, ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    items: tuple[Item, ...] = ()
    drawers: tuple[Drawer, ...] = ()
    panes: tuple[Pane, ...] = ()
    conditions: Figures = ()  # humidity range, loads, moisture on the day: what the checks need
    shop: tuple[
        tuple[str, object], ...
    ] = ()  # what the shop's machines can take, by name; mm or texts, only what is stated
    measured_on: tuple[tuple[str, str], ...] = ()  # size → date of its measurement
    stands: str = "floor"  # or "strapped" to the wall as well, or "wall": hung, not standing
    rules: Rules = field(default_factory=Rules)
    templates: tuple[TemplateWish, ...] = ()
    drawing: tuple[DrawingWish, ...] = ()
    beside: tuple[tuple[str, str], ...] = ()  # name → text of each file that was read beside the project file
    owner: str = ""  # whose drawing it is
    approved: str = ""  # who looked it over

    def part(self, path: str) -> Part:
        """Return the part with this path; KeyError if there is none."""
        for part in self.parts:
            if part.path == path:
                return part
        raise KeyError(path)
