"""Panel in rabbets: a back lies in a rabbet of each part that its edges reach into."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.joints.panels import Bed, NoTrench, rabbet
from docgen.piece.model import Joint
from docgen.piece.records import Origin
from docgen.project.fields import Field, Flag, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def cut_rabbets(
    bench: Bench,
    values: Bound,
    panel: str,
    into: tuple[str, ...],
    gap: Number,
    stopped: bool,
    bed: Bed | None = None,
    field: str = "into",
) -> list[tuple[str, str]]:
    """Cut the rabbet for the panel in each part; return the features made. A part that it misses is told."""
    made = []
    for path in into:
        try:
            cut = rabbet(bench.part(panel), bench.part(path), gap, stopped=stopped, bed=bed)
        except NoTrench as fault:
            bench.fault(
                values, field, "panel-misses", str(fault), "a panel whose edge lies in the part's box at an arris"
            )
            continue
        made.append((path, bench.add(path, cut, title=f"rabbet for {panel}").name))
    return made


def build(bench: Bench, values: Bound) -> None:
    """Cut the rabbets where the panel stands."""
    panel = values["panel"]
    made = cut_rabbets(bench, values, panel, values["into"], values["gap"], values["stopped"])
    if made:
        bench.joint(
            Joint(
                word="panel in rabbet",
                title=f"{panel} in rabbets",
                parts=(panel, *values["into"]),
                features=tuple(made),
                figures=(("gap", values["gap"], "length"), ("depth", bench.part(panel).size[2], "length")),
                origin=Origin(values.span, values.because),
            )
        )


WORD = Word(
    name="panel in rabbet",
    room="joint",
    help="a panel lies in rabbets of the parts whose boxes it reaches into, flush or below their arrises",
    fields=(
        Field("panel", PartName(), "the panel; where it stands decides where the rabbets are cut", required=True),
        Field("into", Many(PartName()), "the parts that are cut", required=True),
        Field("gap", Length(least=0), "left free on each side of the panel", default="0"),
        Field("stopped", Flag(), "the rabbets end with the panel instead of running through", default="no"),
    ),
    example="panel in rabbet: {panel: back, into: [left side, right side], gap: 1/32}",
    build=build,
)
