"""Half lap: two parts in one plane cross or meet at a corner, each notched to half its thickness."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, Seen, distance, seen
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.ground import settled
from docgen.piece.operations.notch import Notch, Open
from docgen.piece.records import Face, Origin
from docgen.project.fields import FaceWord, Field, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def opened(part: Part, axis: int, low: Number, high: Number) -> Open:
    """Return the from–to of a notch on an axis of the part, None where the other part reaches its end or edge."""
    return (None if low <= NEAR else low, None if high >= part.size[axis] - NEAR else high)


def half(part: Part, keeps: Face) -> Open:
    """Return the half of the thickness that goes, so that the half at the face `keeps` stays."""
    middle = part.size[2] / Fraction(2)
    return (None, middle) if keeps.side else (middle, None)


def lap(part: Part, other: Seen, keeps: Face) -> Notch:
    """Return the notch in the part for the other one, which is `other` in the part's axes."""
    return Notch(
        opened(part, 0, other.low[0], other.high[0]),
        opened(part, 1, other.low[1], other.high[1]),
        half(part, keeps),
        label="half lap",
    )


def build(bench: Bench, values: Bound) -> None:
    """Notch both parts, from where they cross."""
    over, under = bench.part(values["over"]), bench.part(values["under"])
    at, back = seen(over, under), seen(under, over)
    if at is None or back is None or not _crossed(at):
        message = f"{over.path} and {under.path} do not cross at a right angle with their broad faces alike"
        bench.fault(values, "under", "lap-not-crossed", message, "two parts in one plane, square to each other")
        return
    if not _meet(bench, values, (over, under), at):
        return
    face = over.face(values["face"])
    if face.axis != 2:
        faces = " or ".join(over.word(Face(2, side)) for side in (0, 1))
        bench.fault(values, "face", "lap-face", f"{over.path} is lapped from a broad face", faces)
        return
    shown = at.host_face(face)
    a = bench.add(over.path, lap(over, back, face), title=f"half lap over {under.path}")
    under_keeps = Face(2, 1 - shown.side)
    b = bench.add(under.path, lap(under, at, under_keeps), title=f"half lap under {over.path}")
    bench.joint(
        Joint(
            word="half lap",
            title=f"{over.path} lapped over {under.path}",
            parts=(over.path, under.path),
            features=((over.path, a.name), (under.path, b.name)),
            figures=(("depth of each notch", over.size[2] / Fraction(2), "length"),),
            origin=Origin(values.span, values.because),
            holds=True,
            closes=over.frame.direction((0.0, 0.0, 1.0)),
        )
    )


def _crossed(at: Seen) -> bool:
    """Tell whether the lengths are square to each other and the thicknesses lie alike."""
    return at.axis == (1, 0, 2)


def _meet(bench: Bench, values: Bound, parts: tuple[Part, Part], at: Seen) -> bool:
    """Tell whether the two lie in one plane and cross; else say what is wrong."""
    over, under = parts
    apart = distance(at, under)
    if apart > -NEAR:
        far = f"lies {figure(settled(apart))} beside" if apart > NEAR else "only touches"
        message = f"{over.path} {far} {under.path}: a half lap needs boxes that cross"
        fault(values, "over", "lap-apart", message, "boxes that reach through each other", on=bench)
        return False
    if abs(float(at.low[2])) > NEAR or abs(float(at.high[2] - under.size[2])) > NEAR:
        sizes = f"{figure(over.size[2])} and {figure(under.size[2])} thick"
        message = f"the broad faces of {over.path} and {under.path}, {sizes}, are not level"
        fault(values, "over", "lap-not-level", message, "equal thicknesses in one plane", on=bench)
        return False
    return True


WORD = Word(
    name="half lap",
    room="joint",
    help="two parts in one plane cross or meet at a corner, each notched to half its thickness",
    fields=(
        Field("over", PartName(), "the part that is seen whole on `face`", required=True),
        Field(
            "under", PartName(), "the part that it crosses; the boxes of both reach through the joint", required=True
        ),
        Field("face", FaceWord(), "the broad face on which the first part is seen whole", required=True),
    ),
    example="half lap: {over: rail, under: stile, face: front}",
    build=build,
)
