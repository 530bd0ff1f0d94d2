"""A small packet made of records alone; run as a script it writes the packet to the path that it is given."""

from __future__ import annotations

import sys
from fractions import Fraction
from pathlib import Path

from docgen.drawing.records import Arc, Area, Line, Link, Pen, Record, Sheet, Text
from docgen.drawing.records import Path as Chain
from docgen.drawing.tiling.rulers import check_line
from docgen.layout.model import Layout
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.piece.model import Piece
from docgen.units import Units

FINGERPRINT = "0a1b2-c3d4e"
CHECK = ((32.0, 55.0), (26.0, 60.0))  # where the level and the upright check line begin


def piece(**changes: object) -> Piece:
    values: dict[str, object] = {
        "title": "Porch bench",
        "number": "PB-3",
        "revision": "A",
        "date": "2026-03-02",
        "author": "Reserve workshop",
        "units": Units("inch", Fraction(1, 32)),
        "projection": "third angle",
        "paper": "",
        "notes": (),
        "sizes": (),
        "parts": (),
    }
    return Piece(**{**values, **changes})  # type: ignore[arg-type]


def first_records() -> tuple[Record, ...]:
    return (
        *check_line(CHECK[0], up=False, small=1.8),
        *check_line(CHECK[1], up=True, small=1.8),
        *(Line((40.0, 90.0 + 3 * i), (140.0, 90.0 + 3 * i), pen) for i, pen in enumerate(Pen)),
        Arc((100.0, 180.0), 20.0, 30.0, 300.0, Pen.HIDDEN),
        Arc((100.0, 180.0), 10.0, 0.0, 360.0),
        Area((((150.0, 150.0), (160.0, 150.0), (160.0, 160.0)),), 0.5),
        Chain(((150.0, 170.0), (160.0, 170.0), (160.0, 180.0)), Pen.BREAK),
        Text((40.0, 215.0), "Seat height 17 1⁄2, ⌀3⁄8 ↧1⁄8", 3.5),
        Text((40.0, 225.0), "Скамья, ΔD = D·C·(M₂ − M₁), tømrer, łóżko", 2.5, bold=True),
        Text((170.0, 200.0), "turned", 2.5, "middle", angle=90.0),
        Link((40.0, 215.0, 60.0, 4.0), "part/leg"),
        Link((40.0, 225.0, 60.0, 4.0), "not in this packet"),
    )


def sheets(layout: Layout) -> tuple[Sheet, ...]:
    lying = layout.turned().size
    return (
        Sheet("cover", "cover", "Cover", layout.size, first_records(), "none"),
        Sheet("part/seat", "parts", "Seat", layout.size, (Text((50, 100), "seat"),), "1 : 4", outline=("Part sheets",)),
        Sheet("part/leg", "parts", "Leg", lying, (Text((50, 100), "leg"),), "1 : 2", outline=("Part sheets",)),
        Sheet("part/leg/2", "parts", "Leg", lying, (Text((50, 100), "leg"),), "1 : 2", outline=("Part sheets",)),
        Sheet("tile/A1", "templates", "Foot", layout.size, (Text((50, 100), "A1"),), "1 : 1", framed=False),
    )


def packet(name: str = "letter", *, stopped: bool = False, **changes: object) -> bytes:
    layout = read_layout(name)
    return write(sheets(layout), layout=layout, piece=piece(**changes), fingerprint=FINGERPRINT, stopped=stopped)


if __name__ == "__main__":
    Path(sys.argv[1]).write_bytes(packet())
