"""The hanging of drawers: on bought slides, on wooden runners at their sides, or on the wood under them. Common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.piece.model import Drawer, Piece
from docgen.piece.records import Authority
from docgen.schedules.holds import listed
from docgen.schedules.rows import WorkRow
from docgen.schedules.steps import LAST, WAITED, step

STOP = "room before the runner"
"""The figure of a drawer that tells how far its grooves go on before its strips; 0 where the strips stop it."""

FREELY = "level, and running freely over its whole way"


def hung(piece: Piece, drawer: Drawer, box: Sequence[str]) -> WorkRow:
    """Return the hanging of a drawer's box, before its front is measured: the front is no part of it yet."""
    if drawer.runners:
        return _on_runners(piece, drawer, box)
    bottom = _dry(piece, box)
    if drawer.bed:
        return step(
            WAITED,
            f"Slide the box of {drawer.called} in on {listed(piece, [drawer.bed])}, dry: plane the lower edges of its sides until it "
            f"does not rock and runs freely over its whole way, without glue or finish.{bottom}",
            "general views, part sheets",
            "planed at one end alone it leans: its front then stands out of line with the case",
            box,
            key=f"hang {drawer.name}",
        )
    return step(
        WAITED,
        f"Hang the box of {drawer.called} on its slides: {FREELY}.{bottom}",
        "chart, the slides' own sheet",
        "slides not parallel bind at the back: measure the clear width at both ends",
        box,
        key=f"hang {drawer.name}",
    )


def _dry(piece: Piece, box: Sequence[str]) -> str:
    bottom = [p for p in box if piece.part(p).authority is Authority.MEASURE]
    return f" Slide {listed(piece, bottom)} in dry first: it keeps the box square." if bottom else ""


def _on_runners(piece: Piece, drawer: Drawer, box: Sequence[str]) -> WorkRow:
    stops = any(name == STOP and not value for name, value, _ in drawer.figures)
    ends = ""
    if stops and drawer.gap:
        ends = " Pare the strips' front ends by equal amounts until the drawer stops where its front will stand flush."
    return step(
        WAITED,
        f"Try {listed(piece, drawer.runners)} dry in the grooves of the drawer, and plane each until it slides in its own by hand, "
        f"without rattling; number both. Screw the strips to the case, without glue, and slide the box of {drawer.called} in on them: "
        f"{FREELY}.{ends}{_dry(piece, box)}",
        "chart, story stick",
        "strips not level or not parallel bind at the back: measure the clear width between them at both ends",
        (*drawer.runners, *box),
        key=f"hang {drawer.name}",
    )


def put_back(piece: Piece) -> Iterator[WorkRow]:
    """Yield the putting back of drawers that run on wood, when all is finished."""
    back = [d for d in piece.drawers if d.runners or d.bed]
    if not back:
        return
    on = any(d.runners for d in back)
    rubbed = "strips and grooves" if on else "the lower edges of the sides and what they slide on"
    both = ", and where a drawer slides on wood its lower edges too" if on and any(d.bed for d in back) else ""
    yield step(
        LAST,
        f"Rub hard wax on {rubbed}{both}, no oil and no glue, and slide {', '.join(d.called for d in back)} in again, each in its own place.",
        "general views",
        "finish in a groove makes it tight: scrape it out before it is waxed",
        [p for d in back for p in (*d.runners, *d.parts)],
    )
