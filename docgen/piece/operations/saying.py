"""From what the file says to part axes: parts, faces, arrises, places. Used by the words of the operations.

A place in the file is a coordinate of the piece at rest (across, deep, up), as in a part's `box`; with `from:
[bottom, front]` it is a distance from those faces of the part, inward.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.records import Axis, Face, Stage
from docgen.project.fields import ByFace, Choice, FaceWord, Field, Flag, Length, Many, PartName, Reach, Words
from docgen.project.statements import Bound
from docgen.units import Number

DIRECTIONS = ("across", "deep", "up")

PART = Field("part", Many(PartName()), "the part, or the parts that get it alike", required=True)
FACE = Field("face", FaceWord(), "the face that is cut", required=True)
FROM = Field("from", Many(FaceWord()), "faces that places are measured from; without it they are places in the piece")
DEPTH = Field("depth", Length(above=0), "how deep, from the face", required=True)
STOP = Field("stop", ByFace(Length()), "how far before a face it stops; without it, it runs out")
ROUND = Field("round end", Flag(), "leave the cutter's radius beyond a stop", default="no")
ALONG = Field("along", Many(Words()), "arrises by their two faces: top front", required=True)
STAGE = Field("stage", Choice(("part", "glued", "fitted")), "when it is cut", default="part")
STRETCH = (
    FROM,
    Field("across", Reach(), "in place of stops: from–to, for an arris that runs across"),
    Field("deep", Reach(), "in place of stops: from–to, for an arris that runs front to back"),
    Field("up", Reach(), "in place of stops: from–to, for an arris that runs upward"),
)
LABEL = Field("label", Words(), "what the sheets call it")


def parts(bench: Bench, values: Bound) -> Iterator[Part]:
    """Yield the parts that the statement names."""
    for path in values["part"]:
        yield bench.part(path)


def stage(values: Bound) -> Stage:
    """Return the stage that the statement says."""
    return Stage(values["stage"] or "part")


def part_axis(part: Part, direction: int) -> Axis:
    """Return the part axis that lies along a direction of the piece (0 across, 1 deep, 2 up) at rest."""
    word = next(w for w, (axis, side) in FACE_WORDS.items() if (axis, side) == (direction, 0))
    return part.face(word).axis


def coordinate(part: Part, direction: int, value: Number, measured_from: Iterable[str] = ()) -> tuple[Axis, Number]:
    """Return (part axis, coordinate) of a place on a direction of the piece at rest.

    `measured_from` may hold a face word of that direction: the value is then a distance from that face.
    """
    low_word = next(w for w, place in FACE_WORDS.items() if place == (direction, 0))
    high_word = next(w for w, place in FACE_WORDS.items() if place == (direction, 1))
    low_face = part.face(low_word)
    size = part.size[low_face.axis]
    if low_word in measured_from:
        from_low = value
    elif high_word in measured_from:
        from_low = size - value
    else:
        from_low = value - part.box[direction][0]
    return low_face.axis, size - from_low if low_face.side else from_low


def place(part: Part, values: Mapping[str, Number], measured_from: Iterable[str] = ()) -> dict[Axis, Number]:
    """Return the part coordinates of ``{across: …, deep: …, up: …}``, by part axis."""
    return dict(coordinate(part, DIRECTIONS.index(word), v, measured_from) for word, v in values.items())


def on_face(
    part: Part, face: Face, values: Mapping[str, Number], measured_from: Iterable[str] = (), field: str = "at"
) -> tuple[Number, Number]:
    """Return the coordinates of a place on `face`, on its two axes in rising order; `Fault` when one is missing."""
    found = place(part, values, measured_from)
    u, v = (i for i in range(3) if i != face.axis)
    if u not in found or v not in found:
        lacking = [w for i, w in enumerate(DIRECTIONS) if part_axis(part, i) in (u, v) and w not in values]
        raise Fault("place-missing", f"the place on the face lacks {' and '.join(lacking)}", field, "both directions")
    return found[u], found[v]


def reach(
    part: Part, direction: str, values: tuple[Number, Number], measured_from: Iterable[str] = ()
) -> tuple[Axis, Number, Number]:
    """Return (part axis, low, high) of a from–to pair along a direction word."""
    d = DIRECTIONS.index(direction)
    axis, a = coordinate(part, d, values[0], measured_from)
    _, b = coordinate(part, d, values[1], measured_from)
    return axis, min(a, b), max(a, b)


def stops(part: Part, along: Axis, values: Mapping[str, Number] | None) -> tuple[Number | None, Number | None]:
    """Return where a run on `along` starts and stops, from ``{front: 3/4}``; None runs out."""
    start: Number | None = None
    stop: Number | None = None
    for word, distance in (values or {}).items():
        face = part.face(word)
        if face.axis != along:
            raise Fault("stop-face", f"{word} is not an end of the run", "stop", _ends(part, along))
        if face.side:
            stop = part.size[along] - distance
        else:
            start = distance
    return start, stop


def stretch(part: Part, along: Axis, values: Bound) -> tuple[Number | None, Number | None]:
    """Return where a run on `along` starts and stops: from ``stop``, or a from–to on the direction in which it runs."""
    said = [word for word in DIRECTIONS if values[word] is not None]
    if not said:
        return stops(part, along, values["stop"])
    if values["stop"]:
        raise Fault("run-words", "a run is said by its stops or by a from–to, not by both", "stop", "one of the two")
    for word in said:
        if part_axis(part, DIRECTIONS.index(word)) == along:
            _, low, high = reach(part, word, values[word], values["from"] or ())
            size = part.size[along]
            return (None if low <= 0 else low), (None if high >= size else high)
    raise Fault("run-words", f"{said[0]} does not run along this arris", said[0], _way(along, part))


def _way(along: Axis, part: Part) -> str:
    return next(word for i, word in enumerate(DIRECTIONS) if part_axis(part, i) == along)


def _ends(part: Part, along: Axis) -> str:
    return " or ".join(part.word(Face(along, side)) for side in (0, 1))


def arris(part: Part, text: str, field: str = "along") -> tuple[Face, Face]:
    """Return the two faces of an arris said as ``top front``; `Fault` for anything else."""
    words = text.split()
    known = all(w in FACE_WORDS for w in words)
    if len(words) != 2 or not known or part.face(words[0]).axis == part.face(words[1]).axis:
        raise Fault(
            "arris-words", f"“{text}” does not name an arris", field, "two neighbouring faces, as in: top front"
        )
    return part.face(words[0]), part.face(words[1])
