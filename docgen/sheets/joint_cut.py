"""One section through a joint: what it cuts of each part. View mm, no paper yet."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from docgen.drawing.breaks import empty
from docgen.drawing.hatching import Cut
from docgen.geometry.lines import View
from docgen.geometry.outlines import Box2
from docgen.geometry.reach import box_corners, corners
from docgen.geometry.section import Ring, Windowed, distance, section, share_within, windowed, without
from docgen.geometry.shapes import Vec
from docgen.geometry.surfaces import Floats
from docgen.piece import loose
from docgen.piece.hardware import Fitting
from docgen.piece.model import Fastener, Joint, Kind, Loose, Part
from docgen.piece.solids import Solids
from docgen.schedules.planes import Held, Plane
from docgen.sheets.joint_screws import in_sight, with_tips
from docgen.sheets.joint_window import (
    MOSTLY,
    about,
    off_hollows,
    passed,
    roomy,
    sunk,
    with_bores,
    with_ends,
    with_hollows,
    with_parts,
    with_things,
)

ADJOINS = 0.5  # mm: what stands further off is left out: a fragment without its surroundings tells nothing
SLIVER = 3.0  # mm: of another part so much has to be shown in either direction
CLEAR = 2.0  # mm: so far a plane keeps from parts that it is to pass by
SLOPES = (45.0, 135.0, 30.0, 120.0, 60.0, 150.0)  # degrees, of the hatching of parts that lie side by side


@dataclass(frozen=True, slots=True)
class Face:
    """What the plane cuts of one part within the window, and how it is hatched."""

    part: Part
    shown: tuple[Windowed, ...]
    cut: Cut
    degrees: float
    aside: bool = False  # of another joint, in a hollow of a part of this one


@dataclass(frozen=True, slots=True)
class Fill:
    """What the plane cuts of a small thing that sits in the joint, and how it is hatched."""

    thing: Loose
    shown: tuple[Windowed, ...]
    cut: Cut
    degrees: float


@dataclass(frozen=True, slots=True)
class Metal:
    """What the plane cuts of a piece of hardware."""

    thing: Fitting
    shown: tuple[Windowed, ...]


@dataclass(frozen=True, slots=True)
class Beside:
    """What the plane cuts of something that is not joined here; `part` is None for a small thing of another joint."""

    part: Part | None
    shown: tuple[Windowed, ...]


@dataclass(frozen=True, slots=True)
class CutView:
    """The faces in a plane within a window, view mm; `beside` is what else is cut there.

    The faces are those of the two parts that are joined, then those of what else lies in their joint. `passing` are
    fasteners of other joints that lie in the plane.
    """

    plane: Plane
    window: Box2
    faces: tuple[Face, ...]
    beside: tuple[Beside, ...]
    fills: tuple[Fill, ...] = ()
    passing: Held = ()
    metal: tuple[Metal, ...] = ()


def cut_view(
    parts: Sequence[Part],
    blanks: Blanks,
    plane: Plane,
    solids: Solids,
    things: Sequence[Loose] = (),
    joined: Sequence[Loose] = (),
    fasteners: Sequence[Fastener] = (),
    fittings: Sequence[Fitting] = (),
    made: Collection[tuple[str, str]] | None = None,
) -> CutView | None:
    """Return the section through `parts` among all `blanks`; None when one of the parts is not met there.

    `things` are all that sit in the joints of the piece, those of this joint are `joined`; `fasteners` are all that hold it,
    and `fittings` its hardware. Those in the plane are shown, as far as they belong to these parts; so are other parts,
    where they lie against them. The plane keeps off other cuts in its parts than those `made` by the joint (part, name).
    """
    boxes = blanks.boxes(plane.view)
    joined_boxes = [boxes[blanks.parts.index(p)] for p in parts]
    window = about(joined_boxes, plane)
    off = () if made is None else _beside_joint(parts, made)
    plane = _elsewhere(blanks, parts, plane, window, off, solids)
    held = {part.path for part in parts}
    passing = tuple(at for f in fasteners if held & set(f.parts) for at in in_sight(f, plane, window))
    rings = [_rings(part, plane, solids) for part in parts]
    window = with_things(with_tips(off_hollows(window, rings, plane), passing, plane), plane, (*joined, *fittings))
    window = with_hollows(with_parts(with_bores(with_ends(window, plane), plane), rings), rings)
    wide = roomy(joined_boxes, plane, window)
    faces: list[Face] = []
    for part, own_rings in zip(parts, rings, strict=True):
        shown = windowed(own_rings, window)
        if not shown:
            return None
        faces.append(_face(part, shown, plane, blanks, faces))
    others: list[Beside] = []
    for part in blanks.crossing(plane, window):
        shown = _pieces(part, plane, window, solids) if part not in parts else ()
        if shown and share_within(_pieces(part, plane, wide, solids), (plane.low, plane.high)) >= MOSTLY:
            faces.append(_face(part, shown, plane, blanks, faces))
        elif sunk(shown, rings):
            faces.append(replace(_face(part, shown, plane, blanks, faces), aside=True))
        else:
            others.append(Beside(part, shown))
    every = [w for face in faces for w in face.shown]
    beside = [other for other in others if distance(other.shown, every) < ADJOINS]
    own = {face.part.path for face in faces}
    sitting = [_fill(thing, plane, window, solids) for thing in things if own & set(thing.parts)]
    fills = [fill for fill in sitting if fill is not None and fill.thing in joined]
    beside += [Beside(None, fill.shown) for fill in sitting if fill is not None and fill.thing not in joined]
    beside = [replace(b, shown=tuple(w for w in b.shown if not _sliver(w))) for b in beside]
    beside = [b for b in beside if b.shown]
    spread = tuple(_spread(face, fills, window) for face in faces)
    metal = _metal([fitting for fitting in fittings if own & set(fitting.parts)], plane, window)
    return CutView(plane, window, spread, tuple(beside), tuple(fills), passing, metal)


def _sliver(piece: Windowed) -> bool:
    """Tell whether a window shows so little of another part that its lines are stubs."""
    xs, ys = zip(*piece.rings[0], strict=True)
    return bool(piece.broken) and min(max(xs) - min(xs), max(ys) - min(ys)) < SLIVER


def _spread(face: Face, fills: Sequence[Fill], window: Box2) -> Face:
    """Return a face without the wood that wedges push aside."""
    driven = [fill for fill in fills if fill.thing.driven and fill.thing.parts[0] == face.part.path]
    taken = [w for fill in driven for w in fill.shown]
    return replace(face, shown=without(face.shown, taken, window)) if taken else face


def _metal(fittings: Sequence[Fitting], plane: Plane, window: Box2) -> tuple[Metal, ...]:
    """Return what a plane cuts of hardware; a piece gives way to those before it, as a leaf to its barrel."""
    out: list[Metal] = []
    for thing in fittings:
        if not passed(thing, plane, window):
            cut = section(loose.solid(thing.shape).moved(thing.frame), plane.point, plane.normal, plane.right)
            shown = windowed(cut, window)
            taken = [w for other in out for w in other.shown]
            out.append(Metal(thing, without(shown, taken, window) if taken else shown))
    return tuple(metal for metal in out if metal.shown)


def _fill(thing: Loose, plane: Plane, window: Box2, solids: Solids) -> Fill | None:
    """Return what a plane cuts of a thing; None where it passes it by."""
    if passed(thing, plane, window):
        return None
    cut = section(loose.pared(solids.piece, thing), plane.point, plane.normal, plane.right)
    shown = windowed(cut, window)
    return Fill(thing, shown, *_shading(loose.grain(thing), plane, 135.0)) if shown else None


def _pieces(part: Part, plane: Plane, window: Box2, solids: Solids) -> tuple[Windowed, ...]:
    return windowed(_rings(part, plane, solids), window)


def _rings(part: Part, plane: Plane, solids: Solids) -> tuple[Ring, ...]:
    return section(solids.solid(part.path).moved(part.frame), plane.point, plane.normal, plane.right)


@dataclass(frozen=True, slots=True, eq=False)
class Blanks:
    """The corners of all parts' blanks (parts, 8, 3) in the piece's axes, worked out once."""

    parts: tuple[Part, ...]
    corners: Floats
    slopes: Mapping[str, float] = field(default_factory=dict)  # of the hatching of each part, the same in every section

    @staticmethod
    def of(parts: Sequence[Part], slopes: Mapping[str, float] | None = None) -> Blanks:
        """Return the blanks of parts."""
        made = []
        for part in parts:
            spans = [part.span(i) for i in range(3)]
            low, high = ([float(s[side]) for s in spans] for side in (0, 1))
            made.append(box_corners((low[0], low[1], low[2]), (high[0], high[1], high[2]), part.frame))
        return Blanks(tuple(parts), np.array(made), slopes or {})

    def boxes(self, view: View) -> list[Box2]:
        """Return what each blank fills in a view."""
        flat = self.corners @ np.array([view.right, view.up]).T
        low, high = flat.min(axis=1).tolist(), flat.max(axis=1).tolist()
        return [((a[0], a[1]), (b[0], b[1])) for a, b in zip(low, high, strict=True)]

    def crossing(self, plane: Plane, window: Box2) -> list[Part]:
        """Return the parts whose blanks reach through the plane and into the window."""
        along = (self.corners - np.array(plane.point)) @ np.array(plane.normal)
        through = (along.min(axis=1) < -1e-3) & (along.max(axis=1) > 1e-3)
        flat = self.corners @ np.array([plane.view.right, plane.view.up]).T
        inside = (flat.max(axis=1) > np.array(window[0])) & (flat.min(axis=1) < np.array(window[1]))
        return [part for part, met in zip(self.parts, (through & inside.all(axis=1)).tolist(), strict=True) if met]

    def passing_by(self, joined: Sequence[Part], plane: Plane, window: Box2, cuts: Sequence[Floats] = ()) -> Plane:
        """Return the plane where it cuts no part but those joined, as near as may be to where it is; there if all is cut.

        With `cuts` (their corners) it keeps off these, and off such parts as do not go all along.
        One in which bores or fasteners lie stays with them.
        """
        low, high = plane.free
        if plane.bores or plane.fasteners or high - low < 4 * CLEAR:
            return plane
        parts = [c for c, part in zip(self.corners, self.parts, strict=True) if part not in joined]
        spans = [(a - CLEAR, b + CLEAR) for a, b in _along(plane, window, [*parts, *cuts])]
        return _off(plane, [(a, b) for a, b in spans if not cuts or a > low or b < high]) or plane


def _elsewhere(
    blanks: Blanks, parts: Sequence[Part], plane: Plane, window: Box2, cuts: Sequence[Floats], solids: Solids
) -> Plane:
    """Return the plane where the parts are in fewer pieces, off other `cuts` in them, else where it passes other parts by."""

    def pieces(at: Plane) -> list[int]:
        return [len(_pieces(part, at, window, solids)) for part in parts]

    whole = blanks.passing_by(parts, plane, window, cuts) if cuts else plane
    if whole is not plane and all(there := pieces(whole)) and sum(there) < sum(pieces(plane)):
        return whole
    better = blanks.passing_by(parts, plane, window)
    return better if better is not plane and all(pieces(better)) else plane


def _along(plane: Plane, window: Box2, boxes: Sequence[Floats]) -> list[tuple[float, float]]:
    """Return between where along the plane's normal the boxes (corners) lie that reach into the window."""
    if not len(boxes):
        return []
    every = np.array(boxes)
    flat = every @ np.array([plane.view.right, plane.view.up]).T
    inside = ((flat.max(axis=1) > np.array(window[0])) & (flat.min(axis=1) < np.array(window[1]))).all(axis=1)
    along = every @ np.array(plane.normal)
    return [
        (a, b)
        for met, a, b in zip(inside.tolist(), along.min(axis=1).tolist(), along.max(axis=1).tolist(), strict=True)
        if met
    ]


