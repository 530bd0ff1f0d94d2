"""Grain around: boards that are cut in turn from one blank, so that the figure runs on round the corners."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import centre
from docgen.piece.model import FACE_WORDS, Part, Run
from docgen.piece.records import Origin
from docgen.project.fields import Field, Length, Many, PartName, Word, Words
from docgen.project.statements import Bound

ALL_ROUND = 4
"""Boards that close a case: the last corner of the blank is the one that does not match."""


def inner_word(part: Part, middle: tuple[float, float, float]) -> str:
    """Return the word of the broad face that looks to the middle of the case."""
    here = part.frame.point(centre(part))
    broad = [word for word, face in part.words if face.axis == 2]
    ways = {w: middle[FACE_WORDS[w][0]] - here[FACE_WORDS[w][0]] for w in broad}
    return max(broad, key=lambda w: ways[w] if FACE_WORDS[w][1] else -ways[w])


def build(bench: Bench, values: Bound) -> None:
    """Note the run."""
    parts = [bench.part(p) for p in values["parts"]]
    points = [p.frame.point(centre(p)) for p in parts]
    middle = tuple(sum(p[i] for p in points) / len(points) for i in range(3))
    bench.run(
        Run(
            name=values["name"],
            parts=tuple(p.path for p in parts),
            inner=tuple(inner_word(p, (middle[0], middle[1], middle[2])) for p in parts),
            closed=len(parts) >= ALL_ROUND,
            radius=values["radius"] or 0,
            origin=Origin(values.span, values.because),
        )
    )


WORD = Word(
    name="grain around",
    room="joint",
    help="boards are cut in turn from one blank, so that the grain runs on round their mitres",
    fields=(
        Field("parts", Many(PartName(), least=2), "the boards, in order along the blank", required=True),
        Field("name", Words(), "what the blank is called", required=True),
        Field("radius", Length(above=0), "outside radius that the corners get later; absent: left sharp"),
    ),
    example="grain around: {parts: [case.left, case.top, case.right], name: case, radius: 1 1/8}",
    build=build,
)
