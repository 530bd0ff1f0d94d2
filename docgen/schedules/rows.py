"""The lists as plain rows, no paper: lengths in mm, angles in degrees, words as the trade says them."""

from __future__ import annotations

from dataclasses import dataclass, field

from docgen.piece.records import Authority, HoleRow, Mark
from docgen.units import Number, Quantity

Lwt = tuple[Number, Number, Number]


@dataclass(frozen=True, slots=True)
class CutRow:
    """One kind of part in the cutting list."""

    number: int  # balloon number of the first part
    title: str  # "case side", or the path when there is only one
    parts: tuple[str, ...]
    count: int
    hands: str  # "1 left, 1 right" or ""
    material: str
    bought: str
    finished: Lwt  # with allowances: what leaves the saw (length to the long points)
    rough: Lwt
    grain: str  # "along the length" or "runs around: see blank case"
    board_feet: float | None  # solid wood, all of the row, at rough size
    area_m2: float | None  # sheet goods, all of the row
    weight_kg: float | None  # one part, finished, from the solid
    authority: Authority
    blank: str = ""  # name of the blank it is cut from, then it has no rough size of its own
    note: str = ""


@dataclass(frozen=True, slots=True)
class BlankPiece:
    """One part in a wrapped-grain blank, from its long points, measured along the blank."""

    path: str
    number: int
    start: Number
    end: Number


@dataclass(frozen=True, slots=True)
class BlankRow:
    """A board that parts are cut from in turn so that the grain runs around."""

    name: str
    material: str
    length: Number
    width: Number
    thickness: Number
    pieces: tuple[BlankPiece, ...]
    kerf: Number
    lost: Number  # along the show face at each mitre cut pair
    miss: Number
    trim: Number
    board_feet: float
    unmatched: str  # the corner at which the grain does not meet, "" when open
    note: str
    ripped: Number = 0  # finished width to which the whole blank is ripped before its first cut
    milled: Number = 0  # thickness to which it is milled before that


