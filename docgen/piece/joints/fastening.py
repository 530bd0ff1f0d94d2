"""Where screws stand that go through one part into another: on the faces in which the two touch."""

from __future__ import annotations

from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import facing, holds, in_plane
from docgen.piece.model import Part
from docgen.piece.records import Face
from docgen.project.statements import Bound

AXES = ("across", "deep", "up")
"""The piece's axes by their words."""


def milled(*parts: Part) -> tuple[str, ...]:
    """Return after what a screw's length is settled, as the hardware list tells it, once a material."""
    return tuple(
        dict.fromkeys(f"{'milling' if p.material.solid_wood else 'thickness'} of {p.material.name}" for p in parts)
    )


def places(bench: Bench, values: Bound, held: Part, tapped: Part) -> tuple[tuple[Face, Face], tuple[Vec, ...]] | None:
    """Return the two faces that touch and the screws' places on them (piece axes); what does not fit is told.

    The statement has the places as `at`.
    """
    pairs = facing(held, tapped)
    if not pairs:
        bench.fault(
            values,
            "into",
            "parts-do-not-meet",
            f"no face of {held.path} lies on a face of {tapped.path}",
            "two faces that touch",
        )
        return None
    given = [{AXES.index(k): v for k, v in place.items()} for place in values["at"]]
    if any(len(g) != 2 for g in given):
        bench.fault(
            values, "at", "place-needs-two", "a screw's place needs two directions of the piece", "{deep: 9, up: 27}"
        )
        return None
    for inner, against in pairs:
        points = [in_plane(held, inner, g) for g in given]
        inside = [p for p in points if p is not None and holds(held, inner, p) and holds(tapped, against, p)]
        if len(inside) == len(points):
            return (inner, against), tuple(inside)
    bench.fault(
        values,
        "at",
        "screw-beside-part",
        f"a screw lies beside the faces in which {held.path} and {tapped.path} touch",
        "places on both parts",
    )
    return None
