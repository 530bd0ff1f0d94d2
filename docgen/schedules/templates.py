"""The true-size templates of a piece, as its operations ask for them: equal ones once, each hand told.

Also the angle gauges: each different angle that a machine or a bevel is set to, once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.geometry.outlines import bounds, contains, mirrored
from docgen.geometry.shapes import Extrusion, HalfSpace, Outline, Shape, Vec2
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Authority, Face, Feature, SizeKind, Template

SAME = 1e-6  # mm
SAME_ANGLE = 0.005  # degrees: finer than any gauge is set
GRADES = 6  # decimals that keys are rounded to


@dataclass(frozen=True, slots=True)
class TemplateRow:
    """One template, as it is seen on the face from outside.

    x runs along the part's length (on an end: along its width) from the datum end, y away from the datum edge;
    y runs downward from it where the face is seen from the part's low side: then `seen` has negative y.
    """

    title: str
    seen: Template
    face: str  # word of the face that it is laid on
    end: str  # "bottom end": where x is 0
    far: str  # "top end": the other one
    edge: str  # "front edge": where y is 0
    far_edge: str  # "back edge": the other one
    parts: tuple[str, ...]  # that it serves
    numbers: tuple[int, ...]  # their balloon numbers
    uses: int  # how often it is laid on
    hand: str = ""  # what is said of the other hand
    size: tuple[float, float] = (0.0, 0.0)  # of the face along x and y, nominal
    lengthwise: bool = True  # x runs with the part's length

    def side_word(self, a: Vec2, b: Vec2) -> str:
        """Return what a datum line is called: the end or edge of the part that it lies at or nearest to."""
        if self.seen.shared:
            return "edge of the wood"
        if abs(b[1] - a[1]) < abs(b[0] - a[0]):
            return self.edge if abs(a[1] + b[1]) / 2 <= self.size[1] / 2 else self.far_edge
        return self.end if (a[0] + b[0]) / 2 <= self.size[0] / 2 else self.far


@dataclass(frozen=True, slots=True)
class Gauge:
    """An angle to set a bevel or a sled by; `angle` is at most 45 degrees, its complement is the rest of 90."""

    angle: float
    uses: tuple[str, ...]  # "leg: foot, level"


def in_plane(face: Face) -> tuple[int, int]:
    """Return the two axes of a face in rising order."""
    u, v = (axis for axis in range(3) if axis != face.axis)
    return u, v


def seen_mirrored(face: Face) -> bool:
    """Return whether the face's axes, seen from outside, are left-handed: then one of them must be turned."""
    return face.side == (1 if face.axis == 1 else 0)


def templates(piece: Piece, kinds: Sequence[Kind]) -> tuple[TemplateRow, ...]:
    """Return the piece's templates in the order of its parts; those that are printed alike appear once."""
    rows: dict[tuple[object, ...], TemplateRow] = {}
    for kind in kinds:
        hands = [kind.parts, kind.mirrored] if kind.mirrored else [kind.parts]
        for paths in hands:
            part = piece.part(paths[0])
            others = [p for p in (*kind.parts, *kind.mirrored) if p not in paths]
            for template, times in _merged(part):
                row = _row(piece, part, paths, template, times, others[:1])
                key = ("shared", template.shared) if template.shared else _key(row)
                rows[key] = _together(rows[key], row) if key in rows else row
    return tuple(sorted(rows.values(), key=lambda r: r.numbers[0]))


def _merged(part: Part) -> Iterator[tuple[Template, int]]:
    """Yield the part's templates; hole patterns on the plain face are drawn into the shaped template of that face."""
    all_of = [_bored(part, feature, t) for feature in part.features for t in feature.made.templates]
    by_face: dict[Face, list[Template]] = {}
    shared: dict[str, list[Template]] = {}
    for t in all_of:
        if t.shared:
            shared.setdefault(t.shared, []).append(t)
        else:
            by_face.setdefault(t.face, []).append(t)
    for alike in shared.values():
        yield alike[0], len(alike)
    for face, group in by_face.items():
        plain = [t for t in group if _is_box(t.outline, part, face)]
        shaped = [t for t in group if t not in plain]
        carrier, rest = (shaped[0], plain) if shaped else (plain[0], plain[1:])
        yield _with(carrier, rest), 1
        for other in shaped[1:]:
            yield other, 1


def _bored(part: Part, feature: Feature, template: Template) -> Template:
    """Return the template with the part's holes that lie within it.

    Holes that are marked or drilled through the mate are left out: one authority for a hole.
    A template of a cut that goes square through the part is laid on the face from which the holes are drilled.
    """
    if template.shared:
        return template
    opposite = Face(template.face.axis, 1 - template.face.side)
    here, there = (_holes_in(part, face, template.outline) for face in (template.face, opposite))
    if there and not here and _through(part, feature, template.face.axis):
        return replace(template, face=opposite, holes=tuple(dict.fromkeys((*template.holes, *there))))
    return replace(template, holes=tuple(dict.fromkeys((*template.holes, *here)))) if here else template


def _holes_in(part: Part, face: Face, outline: Outline) -> tuple[tuple[float, float, float], ...]:
    u, v = in_plane(face)
    every = (hole for feature in part.features for hole in feature.made.holes if hole.face == face)
    rows = (hole for hole in every if hole.authority is not Authority.MATE)
    return tuple(
        (float(p[u]), float(p[v]), float(hole.diameter))
        for hole in rows
        for p in hole.points
        if contains(outline, (float(p[u]), float(p[v])), float(hole.diameter))
    )


