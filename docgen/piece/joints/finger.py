"""Finger joint (box joint): equal fingers on the ends of two boards, each between two of the other board."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.cornering import Corner, NoCorner, corner
from docgen.piece.joints.meeting import NEAR
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.comb import Comb
from docgen.piece.records import Face, Origin
from docgen.project.fields import Choice, Count, Field, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.trade.fingers import PLAY, Fingers, by_count, by_cutter
from docgen.units import Number


def build(bench: Bench, values: Bound) -> None:
    """Cut the fingers wherever two of the boards stand in a corner."""
    if (values["count"] is None) == (values["width"] is None):
        message = "fingers are laid out either by their count or by the width of the cutter"
        bench.fault(values, "count", "finger-layout", message, "count: 9, or width: 3/8")
        return
    if values["count"] is not None and values["count"] % 2 == 0:
        message = f"{values['count']} fingers leave one edge with a finger and the other without"
        bench.fault(values, "count", "finger-odd", message, "an odd count, so that both edges are alike")
        return
    for one in values["outer"]:
        for two in values["inner"]:
            _pair(bench, values, bench.part(one), bench.part(two))


def _pair(bench: Bench, values: Bound, one: Part, two: Part) -> None:
    """Join one board with fingers at both edges to one that has sockets there."""
    try:
        at = corner(one, two)
    except NoCorner as found:
        bench.fault(values, "inner", "no-corner", str(found), "boxes that both reach to the outer corner")
        return
    rests = (at.first.low, at.first.high, at.second.low, at.second.high, at.lap)
    if any(abs(float(r)) > NEAR for r in rests):
        message = f"{one.path} and {two.path} are not equally wide, or one stops inside the other"
        bench.fault(values, "outer", "finger-uneven", message, "boards of one width that reach the outer corner")
        return
    play = PLAY[bench.units.system] if values["play"] is None else values["play"]
    if values["count"] is not None:
        plan = by_count(at.width, values["count"], play)
    else:
        plan = by_cutter(at.width, values["width"], play)
    if plan.count < 3 or plan.finger <= 0:
        field = "width" if values["count"] is None else "count"
        message = f"a width of {figure(at.width)} holds no three fingers of {figure(plan.socket)}"
        fault(values, field, "finger-few", message, "narrower fingers", on=bench)
        return
    outer, inner = _combs(at, plan, values["cut with"])
    a = bench.add(one.path, outer, title=f"fingers into {two.path}")
    b = bench.add(two.path, inner, title=f"fingers into {one.path}")
    figures: tuple[tuple[str, Number, str], ...] = (
        ("fingers and sockets", plan.count, "count"),
        ("socket, width of the cutter", plan.socket, "length"),
        ("finger", plan.finger, "length"),
        ("play", plan.play, "length"),
        ("last finger", plan.last, "length"),
    )
    bench.joint(
        Joint(
            "finger",
            f"{one.path} in fingers with {two.path}",
            (one.path, two.path),
            ((one.path, a.name), (two.path, b.name)),
            figures,
            Origin(values.span, values.because),
            two.frame.direction((1.0, 0.0, 0.0)),
            holds=True,
        )
    )


def _combs(at: Corner, plan: Fingers, machine: str) -> tuple[Comb, Comb]:
    """Return the comb with fingers at both edges and the one with sockets there.

    The first cut of the second board is as wide as the cutter, and the first finger of the first board half the play
    thinner: then all stand clear by half the play. The last finger is at the high edge of the first board; where the
    second board's width runs the other way its comb is turned round.
    """
    pitch, wide, n = plan.pitch, plan.socket, plan.count
    key = "table saw" if machine == "dado set" else "router table"
    inside, outside = (n - 1) // 2, (n - 3) // 2
    outer = Comb(
        at.first.end, at.first.deep, pitch, wide, 2 * pitch if inside > 1 else 0, count=inside, cutter=key, index=2 * pitch,
        face=Face(2, 1 - at.first.inner.side),
    )  # fmt: skip
    ends = (wide, plan.last)
    start: Number = 2 * pitch
    if not at.alike:
        ends = ends[::-1]
        start = plan.last + plan.finger
    inner = Comb(
        at.second.end, at.second.deep, start if outside else 0, wide if outside else 0,
        2 * pitch if outside > 1 else 0, *ends, count=outside, cutter=key, index=2 * pitch, face=Face(2, 1 - at.second.inner.side),
    )  # fmt: skip
    return outer, inner


WORD = Word(
    name="finger",
    room="joint",
    help="a finger (box) joint: equal fingers on the ends of two boards of one width, cut by machine at one step",
    fields=(
        Field("outer", Many(PartName()), "the boards with a finger at both edges", required=True),
        Field("inner", Many(PartName()), "the boards with a socket at both edges", required=True),
        Field("count", Count(least=3), "fingers and sockets across the width, an odd number"),
        Field("width", Length(above=0), "or the width of the cutter; the last finger takes what is left"),
        Field("play", Length(least=0), "what a finger is thinner than its socket; absent: 0.004 in or 0.1 mm"),
        Field(
            "cut with", Choice(("straight bit", "dado set")), "in a router table or on a saw", default="straight bit"
        ),
    ),
    example="finger: {outer: [left side, right side], inner: [front, back], width: 3/8}",
    build=build,
)
