"""The hanging of drawers: on bought slides, on wooden runners at their sides, or on the wood under them. Common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.piece.model import Drawer, Piece
from docgen.piece.records import Authority
from docgen.schedules.holds import listed, said
from docgen.schedules.rows import WorkRow
from docgen.schedules.steps import LAST, WAITED, step
from docgen.units import Number

STOP = "room before the runner"
"""The figure of a drawer that tells how far its grooves go on before its strips; 0 where the strips stop it."""

STANDS_BACK, BLOCKS, PLAY = "box stands back", "stop blocks", "play"
"""Figures of a drawer: how far its box stands behind the case's front edge, the depth of blocks that stop it, its play."""

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
            f"does not rock and runs freely over its whole way, without glue or finish.{_blocks(piece, drawer)}{bottom}",
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


def _figure(drawer: Drawer, name: str) -> Number | None:
    return next((value for known, value, _ in drawer.figures if known == name), None)


def _flush(piece: Piece, drawer: Drawer) -> str:
    """Return where the box of an inset drawer has to stop: its front is cut only when it hangs."""
    back = _figure(drawer, STANDS_BACK)
    if not back:
        return "where its front will stand flush"
    return f"with the front of its box {said(piece, back)} behind the front edge of the case, where its front will stand flush"


def _blocks(piece: Piece, drawer: Drawer) -> str:
    """Return how a drawer that slides on the case itself is stopped: by blocks, else that nothing stated stops it."""
    if not drawer.gap:
        return ""
    deep = _figure(drawer, BLOCKS)
    if deep is None:
        return f" What stops it is not drawn: it has to stop {_flush(piece, drawer)}."
    return (
        f" Push it in until it stands {_flush(piece, drawer)}. Mark {listed(piece, [drawer.bed])} behind its two sides, draw it out and glue "
        f"a stop block behind each mark: it fits into the {said(piece, deep)} that are left to the back there."
    )


def _on_runners(piece: Piece, drawer: Drawer, box: Sequence[str]) -> WorkRow:
    ends = ""
    if _figure(drawer, STOP) == 0 and drawer.gap:
        ends = f" Pare the strips' front ends by equal amounts until it stops {_flush(piece, drawer)}."
    play = _figure(drawer, PLAY)
    wanted = f", with {said(piece, play)} of play in height" if play else ""
    return step(
        WAITED,
        f"Try {listed(piece, drawer.runners)} dry in the grooves of the drawer. Plane the lower edge of each, no other, until it slides in "
        f"its own groove by hand{wanted}; number both. Screw the strips to the case by their holes, without glue, and slide the box of "
        f"{drawer.called} in on them: {FREELY}.{ends}{_dry(piece, box)}",
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
