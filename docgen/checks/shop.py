"""What the file's own shop cannot take as drawn: saw, gauge, machines and drill press."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.piece.model import Part
from docgen.piece.records import Feature, HoleRow, Setting
from docgen.units import Number, format_angle

TITLE = "what exceeds the machines of the shop as the file states it"
CODES = ("beyond-saw", "beyond-gauge", "beyond-machine", "beyond-drill-press")
LOOKS = looks.Looks(looks.cuts, looks.shop(), "nothing of the shop's machines")

RULE = "what a machine must take is at most what the file's shop says it can"
SOURCE = "the shop as the file states it; the ways round are common practice"

SAME = 1e-3

WIDE = (
    ("jointer", "flatten it with hand planes or on a planer sled, or joint narrower boards before they are glued"),
    ("planer", "plane it in two halves before the last glue line, or flatten it with a router on rails"),
    ("sander", "sand it by hand or with a belt sander"),
)
"""Machines that a solid board passes through by its width, with a way round."""

TILT = "blade, from upright"
GAUGE = "gauge, from square"

Shop = Mapping[str, object]
Says = Iterator[Finding]


def check(subject: Subject) -> Says:
    """Yield, as care, each cut, board and hole that the stated shop has not got room for."""
    shop: Shop = dict(subject.piece.shop)
    if not shop:
        return
    for part in subject.piece.parts:
        if part.hardware:
            continue
        yield from _board(subject, shop, part)
        for feature in part.features:
            for setting in feature.made.settings:
                if setting.machine == "table saw":
                    yield from _sawn(subject, shop, part, feature, setting)
            for hole in feature.made.holes:
                yield from _hole(subject, shop, part, feature, hole)


def _number(shop: Shop, name: str) -> float | None:
    value = shop.get(name)
    return None if value is None else float(value)  # type: ignore[arg-type]


def _finding(
    part: Part,
    code: str,
    message: str,
    advice: str,
    figures: tuple[tuple[str, float, str], ...] = (),
    feature: Feature | None = None,
) -> Finding:
    place = where(part.origin) if feature is None else where(feature.origin, part.origin)
    return Finding(Grade.CARE, code, (part.path,), message, RULE, SOURCE, place, figures, advice)


def _compared(need: float, have: float, unit: str = "mm") -> tuple[tuple[str, float, str], ...]:
    return (("needed", need, unit), ("in the shop", have, unit))


def _board(subject: Subject, shop: Shop, part: Part) -> Says:
    """Compare the finished blank, allowances included, with saw, fence, sled and the machines it passes through."""
    (l0, l1), (w0, w1), _ = (part.span(axis) for axis in range(3))
    long, wide, thick = float(l1 - l0), float(w1 - w0), float(part.size[2])
    told = [("fence reach", wide, "wide", "rip it with a hand-held saw along a straightedge, then trim")]
    told.append(
        ("sled", long, "long", "cross-cut it with a hand-held saw along a square, with a stop for equal lengths")
    )
    if part.material.solid_wood:
        told += [(machine, wide, "wide", way) for machine, way in WIDE]
    depth = _number(shop, "saw depth")
    if depth is not None and thick > depth + SAME:
        yield _finding(
            part,
            "beyond-saw",
            f"{part.path}: {subject.say(thick)} thick; the saw cuts {subject.say(depth)} deep.",
            "cut it in two passes, turned over about its long axis, or on the band saw and plane to the line",
            _compared(thick, depth),
        )
    for machine, need, how, way in told:
        have = _number(shop, machine)
        if have is not None and need > have + SAME:
            yield _finding(
                part,
                "beyond-machine",
                f"{part.path}: {subject.say(need)} {how}; the shop's {machine} takes {subject.say(have)}.",
                way,
                _compared(need, have),
            )


def saw_depth(shop: Shop, tilt: float) -> float | None:
    """Return how deep the saw cuts, mm, plumb to the table, with its blade `tilt` degrees from upright.

    Between the stated depths at 0° and 45° by proportion of the tilt; with the one at 0° alone it falls by the cosine.
    None when nothing is stated, or only the depth at 45° and the blade stands steeper.
    """
    square, leaning = _number(shop, "saw depth"), _number(shop, "saw depth at 45")
    if square is None:
        return leaning if tilt >= 45 - SAME else None
    if leaning is None:
        return square * math.cos(math.radians(tilt))
    return square + (leaning - square) * min(tilt, 45.0) / 45


def _sawn(subject: Subject, shop: Shop, part: Part, feature: Feature, setting: Setting) -> Says:
    values = {name: value for name, value, _ in setting.values}
    tilt, swung = (values.get(name) for name in (TILT, GAUGE))
    if tilt is not None and not isinstance(tilt, str):
        thick, depth = float(part.size[2]), saw_depth(shop, float(tilt))
        if depth is not None and thick > depth + SAME:
            yield _finding(
                part,
                "beyond-saw",
                f"{feature.title} in {part.path}: the blade stands {format_angle(tilt)} from upright and goes through "
                f"{subject.say(thick)}; so tilted the saw cuts about {subject.say(depth)} deep.",
                "saw it upright on a sled that holds the part at that angle, or leave it proud and plane it to the line",
                _compared(thick, depth),
                feature,
            )
    most = _number(shop, "gauge")
    if most is not None and swung is not None and not isinstance(swung, str) and float(swung) > most + SAME:
        yield _finding(
            part,
            "beyond-gauge",
            f"{feature.title} in {part.path} needs the gauge {format_angle(swung)} from square; it swings {format_angle(most)}.",
            f"a sled with a fence fixed at {format_angle(swung)} and the part clamped to it",
            _compared(float(swung), most, "deg"),
            feature,
        )


def _hole(subject: Subject, shop: Shop, part: Part, feature: Feature, hole: HoleRow) -> Says:
    """Compare how far the holes lie from the nearest edge with the press's throat, and their depth with its stroke."""
    plane = [i for i in range(3) if i != hole.face.axis]
    inward = max((min(_to_edge(part, p[i], i) for i in plane) for p in hole.points), default=0.0)
    reach, stroke = _number(shop, "drill reach"), _number(shop, "drill stroke")
    if reach is not None and inward > reach + SAME:
        yield _finding(
            part,
            "beyond-drill-press",
            f"{feature.title} in {part.path} lies {subject.say(inward)} from the nearest edge; the drill press reaches {subject.say(reach)}.",
            "a hand drill with a drilled block as its guide",
            _compared(inward, reach),
            feature,
        )
    deep = float(part.size[hole.face.axis] if hole.depth is None else hole.depth)
    if stroke is not None and deep > stroke + SAME:
        yield _finding(
            part,
            "beyond-drill-press",
            f"{feature.title} in {part.path} is {subject.say(deep)} deep; one stroke of the drill press is {subject.say(stroke)}.",
            "drill to the stroke, stop the press, raise the table with the drill in the hole, and go on",
            _compared(deep, stroke),
            feature,
        )


def _to_edge(part: Part, at: Number, axis: int) -> float:
    return min(float(at), float(part.size[axis]) - float(at))