def _off(plane: Plane, spans: Sequence[tuple[float, float]]) -> Plane | None:
    """Return the plane off all spans along its normal, as near as may be to where it is; None where there is no room."""
    low, high = plane.free
    middle = (low + high) / 2
    if not any(a < middle < b for a, b in spans):
        return plane
    room = [
        (a, b) for a, b in empty([(low, low), *sorted(spans), (high, high)]) if b - a > CLEAR and low <= a and b <= high
    ]
    return plane.at(min(((a + b) / 2 for a, b in room), key=lambda p: (abs(p - middle), p))) if room else None


def _beside_joint(parts: Sequence[Part], made: Collection[tuple[str, str]]) -> list[Floats]:
    """Return the corners of what is cut in parts by all but their joint; a hole has its screw, and that is shown in it."""
    every = (
        corners(cut.shape, part.frame)
        for part in parts
        for f in part.features
        if (part.path, f.name) not in made and not f.made.holes
        for cut in f.made.cuts
    )
    return [points for points in every if len(points)]


def slopes(kinds: Sequence[Kind], joints: Sequence[Joint]) -> dict[str, float]:
    """Return the slope of the hatching of each part: one for each kind of part, another where kinds are joined (ISO 128-50)."""
    of = {path: k for k, kind in enumerate(kinds) for path in (*kind.parts, *kind.mirrored)}
    near: list[set[int]] = [set() for _ in kinds]
    for joint in joints:
        own = {of[path] for path in joint.parts}
        for k in own:
            near[k] |= own - {k}
    found: list[float] = []
    for k in range(len(kinds)):
        taken = {found[other] for other in near[k] if other < k}
        found.append(next((s for s in SLOPES if s not in taken), SLOPES[0]))
    return {path: found[k] for path, k in of.items()}


