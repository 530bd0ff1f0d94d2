"""A piece with all its lists written by hand, so that each list's sheet can be looked at on its own. Inches."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from docgen.checks.finding import Finding, Grade
from docgen.drawing.records import Sheet, Text
from docgen.geometry.shapes import Frame, Rows
from docgen.geometry.solids import Solid, blank
from docgen.geometry.topology import Topology, topology
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.model import Material, Part, Piece
from docgen.piece.records import Authority, Face, HoleRow, Purpose, Sink, Stage
from docgen.places import Span
from docgen.schedules.rows import (
    BlankPiece,
    BlankRow,
    CautionRow,
    ChainBox,
    ChainRows,
    ChartRow,
    CutRow,
    HardwareRow,
    HoldRow,
    JigRow,
    MoveRow,
    Schedules,
    SetupRow,
    SetupRun,
    StockRow,
    WorkRow,
)
from docgen.sheets.context import Context
from docgen.units import Units
from tests.support.audit import Fault, audit

F = Fraction
IN = F(254, 10)
UP: Rows = ((0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
FLAT: Rows = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
BOARDS = Material("case boards", F(13, 16) * IN, "black cherry", bought="4/4")


def part(number: int, path: str, size: tuple[F | int, F | int, F | int], rows: Rows, at: tuple[float, ...]) -> Part:
    across, deep, up = (v * 25.4 for v in at)
    return Part(
        path, number, BOARDS, (size[0] * IN, size[1] * IN, size[2] * IN), Frame(rows, (across, deep, up)), (), "up"
    )


PARTS = (
    part(1, "left side", (F(35, 2), 14, F(13, 16)), UP, (0, 0, 0)),
    part(2, "right side", (F(35, 2), 14, F(13, 16)), UP, (42 - 13 / 16, 0, 0)),
    part(3, "top", (42, F(29, 2), F(13, 16)), FLAT, (0, -0.25, 17.5)),
    part(4, "shelf", (F(323, 8), F(109, 8), F(13, 16)), FLAT, (13 / 16, 0.375, 6)),
)


@dataclass(eq=False)
class Blocks:
    """Stands for the solids: each part is its nominal box."""

    piece: Piece

    def solid(self, path: str, stage: Stage = Stage.FITTED) -> Solid:
        return blank((0, 0, 0), tuple(float(v) for v in self.piece.part(path).size))

    def topology(self, path: str, stage: Stage = Stage.FITTED) -> Topology:
        return topology(self.solid(path, stage))


def piece(**changes: Any) -> Piece:
    return replace(
        Piece(
            title="Porch bench",
            number="PB-3",
            revision="B",
            date="2026-03-02",
            author="Reserve workshop",
            units=Units("inch", F(1, 32)),
            projection="third angle",
            paper="",
            notes=("Milled at 9 % moisture.",),
            sizes=(),
            parts=PARTS,
        ),
        **changes,
    )


def hole(name: str, purpose: Purpose, **changes: Any) -> HoleRow:
    plain = HoleRow(name, purpose, Face(2, 1), (), (0.0, 0.0, -1.0), F(17, 64) * IN, "17/64")
    return replace(plain, **changes)


def chart_row(of: HoleRow, parts: tuple[str, ...], at: tuple[tuple[F, F], ...], **changes: Any) -> ChartRow:
    row = ChartRow(
        name=of.name,
        hole=of,
        parts=parts,
        mirrored=(),
        face="left",
        datum_end="bottom end",
        datum_edge="front edge",
        at=tuple((a * IN, b * IN) for a, b in at),
        each=len(at),
        total=len(at) * len(parts),
        fastener="",
        engagement=None,
        note="",
    )
    return replace(row, **changes)


SCREW = "1/4-20 UNC × 1 1/2 machine screw, button head"
CHART = (
    chart_row(
        hole("A", Purpose.CLEARANCE, sink=Sink(F(5, 8) * IN, depth=F(1, 8) * IN), mate="stand.front leg"),
        ("left side",),
        ((F(5), F(897, 100)), (F(17, 10), F(8))),
        mirrored=("right side",),
        fastener=SCREW,
        total=4,
    ),
    chart_row(
        hole(
            "A",
            Purpose.TAPPED,
            drill="#7",
            depth=F(7, 8) * IN,
            thread="1/4-20 UNC",
            thread_depth=F(3, 4) * IN,
            percent=75.0,
            authority=Authority.MATE,
            mate="left side",
        ),
        ("front leg",),
        ((F(3, 4), F(5, 4)),),
        datum_end="top end, long point",
        fastener=SCREW,
        engagement=F(11, 16) * IN,
        note="the drill's point reaches 1/16 in further",
    ),
    chart_row(
        hole("B", Purpose.PILOT, drill="7/64", depth=F(1, 2) * IN, sink=Sink(F(3, 8) * IN, angle=F(82))),
        ("drawer.left", "drawer.right"),
        ((F(2), F(1)), (F(23, 4), F(1)), (F(11), F(1))),
    ),
)


def cut_row(number: int, title: str, **changes: Any) -> CutRow:
    finished = (F(35, 2) * IN, 14 * IN, F(13, 16) * IN)
    row = CutRow(
        number=number,
        title=title,
        parts=(title,),
        count=1,
        hands="",
        material="case boards",
        bought="4/4",
        finished=finished,
        rough=(finished[0] + IN, finished[1] + IN / 4, IN),
        grain="along the length",
        board_feet=1.92,
        area_m2=None,
        weight_kg=2.1,
        authority=Authority.CUT,
    )
    return replace(row, **changes)


CUTTING = (
    cut_row(1, "left side", blank="case", grain="runs around: see blank case", board_feet=None),
    cut_row(3, "top", blank="case", grain="runs around: see blank case", board_feet=None),
    cut_row(4, "shelf", authority=Authority.FIT, note="tongues 1/64 fat, planed to the dado"),
    cut_row(5, "leg", count=2, hands="1 left, 1 right", material="leg stock", bought="6/4"),
    cut_row(6, "back", material="birch plywood", bought="1/4", board_feet=None, area_m2=0.147, weight_kg=None),
    cut_row(7, "drawer.front", authority=Authority.MEASURE),
)
BLANK = BlankRow(
    name="case",
    material="case boards",
    length=80 * IN,
    width=F(57, 4) * IN,
    thickness=IN,
    pieces=(
        BlankPiece("left side", 1, 1 * IN, F(37, 2) * IN),
        BlankPiece("top", 3, F(75, 4) * IN, F(243, 4) * IN),
        BlankPiece("right side", 2, 61 * IN, F(157, 2) * IN),
    ),
    kerf=IN / 8,
    lost=25.4 * 0.125 * 2**0.5,
    miss=IN / 16,
    trim=IN,
    board_feet=7.92,
    unmatched="",
    note="no knot and no joinery within 1 1/4 in of the middle of a corner's cuts",
)
LISTS = Schedules(
    cutting=CUTTING,
    blanks=(BLANK,),
    stock=(
        StockRow("case boards", "4/4", 4, 12.3, "board feet", 15.4, 25.0, 14.2),
        StockRow("birch plywood", "1/4", 1, 1.58, "ft²", 1.9, 20.0, None),
    ),
    chart=CHART,
    sticks=(),
    setups=(
        SetupRow(
            "table saw",
            "mitre across the face",
            (("blade from square", F(45), "angle"),),
            (("left side", "mitre at the top"), ("top", "mitre at the left"), ("top", "mitre at the right")),
            "turn over about the long axis, same side of the blade",
            1,
            runs=(
                SetupRun(("left side",), "mitre at the top", (("stop from the long point", 34 * IN, "length"),)),
                SetupRun(("top",), "mitre at the left, mitre at the right"),
            ),
            proof=("two offcuts of the same stock", "no light in a try square"),
        ),
        SetupRow(
            "router",
            "dado, flat-bottomed",
            (("straight bit", IN / 2, "length"),),
            (("left side", "dado"),),
            "",
            2,
            runs=(SetupRun(("left side",), "dado", (), "in at the front edge"),),
        ),
    ),
    jigs=(JigRow("spacers", "strips 1/32 in thick", "the gap round drawer.front", "step 2"),),
    chain=ChainRows(
        boxes=(
            ChainBox("side", ("left side", "right side"), 0, (F(35, 2) * IN, 14 * IN, IN), Authority.CUT, ()),
            ChainBox(
                "shelf",
                ("shelf",),
                1,
                (40 * IN, 13 * IN, IN),
                Authority.FIT,
                ("length: 40 + 2 × 1/4, from side to side",),
            ),
            ChainBox("back", ("back",), 2, (40 * IN, 17 * IN, IN / 4), Authority.MEASURE, ()),
        ),
        arrows=((0, 1), (1, 2), (0, 2)),
        alone=("top",),
        holds=(
            HoldRow(
                "thickness of boards, milled",
                "13/16 in",
                "cutting",
                "size board: length of shelf −2 ×",
                Authority.MEASURE,
                (),
                "H1",
            ),
        ),
        sizes=(
            MoveRow("board", F(13, 16) * IN, "measured", "2026-03-02", ((F(-2), "length", ("shelf",)),), ("housing",)),
        ),
    ),
    work=(
        WorkRow(
            1, "Stock", "Choose boards; mill to 13/16 in.", ("left side", "shelf"), "cutting list", "cupped", hold=True
        ),
        WorkRow(2, "Stock", "Cut to size.", ("left side", "right side", "top", "shelf"), "cutting list", "cupped"),
        WorkRow(3, "Gluing up", "Glue up the case.", ("top",), "the glue's label", "cupped"),
    ),
    hardware=(
        HardwareRow(
            "machine screw",
            "1/4-20 UNC × 1 1/2",
            6,
            "A: side into leg",
            ("thickness of case.left", "thickness of left cheek"),
            "grip 3/4",
        ),
        HardwareRow("drawer slides", "12 in", 1, "", (), ""),
    ),
    cautions=(
        CautionRow(
            "router",
            "Router",
            ("Feed against the turning of the bit.", "The router's manual rules."),
            ("dado in left side",),
            ("read-manual", "eye-protection", "a sign that nobody drew"),
        ),
    ),
)
FINDINGS = (
    Finding(
        Grade.STOP,
        "overlap",
        ("shelf", "top"),
        "shelf and top share 132 mm³, 1/8 thick",
        "solids may share 1 mm³ at most",
        "common practice",
        Span("bench.yaml", 14, 3),
        (("volume", 132.0, "mm³"), ("thickness", 3.175, "mm"), ("lean", 12.0, "deg")),
        "move the shelf down",
    ),
    Finding(Grade.NOTE, "movement", ("top",), "The top moves.", "ΔD = D·C·(M₂ − M₁)", "Wood Handbook"),
)


def context(layout: str = "letter", *, of: Piece | None = None, **changes: Any) -> Context:
    given = of or piece()
    plain = Context(
        piece=given,
        solids=Blocks(given),  # type: ignore[arg-type]
        kinds=(),
        lists=LISTS,
        findings=FINDINGS,
        layout=read_layout(layout),
        metrics=PacketMetrics(),
        fingerprint="0a1b2-c3d4e",
    )
    return replace(plain, **changes)


def said(sheets: tuple[Sheet, ...]) -> str:
    """All text of the pages, run by run."""
    return "\n".join(r.text for sheet in sheets for r in sheet.records if isinstance(r, Text))


def flat(sheets: tuple[Sheet, ...]) -> str:
    """All text of the pages in one line, as it reads across the line ends of a cell."""
    return said(sheets).replace("\n", " ")


def faults(sheets: tuple[Sheet, ...], given: Context, folder: Path) -> list[Fault]:
    """Whatever lies on something else on the printed pages; sizes are looked at in the records."""
    for sheet in sheets:
        assert all(r.height >= given.layout.heights.small for r in sheet.records if isinstance(r, Text))
    path = folder / "pages.pdf"
    path.write_bytes(write(sheets, layout=given.layout, piece=given.piece, fingerprint=given.fingerprint, stopped=True))
    return [fault for fault in audit(path) if fault.kind != "small"]
