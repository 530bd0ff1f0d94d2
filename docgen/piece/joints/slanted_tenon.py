"""Mortise and tenon of an end that leans to its post: slanted shoulders, the tenon and its mortise square to them."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, on_face, outward
from docgen.piece.joints.slanted_end import lean, slanted
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.cut_frame import across
from docgen.piece.operations.ground import settled
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.slanted_tenon import SlantedTenon
from docgen.piece.records import Origin
from docgen.project.statements import Bound
from docgen.units import Number

NOT_THERE = ("haunch", "wedges", "flush")
"""What only a tenon on square shoulders may have."""


def build(bench: Bench, values: Bound, rail: Part, post: Part, deeper: Number) -> None:
    """Cut the mortise square into the post's face, and leave the tenon square to the shoulders that lie on it."""
    extra = next((word for word in NOT_THERE if values[word]), None)
    if extra is not None:
        message = f"{rail.path} leans to {post.path}: its tenon has no {extra}"
        bench.fault(values, extra, "tenon-skew", message, "a tenon without it, or parts square to each other")
        return
    found = slanted(bench, values, rail, post, "end")
    if found is None:
        return
    cut, frame, on = found
    wide = post.size[on.axis]
    long = wide if values["through"] else values["length"]
    edges, (near, far) = across(cut, rail, frame)
    first, last = sorted(edges.items(), key=lambda item: sum(item[1]))
    shoulders = {rail.face(word).side: float(v) for word, v in (values["shoulder"] or {}).items()}
    low = first[1][1] + shoulders.get(first[0], 0.0)
    high = last[1][0] - shoulders.get(last[0], 0.0)
    thick = far - near if values["thickness"] is None else float(values["thickness"])
    if thick > far - near + NEAR:
        message = f"a tenon {figure(settled(thick))} thick does not come out of {figure(settled(far - near))}"
        fault(values, "thickness", "tenon-too-thick", message, "a tenon thinner than the rail", on=bench)
        return
    middle = (near + far) / 2
    places = [settled(v) for v in (low, high, middle - thick / 2, middle + thick / 2)]
    tenon = SlantedTenon(
        cut,
        frame.direction((1.0, 0.0, 0.0)),
        places[0],
        places[1],
        places[2],
        places[3],
        long,
        rounded=values["rounded"],
    )
    centre = rail.frame.point(frame.point(((low + high) / 2, middle, 0.0)))
    size = (settled(high - low), settled(thick))
    depth = None if values["through"] else long + deeper
    hole = Mortise(
        on, on_face(post, on, centre), 0 if on.axis else 1, max(size), min(size), depth, squared=not values["rounded"]
    )
    if size[0] < size[1]:
        message = f"a tenon {figure(size[0])} wide and {figure(size[1])} thick stands across its mortise"
        fault(values, "shoulder", "tenon-too-narrow", message, "narrower shoulders", on=bench)
        return
    b = bench.add(rail.path, tenon, title=f"tenon into {post.path}")
    a = bench.add(post.path, hole, title=f"mortise for {rail.path}")
    figures: list[tuple[str, Number, str]] = [
        ("angle between length and face", settled(lean(rail, post, on)), "angle"),
        ("tenon thickness", size[1], "length"),
        ("tenon width", size[0], "length"),
        ("tenon length", long, "length"),
    ]
    figures += [("mortise depth", depth, "length")] if depth is not None else []
    bench.joint(
        Joint(
            "mortise and tenon",
            f"{rail.path} tenoned into {post.path}",
            (rail.path, post.path),
            ((post.path, a.name), (rail.path, b.name)),
            tuple(figures),
            Origin(values.span, values.because),
            closes=tuple(-c for c in post.frame.direction(outward(on))),  # type: ignore[arg-type]
            holds=True,
        )
    )