def _through(part: Part, feature: Feature, axis: int) -> bool:
    """Return whether all that the feature cuts is cut square through the part along `axis`."""
    far = float(part.size[axis])

    def square(shape: Shape) -> bool:
        if isinstance(shape, HalfSpace):
            return abs(shape.normal[axis]) < SAME
        if not isinstance(shape, Extrusion):
            return False
        along = shape.frame.rotation[axis][2]
        ends = sorted(shape.frame.origin[axis] + along * level for level in (shape.low, shape.high))
        return abs(abs(along) - 1) < SAME and ends[0] <= SAME and ends[1] >= far - SAME

    return bool(feature.made.cuts) and all(square(cut.shape) for cut in feature.made.cuts)


def _is_box(outline: Outline, part: Part, face: Face) -> bool:
    u, v = in_plane(face)
    (x0, y0), (x1, y1) = bounds(outline)
    corners = {(x0, y0), (x1, y0), (x1, y1), (x0, y1)}
    sides = abs(x1 - x0 - float(part.size[u])) < SAME and abs(y1 - y0 - float(part.size[v])) < SAME
    return sides and {e.end for e in outline.edges} == corners and all(e.centre is None for e in outline.edges)


def _with(carrier: Template, others: Sequence[Template]) -> Template:
    """Return `carrier` with the holes, lines, datum edges and notes of `others` drawn in."""
    if not others:
        return carrier
    everything = (carrier, *others)
    return replace(
        carrier,
        holes=tuple(dict.fromkeys(h for t in everything for h in t.holes)),
        lines=tuple(dict.fromkeys(line for t in everything for line in t.lines)),
        datum=carrier.datum or tuple(dict.fromkeys(d for t in others for d in t.datum)),
        grain=carrier.grain if carrier.grain is not None else others[0].grain,
        notes=tuple(dict.fromkeys(n for t in everything for n in t.notes)),
    )


def _row(
    piece: Piece, part: Part, paths: Sequence[str], template: Template, times: int, other: Sequence[str]
) -> TemplateRow:
    u, v = in_plane(template.face)
    return TemplateRow(
        title=template.title,
        seen=as_seen(template),
        face=part.word(template.face),
        end=f"{part.word(Face(u, 0))} {'end' if u == 0 else 'edge'}",
        far=f"{part.word(Face(u, 1))} {'end' if u == 0 else 'edge'}",
        edge=f"{part.word(Face(v, 0))} edge",
        far_edge=f"{part.word(Face(v, 1))} edge",
        parts=tuple(paths),
        numbers=tuple(piece.part(p).number for p in paths),
        uses=times * len(paths),
        hand=f"Not for {other[0]}: that is the other hand, with a sheet of its own." if other else "",
        size=(float(part.size[u]), float(part.size[v])),
        lengthwise=u == 0,
    )


def _together(a: TemplateRow, b: TemplateRow) -> TemplateRow:
    new = [(p, n) for p, n in zip(b.parts, b.numbers, strict=True) if p not in a.parts]
    return replace(
        a,
        parts=(*a.parts, *(p for p, _ in new)),
        numbers=(*a.numbers, *(n for _, n in new)),
        uses=a.uses + b.uses,
        hand="The same for both hands." if a.hand or b.hand else a.hand,
    )


def as_seen(template: Template) -> Template:
    """Return the template as it looks on the wood from outside, its datum end at the left."""
    if not seen_mirrored(template.face):
        return template

    def flip(p: Vec2) -> Vec2:
        return (p[0], -p[1])

    return replace(
        template,
        outline=mirrored(template.outline, 1),
        waste=tuple(mirrored(w, 1) for w in template.waste),
        holes=tuple((x, -y, d) for x, y, d in template.holes),
        lines=tuple((flip(a), flip(b), label) for a, b, label in template.lines),
        datum=tuple((flip(a), flip(b)) for a, b in template.datum),
        grain=None if template.grain is None else -template.grain,
    )


def _key(row: TemplateRow) -> tuple[object, ...]:
    """Return what makes two templates the same sheet: what they are for, where they lie and how they look."""

    def at(p: Vec2) -> Vec2:
        return (round(p[0], GRADES) + 0.0, round(p[1], GRADES) + 0.0)

    edges = tuple(sorted((at(e.end), at(e.centre) if e.centre else ()) for e in row.seen.outline.edges))
    holes = tuple(sorted((at((x, y)), round(d, GRADES)) for x, y, d in row.seen.holes))
    return (_untold(row.title), row.lengthwise, edges, holes)


def _untold(title: str) -> str:
    """Return the title up to its first comma or to "against": what follows names the neighbour."""
    return title.split(" against ")[0].split(",")[0]


def gauges(piece: Piece, kinds: Sequence[Kind]) -> tuple[Gauge, ...]:
    """Return each different angle of the piece's sizes and settings once, smallest first.

    Right angles and 45 degrees are left out: a combination square has both.
    """
    found: list[tuple[float, list[str]]] = []
    for kind in kinds:
        part = piece.part(kind.first)
        if part.hardware:
            continue
        for feature in part.features:
            for degrees in _angles(feature):
                angle = degrees % 90.0
                angle = min(angle, 90.0 - angle)
                if angle < SAME_ANGLE or angle > 45.0 - SAME_ANGLE:
                    continue
                use = f"{part.path}: {feature.title or feature.name}"
                same = next((uses for known, uses in found if abs(known - angle) < SAME_ANGLE), None)
                if same is None:
                    found.append((angle, [use]))
                elif use not in same:
                    same.append(use)
    return tuple(Gauge(angle, tuple(uses)) for angle, uses in sorted(found, key=lambda g: g[0]))


def _angles(feature: Feature) -> Iterator[float]:
    for size in feature.made.sizes:
        if size.kind is SizeKind.ANGLE:
            yield float(size.value)
    for setting in feature.made.settings:
        for _, value, kind in setting.values:
            if kind == "angle" and not isinstance(value, str):
                yield float(value)
