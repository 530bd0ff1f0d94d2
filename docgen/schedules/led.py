"""What a router's guide makes of a set-up: the wall at which it stands, the edge from which it is measured. mm."""

from __future__ import annotations

from docgen.piece.model import Part, Piece
from docgen.piece.records import Face, Feature, Setting, Travel
from docgen.schedules.feeds import straightedge
from docgen.schedules.guides import FENCE, fence_edge, near, off, sawn_away
from docgen.schedules.rows import Values
from docgen.units import Number

WALL, FAR_WALL = "near wall", "far wall"


def led_values(part: Part, feature: Feature, setting: Setting) -> Values:
    """Return what is set at the machine: how far the fence stands, from the edge on which it rides; none on a straightedge."""
    run = setting.travel
    if run is None or not any(name == FENCE for name, _, _ in setting.values):
        return setting.values
    edge = fence_edge(part, feature, run)
    values = (v for v in setting.values if edge is not None or v[0] != FENCE)
    return tuple(
        (n, off(part, run, edge), kind) if edge is not None and n == FENCE else (n, v, kind) for n, v, kind in values
    )


def led_places(piece: Piece, part: Part, feature: Feature, setting: Setting) -> Values:
    """Return where it stands on the part: the wall at the straightedge, stops from sides that are not sawn away by then."""
    run = setting.travel
    if run is None or run.edge is not None or setting.machine != "router":
        return setting.places
    out = list(setting.places)
    stands, told = straightedge(piece, part, feature, run), near(run)
    if stands is not None and run.along == 0:
        out.insert(1, (f"{WALL} from the {part.side(told)}", off(part, run, told), "length"))
    elif stands is not None and stands != told:
        name = f"{WALL} from the {part.side(told)}"
        far = (f"{FAR_WALL} from the {part.side(told)}", off(part, run, told) + run.wide, "length")
        out = [far if place[0] == name else place for place in out]
    for side in (0, 1):
        if sawn_away(part, feature, run, side) and not sawn_away(part, feature, run, 1 - side):
            out = [_turned(part, run, side, place) for place in out]
    return tuple(out)


def _turned(part: Part, run: Travel, side: int, place: tuple[str, Number | str, str]) -> tuple[str, Number | str, str]:
    """Return a place along the run from the side opposite."""
    name, value, kind = place
    gone, stays = (f" from the {part.side(Face(run.along, s))}" for s in (side, 1 - side))
    if isinstance(value, str) or not name.endswith(gone):
        return place
    return (name.removesuffix(gone) + stays, part.size[run.along] - value, kind)