def _face(part: Part, shown: tuple[Windowed, ...], plane: Plane, blanks: Blanks, beside: Sequence[Face]) -> Face:
    """Return a cut face with the slope of its part, or the next one where a face of the section has the same."""
    taken = {face.degrees for face in beside if face.cut is not Cut.LONG}
    own = blanks.slopes.get(part.path, SLOPES[0])
    slope = next((s for s in (own, *SLOPES) if s not in taken), own)
    return Face(part, shown, *_hatching(part, plane, slope))


def _hatching(part: Part, plane: Plane, slope: float) -> tuple[Cut, float]:
    """Return what the cut shows of the part's wood, and the direction of the lines."""
    view = plane.view
    if part.material.sheet:
        face = part.frame.direction((0.0, 0.0, 1.0))
        flat = view.flat(face)
        if math.hypot(*flat) < 0.4:
            return Cut.LAYER, slope
        return Cut.SHEET, math.degrees(math.atan2(flat[1], flat[0]))
    if not part.material.solid_wood:
        return Cut.END, slope
    return _shading(part.frame.direction((1.0, 0.0, 0.0)), plane, slope)


def _shading(grain: Vec, plane: Plane, slope: float) -> tuple[Cut, float]:
    """Return end grain with lines at a slope where the plane cuts across the fibres, else lines along them."""
    if abs(sum(grain[i] * plane.normal[i] for i in range(3))) > math.sqrt(0.5):
        return Cut.END, slope
    flat = plane.view.flat(grain)
    return Cut.LONG, math.degrees(math.atan2(flat[1], flat[0]))
