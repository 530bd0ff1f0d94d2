"""The sides of a part from which places are measured, on all pages alike: part sheets, chart, templates."""

from __future__ import annotations

from dataclasses import replace

from docgen.geometry.shapes import HalfSpace
from docgen.piece.model import Part
from docgen.piece.operations.ground import SAME, axis, positive, spot
from docgen.piece.operations.runs import cut_off
from docgen.piece.records import Face, Feature, Made, Size, SizeKind, Stage
from docgen.units import Number

ACROSS = 0.25
"""The tangent, from the length of a part, from which on a flat cut goes across its end and not along it as a taper does."""


def datum(part: Part, along: int) -> Face:
    """Return the side that positions along `along` start from: the low one, but in the thickness the show face.

    Across and through the part it is the other one where a taper or a bevel takes that side away.
    """
    if along != 0 and cut_off(part, Face(along, 0)) and not cut_off(part, Face(along, 1)):
        return Face(along, 1)
    if along == 2 and part.show is not None and part.show.axis == 2:
        return part.show
    return Face(along, 0)


def _side(part: Part, made: Made, along: int) -> Face:
    """Return the side that places of one operation start from: its own, where it has one, or the part's datum."""
    return made.off if made.off is not None and made.off.axis == along else datum(part, along)


def end_word(part: Part, face: Face, *, plain: bool = False) -> str:
    """Return what the end is called that places run from; where a cut leans across it, its long point is meant and said.

    With `plain` it goes by its place alone, whatever is cut there.
    """
    word = part.plain_side(face) if plain else part.side(face)
    if face.axis != 0 or word.endswith(("shoulder", "line")):
        return word
    return f"{word}, long point" if any(leans(f, face) for f in part.features if f.stage is Stage.PART) else word


def leans(feature: Feature, end: Face) -> bool:
    """Return True when a feature cuts flat across this end at an angle; a taper along the part does not."""
    for cut in feature.made.cuts:
        if isinstance(cut.shape, HalfSpace):
            along = cut.shape.normal[end.axis] * (1 if end.side else -1)
            across = max(abs(cut.shape.normal[i]) for i in range(3) if i != end.axis)
            if across > SAME and along > ACROSS * across:
                return True
    return False


def measured(part: Part, side: Face, value: Number) -> Number:
    """Return how far from a side a place lies whose coordinate in the part is `value`, mm."""
    return part.size[side.axis] - value if side.side else value


def as_placed(part: Part, size: Size, feature: Feature) -> Size:
    """Return a size of a feature, a place as it is measured from the datum of the part.

    What a cut takes, as a rabbet "into the thickness", is measured on the cut, whichever side it lies at.
    """
    return _from_datum(part, size, feature.made) if size.place or not size.label else size


def off_what_goes(part: Part, size: Size, feature: Feature) -> Size:
    """Return a size of a feature, a place from the other side where a taper takes the one that it is measured from.

    Sections of joints have their places from the low sides: like joints of two hands are then told alike.
    """
    gone = {face for f in part.features for face in f.made.gone}
    low = next((Face(i, 0) for i in (1, 2) if abs(size.along[i]) > 1 - SAME), None)
    return as_placed(part, size, feature) if low in gone else size


def _from_datum(part: Part, size: Size, made: Made) -> Size:
    """Return a place that is measured from the low side of a part as it is measured from its datum; other sizes as they are.

    Where another size that is `made` with it runs on from the place, from wall to wall, it is the far wall that lies next
    to the datum.
    """
    i = next((k for k in (1, 2) if abs(abs(size.along[k]) - 1) < SAME), None)
    if size.kind is not SizeKind.LENGTH or len(size.parameters) != 1 or i is None or not _side(part, made, i).side:
        return size
    low, place = sorted((size.start, size.end), key=lambda p: p[i])
    if abs(low[i]) > SAME or place[i] > float(part.size[i]) - SAME:
        return size
    near, value = place, size.value
    for other in made.sizes:
        first, last = sorted((other.start, other.end), key=lambda p: p[i])
        runs_on = other.kind is SizeKind.LENGTH and abs(abs(other.along[i]) - 1) < SAME
        if runs_on and abs(first[i] - place[i]) < SAME < last[i] - first[i]:
            near, value = last, size.value + other.value
    start = spot({k: part.size[i] if k == i else near[k] for k in range(3)})
    return replace(size, start=start, end=near, along=axis(i, -1.0), value=positive(part.size[i] - value))
