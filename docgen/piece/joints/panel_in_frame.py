"""Panel in a frame: rabbets in four rails, and the chain of sizes from panel to outside."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import NEAR, seen
from docgen.piece.joints.panel_in_rabbet import cut_rabbets
from docgen.piece.joints.panels import Bed, NoTrench, rabbet
from docgen.piece.model import Joint, Pane, Part
from docgen.piece.naming import clear
from docgen.piece.records import Origin
from docgen.project.fields import FaceWord, Field, Flag, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number

Figures = tuple[tuple[str, Number, str], ...]


def chain(
    panel: tuple[Number, Number],
    *,
    clearance: Number,
    rabbet_on: Number,
    stock: tuple[Number | None, Number | None],
    word: str = "panel",
) -> Figures:
    """Return panel, opening, sight and outside sizes, in each of the panel's two directions; mm. `word` is what it is called.

    opening = panel + 2 × clearance a side; sight = opening − 2 × rabbet; outside = sight + the widths of the two rails,
    which `stock` has together; None where the frame goes on beyond them.
    """
    out: list[tuple[str, Number, str]] = []
    for name, size, width in zip(("long", "wide"), panel, stock, strict=True):
        opening = size + 2 * clearance
        sight = opening - 2 * rabbet_on
        steps = [(word, size), ("opening", opening), ("sight", sight)]
        if width is not None:
            steps.append(("outside", sight + width))
        out.extend((f"{step} {name}", value, "length") for step, value in steps)
    return tuple(out)


def called(panel: Part) -> str:
    """Return "pane" for a sheet of glass or the like, "panel" for all else that lies in a frame."""
    return "pane" if clear(panel.material.sheet) else "panel"


def stock(panel: Part, hosts: list[Part], axis: int) -> Number | None:
    """Return the widths of the two rails beside the panel on one of its axes together, None where others go further."""
    spans = [(at.low[axis], at.high[axis]) for host in hosts if (at := seen(host, panel)) is not None]
    middle = panel.size[axis] / 2
    low = [s for s in spans if s[1] < middle]
    high = [s for s in spans if s[0] > middle]
    if not low or not high:
        return None
    nearest, furthest = max(low, key=lambda s: s[1]), min(high, key=lambda s: s[0])
    if min(s[0] for s in spans) < nearest[0] - NEAR or max(s[1] for s in spans) > furthest[1] + NEAR:
        return None
    return nearest[1] - nearest[0] + furthest[1] - furthest[0]


def build(bench: Bench, values: Bound) -> None:
    """Cut the rabbets and note the panel with its chain of sizes."""
    panel, frame, gap = bench.part(values["panel"]), values["frame"], values["clearance"]
    if (values["depth"] is None) != (values["from"] is None):
        message = "a rabbet's depth counts from a face"
        bench.fault(values, "depth", "panel-depth", message, "depth: 1/2, from: back")
        return
    stopped, deep = values["stopped"], values["depth"]
    bed = None if deep is None else Bed(deep, values["from"], values["bed"] or 0)
    made = cut_rabbets(bench, values, panel.path, frame, gap, stopped, bed, "frame")
    if len(made) != len(frame):
        return
    hosts = [bench.part(path) for path in frame]
    rail = hosts[0]
    try:
        cut = rabbet(panel, rail, gap, stopped=stopped, bed=bed)
    except NoTrench:  # told by the cutting above
        return
    at = seen(panel, rail)
    thin = at.axis[2] if at else 2
    on = cut.on if cut.face.axis == thin else cut.into
    deep = cut.into if cut.face.axis == thin else cut.on
    layers = tuple((name, values[name], "length") for name in ("backer", "bed") if values[name])
    widths = (stock(panel, hosts, 0), stock(panel, hosts, 1))
    word = called(panel)
    figures = layers + chain((panel.size[0], panel.size[1]), clearance=gap, rabbet_on=on, stock=widths, word=word)
    origin = Origin(values.span, values.because)
    bench.pane(Pane(panel.path, tuple(frame), panel.path, gap, (on, deep), figures, origin, word))
    bench.joint(
        Joint("panel in frame", f"{panel.path} in its frame", (panel.path, *frame), tuple(made), figures, origin)
    )


WORD = Word(
    name="panel in frame",
    room="joint",
    help="a panel or pane lies in rabbets of the rails round it, with clearance on each side",
    fields=(
        Field("panel", PartName(), "the panel; where it stands decides where the rabbets are cut", required=True),
        Field("frame", Many(PartName(), least=2), "the rails round it", required=True),
        Field("clearance", Length(least=0), "left free on each side of the panel", required=True),
        Field(
            "backer",
            Length(above=0),
            "thickness of what lies in the rabbet behind a pane: a board, paper, a mirror's backing",
        ),
        Field(
            "depth",
            Length(above=0),
            "of the rabbet, where more lies in it than the panel; absent: the panel's thickness",
        ),
        Field("from", FaceWord(), "the face from which the panel is laid into a rabbet of that depth"),
        Field(
            "stopped", Flag(), "the rabbets end with the panel, where rails are tenoned between stiles", default="no"
        ),
        Field("bed", Length(above=0), "thickness of tape, putty or felt in which a pane is bedded"),
    ),
    example="panel in frame: {panel: board, frame: [left rail, top rail, right rail, bottom rail], clearance: 1/16}",
    build=build,
)
