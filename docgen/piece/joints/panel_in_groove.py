"""Panel in grooves: a bottom or a floating panel held all along its edges."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import Fault
from docgen.piece.joints.panels import NoTrench, groove
from docgen.piece.model import Joint, Part
from docgen.piece.operations.dado import Dado
from docgen.piece.records import Origin
from docgen.project.fields import Field, Flag, Length, Many, PartName, Word
from docgen.project.statements import Bound


def build(bench: Bench, values: Bound) -> None:
    """Cut the grooves where the panel stands."""
    panel = bench.part(values["panel"])
    made = []
    for path in values["into"]:
        try:
            cut = groove(panel, bench.part(path), values["clearance"], stopped=values["stopped"])
        except NoTrench as fault:
            bench.fault(values, "into", "panel-misses", str(fault), "a panel whose edge lies in the part's box")
            continue
        name = _there(bench.part(path), cut) or bench.add(path, cut, title=f"groove for {panel.path}").name
        made.append((path, name))
    if made:
        bench.joint(
            Joint(
                word="panel in groove",
                title=f"{panel.path} in grooves",
                parts=(panel.path, *values["into"]),
                features=tuple(made),
                figures=(("clearance", values["clearance"], "length"), ("width", panel.size[2], "length")),
                origin=Origin(values.span, values.because),
            )
        )


def _there(part: Part, cut: Dado) -> str | None:
    """Return the name of the same groove, cut for another panel: one that runs right through serves all in a row."""
    try:
        wanted = cut.made(part).cuts
    except Fault:  # told where it is added
        return None
    return next((f.name for f in part.features if f.made.cuts == wanted), None)


WORD = Word(
    name="panel in groove",
    room="joint",
    help="a panel's edges are held in grooves of the parts whose boxes they reach into",
    fields=(
        Field("panel", PartName(), "the panel; where it stands decides where the grooves are cut", required=True),
        Field("into", Many(PartName()), "the parts that are cut", required=True),
        Field("clearance", Length(least=0), "how much deeper each groove is than the panel reaches", default="0"),
        Field("stopped", Flag(), "the grooves end with the panel instead of running through", default="no"),
    ),
    example="panel in groove: {panel: drawer bottom, into: [left, right, front], clearance: 1/32}",
    build=build,
)
