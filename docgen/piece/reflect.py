"""Records of one hand → records of the other: everything that an operation answers, mirrored in the part's own axes.

The mirror is square to one axis of the part and halves its nominal box, so that each face of the box stays a face.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from docgen.geometry.outlines import mirrored
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Outline, Revolution, Shape, Vec, Vec2
from docgen.piece.model import Part
from docgen.piece.operations.ground import in_plane
from docgen.piece.records import (
    BOTH,
    Allowance,
    Axis,
    Cut,
    Face,
    Feature,
    HoleRow,
    Leaning,
    Made,
    Mark,
    Point,
    Setting,
    Size,
    SizeKind,
    Template,
    Travel,
)
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Reflection:
    """The mirror through the middle of a nominal box, square to its `axis`; `size` is the box's extent there.

    `words` changes the texts: names of parts become those of their images.
    """

    axis: Axis
    size: Number
    words: Callable[[str], str]

    def point(self, p: Vec) -> Vec:
        """Return the image of a point."""
        out = list(p)
        out[self.axis] = float(self.size) - p[self.axis]
        return (out[0], out[1], out[2])

    def exact(self, p: Point) -> Point:
        """Return the image of a point whose figures may be exact."""
        out = list(p)
        out[self.axis] = self.size - p[self.axis]
        return (out[0], out[1], out[2])

    def way(self, d: Vec) -> Vec:
        """Return the image of a direction."""
        out = list(d)
        out[self.axis] = -d[self.axis] + 0.0
        return (out[0], out[1], out[2])

    def face(self, face: Face) -> Face:
        """Return the image of a face of the box."""
        return Face(face.axis, 1 - face.side) if face.axis == self.axis else face

    def shape(self, shape: Shape) -> Shape:
        """Return the image of a cutter. A frame stays right-handed: what it carries is mirrored instead."""
        if isinstance(shape, HalfSpace):
            return HalfSpace(self.point(shape.point), self.way(shape.normal))
        if isinstance(shape, Extrusion):
            holes = tuple(mirrored(hole, 0) for hole in shape.holes)
            return replace(shape, outline=mirrored(shape.outline, 0), frame=self._frame(shape.frame, 0), holes=holes)
        assert isinstance(shape, Revolution)
        # The profile is the same on both sides of y; a part of a turn runs the other way round.
        stops = tuple(-s for s in reversed(shape.stops))
        return replace(shape, frame=self._frame(shape.frame, 1), stops=stops)

    def cut(self, cut: Cut) -> Cut:
        """Return the image of a cut."""
        beside = None if cut.beside is None else self.shape(cut.beside)
        assert beside is None or isinstance(beside, HalfSpace)
        return replace(cut, shape=self.shape(cut.shape), beside=beside)

    def _frame(self, frame: Frame, turned: int) -> Frame:
        """Return the image of a frame with one of its own axes turned about, which keeps it right-handed."""
        signs = [-1.0 if i == turned else 1.0 for i in range(3)]
        mine = [-1.0 if i == self.axis else 1.0 for i in range(3)]
        rows = tuple(tuple(mine[i] * frame.rotation[i][j] * signs[j] + 0.0 for j in range(3)) for i in range(3))
        return Frame(rows, self.point(frame.origin))  # type: ignore[arg-type]

    def made(self, made: Made) -> Made:
        """Return the image of all that an operation answers."""
        return Made(
            cuts=tuple(self.cut(c) for c in made.cuts),
            sizes=tuple(self.sized(s) for s in made.sizes),
            marks=tuple(self.mark(m) for m in made.marks),
            holes=tuple(self.holes(h) for h in made.holes),
            settings=tuple(self.setting(s) for s in made.settings),
            cautions=made.cautions,
            templates=tuple(self.template(t) for t in made.templates),
            assumed=tuple(replace(a, text=self.words(a.text)) for a in made.assumed),
            allowances=tuple(Allowance(self.face(a.face), a.amount, self.words(a.reason)) for a in made.allowances),
            slots=tuple(replace(s, face=self.face(s.face), centre=self.exact(s.centre)) for s in made.slots),
            outlined=made.outlined,
            gone=tuple(self.face(f) for f in made.gone),
            spare=tuple(replace(s, face=self.face(s.face), note=self.words(s.note)) for s in made.spare),
        )

    def sized(self, size: Size) -> Size:
        """Return the image of a dimension; an angle opens the other way about its axis."""
        along = self.way(size.along)
        if size.kind is SizeKind.ANGLE:
            along = (-along[0] + 0.0, -along[1] + 0.0, -along[2] + 0.0)
        return replace(
            size,
            start=self.point(size.start),
            end=self.point(size.end),
            along=along,
            face=None if size.face is None else self.face(size.face),
            other=None if size.other is None else self.point(size.other),
            label=self.words(size.label),
            note=self.words(size.note),
        )

    def mark(self, mark: Mark) -> Mark:
        """Return the image of a line on a stick."""
        out = replace(mark, label=self.words(mark.label), face=self.face(mark.face))
        if self.axis != 0:
            return out
        return replace(out, position=self.size - mark.position, wood=BOTH if mark.wood == BOTH else -mark.wood)

    def holes(self, row: HoleRow) -> HoleRow:
        """Return the image of a row of holes; they keep their name, since the two hands are drilled alike."""
        return replace(
            row,
            face=self.face(row.face),
            points=tuple(self.exact(p) for p in row.points),
            direction=self.way(row.direction),
            mate=self.words(row.mate),
            note=self.words(row.note),
            leaning=self.leaning(row.leaning) if row.leaning is not None else None,
            off=self.face(row.off) if row.off is not None else None,
        )

    def leaning(self, lean: Leaning) -> Leaning:
        """Return the image of a lean: the same angles, toward the other hand's sides."""
        return replace(lean, toward=self.words(lean.toward), swung=self.words(lean.swung), text=self.words(lean.text))

    def setting(self, setting: Setting) -> Setting:
        """Return the image of a set-up: the machine is set alike, the run is the other hand's."""
        return replace(
            setting,
            note=self.words(setting.note),
            mate=self.words(setting.mate),
            travel=None if setting.travel is None else self.travel(setting.travel),
            clear=tuple(self.shape(s) for s in setting.clear),
        )

    def travel(self, run: Travel) -> Travel:
        """Return the image of a run."""
        out = replace(
            run,
            face=self.face(run.face),
            at=self.exact(run.at),
            edge=None if run.edge is None else self.face(run.edge),
            near=None if run.near is None else self.face(run.near),
            also=tuple((self.face(face), deep) for face, deep in run.also),
        )
        if run.along != self.axis:
            return out
        start, stop = (None if end is None else self.size - end for end in (run.stop, run.start))
        return replace(out, start=start, stop=stop)

    def template(self, template: Template) -> Template:
        """Return the image of a template, in the plane of the image of its face."""
        plane = in_plane(template.face)
        out = replace(
            template,
            title=self.words(template.title),
            face=self.face(template.face),
            notes=tuple(self.words(n) for n in template.notes),
        )
        if self.axis not in plane or template.loose:
            return out
        flat = _Flat(plane.index(self.axis), float(self.size))
        return replace(
            out,
            outline=flat.outline(template.outline),
            waste=tuple(flat.outline(o) for o in template.waste),
            openings=tuple(flat.outline(o) for o in template.openings),
            holes=tuple((*flat.point((x, y)), d) for x, y, d in template.holes),
            checks=tuple((*flat.point((x, y)), d) for x, y, d in template.checks),
            lines=tuple((flat.point(a), flat.point(b), self.words(label)) for a, b, label in template.lines),
            datum=tuple((flat.point(a), flat.point(b)) for a, b in template.datum),
            points=tuple((*flat.point((x, y)), name) for x, y, name in template.points),
            grain=None if template.grain is None else (-template.grain) % 180,
        )

    def view(self, part: Part, image: Part) -> Part:
        """Return `part` as the hand that its `image` is mirrored from: what was cut on the image, mirrored back.

        Its faces have the words of the image's faces, so that texts made from it are true of the image.
        """
        return replace(
            part,
            path=image.path,
            called=image.called,
            words=tuple((word, self.face(face)) for word, face in image.words),
            features=tuple(self.feature(f) for f in image.features),
        )

    def feature(self, feature: Feature) -> Feature:
        """Return the image of a feature."""
        return replace(feature, made=self.made(feature.made))


@dataclass(frozen=True, slots=True)
class _Flat:
    """The mirror in a plane, square to its first (0) or second (1) axis."""

    axis: int
    size: float

    def point(self, p: Vec2) -> Vec2:
        return (self.size - p[0], p[1]) if self.axis == 0 else (p[0], self.size - p[1])

    def outline(self, outline: Outline) -> Outline:
        return mirrored(outline, self.axis, self.size / 2)