@dataclass(frozen=True, slots=True)
class StockRow:
    """How much of one material to buy."""

    material: str
    bought: str
    rows: int
    net: float
    unit: str  # "board feet" or "ft²", in millimetre files "m³" or "m²"
    with_waste: float
    waste_percent: float
    weight_kg: float | None  # of all finished parts of it: what is bought weighs more


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One line of the drilling and tapping chart."""

    name: str
    hole: HoleRow
    parts: tuple[str, ...]  # parts that get it alike
    mirrored: tuple[str, ...]  # parts that get it in mirror image
    face: str  # face word
    datum_end: str  # "bottom end"
    datum_edge: str  # "front edge"
    at: tuple[tuple[Number, Number], ...]  # from the end, from the edge
    each: int
    total: int
    fastener: str  # "1/4-20 UNC × 1 1/2 button head", worked out
    engagement: Number | None
    note: str
    marks: tuple[str, ...] = ()  # a name for each position: "A1", the same on both parts that it joins
    when: str = ""  # "" in the first go, else when: "marked through the mate"
    on_hand: str = ""  # the nearest drill that the shop states, where it has not the drill itself


@dataclass(frozen=True, slots=True)
class Stick:
    """A story stick: one strip along the length of a part (or of several equal ones)."""

    name: str
    parts: tuple[str, ...]
    mirrored: tuple[str, ...]
    length: tuple[Number, Number]  # blank's low and high end, from the datum end of the nominal box
    datum: str  # "bottom end"
    marks: tuple[Mark, ...]  # sorted by position
    notes: tuple[tuple[tuple[str, tuple[str, ...]], ...], ...] = ()
    """For each mark what it leaves open, "front edge" or "stops 5 mm from the front edge", with the parts that it holds for."""
    faces: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = ()
    """Parts on which the marks lie on the same faces, and the word of each mark's face there; the stick's own parts first."""


Values = tuple[tuple[str, Number | str, str], ...]
"""(name, value, kind) with kind "length", "angle", "count" or "text"."""


@dataclass(frozen=True, slots=True)
class SetupRun:
    """Parts that run alike at one set-up: what is cut, where it stands on them, how they are fed."""

    parts: tuple[str, ...]
    what: str  # "dado (housing) for shelf"
    places: Values = ()
    feed: str = ""


@dataclass(frozen=True, slots=True)
class SetupRow:
    """One machine set-up and the parts that run at it."""

    machine: str
    what: str
    values: Values
    parts: tuple[tuple[str, str], ...]  # (part path, feature title)
    note: str
    number: int = 0  # from 1, in the order of work
    when: str = ""  # "" in the first go, "after glue-up", "with the mate in place", "when fitting"
    runs: tuple[SetupRun, ...] = ()
    proof: tuple[str, ...] = ()  # test piece, and what is measured on it


@dataclass(frozen=True, slots=True)
class JigRow:
    """A jig, a test piece or an offcut that is kept."""

    what: str
    size: str
    use: str  # what it is for
    until: str  # "set-up 7", "step 21: glue up the case"


@dataclass(frozen=True, slots=True)
class ChainBox:
    """Parts of one kind in the chain of sizes, with the figures that hang on other parts."""

    title: str
    parts: tuple[str, ...]
    column: int  # 0 hangs on no other part
    size: Lwt  # finished
    authority: Authority
    lines: tuple[str, ...]  # "length: 32 3/8 between case sides + 2 × 1/4"


@dataclass(frozen=True, slots=True)
class HoldRow:
    """Something that has to be in hand or measured before a cut."""

    what: str  # "thickness of case boards"
    figure: str  # as drawn: "13/16 in"
    before: str  # "cutting the back"
    moves: str  # what a difference moves
    authority: Authority
    parts: tuple[str, ...] = ()  # parts that wait for it
    name: str = ""  # "H3"


@dataclass(frozen=True, slots=True)
class MoveRow:
    """A named size, and what moves when it comes out different."""

    name: str
    value: Number  # mm
    source: str  # "size", "measured", "set"
    on: str  # date of the measurement
    moves: tuple[tuple[Number, str, tuple[str, ...]], ...]  # factor, "length", parts
    used: tuple[str, ...]  # statements that use it: "housing"
    stays: tuple[tuple[str, tuple[str, ...]], ...] = ()  # of parts that get thicker: the face that stays, parts


@dataclass(frozen=True, slots=True)
class ChainRows:
    """The chain of sizes: boxes by column, arrows between them by index, hold points, what each size moves."""

    boxes: tuple[ChainBox, ...] = ()
    arrows: tuple[tuple[int, int], ...] = ()
    alone: tuple[str, ...] = ()  # parts that hang on no other part, and none on them
    holds: tuple[HoldRow, ...] = ()
    sizes: tuple[MoveRow, ...] = ()
    untold: tuple[str, ...] = ()  # named sizes of which the table of moves says nothing: angles, what is made of others


@dataclass(frozen=True, slots=True)
class WorkRow:
    """A step of the work."""

    number: int
    phase: str  # "Stock", "Machine work", ...
    what: str
    parts: tuple[str, ...]
    see: str  # the sheet where the figures stand
    wrong: str  # what may go wrong
    hold: bool = False  # measure first, then go on
    key: str = ""  # by which other lists name the step: "set-up 9", "glue case top"
    cautions: tuple[str, ...] = ()  # keys of what it asks for that no operation does: milling, sawing


@dataclass(frozen=True, slots=True)
class HardwareRow:
    """Something to buy, with its size worked out."""

    what: str
    size: str
    count: int
    where: str
    depends: tuple[str, ...]  # "buy after measuring: …"
    note: str
    group: str = ""  # the list's section


@dataclass(frozen=True, slots=True)
class MeasuredRow:
    """A size whose value was measured, or set for this run, and where it went."""

    name: str
    source: str  # "measured" or "set"
    used: Quantity
    drawn: Quantity | None  # what the file says under sizes
    on: str  # the day, "" when it is not said
    sizes: tuple[str, ...]  # the sizes made of it
    parts: tuple[str, ...]  # parts whose places, thickness or joinery are made of it or of these sizes


@dataclass(frozen=True, slots=True)
class CautionRow:
    """A caution with its text from shared/cautions.yaml and what in this piece asks for it."""

    key: str
    title: str
    lines: tuple[str, ...]
    why: tuple[str, ...]  # "router: dado in left side"
    symbols: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Schedules:
    """All lists of one piece."""

    cutting: tuple[CutRow, ...]
    blanks: tuple[BlankRow, ...]
    stock: tuple[StockRow, ...]
    chart: tuple[ChartRow, ...]
    sticks: tuple[Stick, ...]
    setups: tuple[SetupRow, ...]
    hardware: tuple[HardwareRow, ...]
    cautions: tuple[CautionRow, ...]
    jigs: tuple[JigRow, ...] = ()
    chain: ChainRows = field(default_factory=ChainRows)
    work: tuple[WorkRow, ...] = ()
    measured: tuple[MeasuredRow, ...] = ()
