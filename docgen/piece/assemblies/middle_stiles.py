"""Middle stiles of a frame: between the rails below and above them, joined at both ends as the rails are."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies.frames import THROUGH, UP, Frame, butted, corners, evenly
from docgen.piece.assemblies.terms import SIDES, face, from_low, with_span
from docgen.piece.bench import Lazy
from docgen.piece.faults import Fault
from docgen.project.fields import Count, Field, Length, Many, Nested

Bay = tuple[str, str]
"""The rails below and above an opening."""


def said(frame: Frame, values: Lazy) -> None:
    """Say the middle stiles and their joints; they are numbered as they are said, from the lowest bay upward."""
    found = [(*at, one["tenon"]) for one in values["middle stiles"] for at in _places(frame, values, one)]
    if not found:
        return
    way = corners(values)
    if way in THROUGH and len(frame.rails) > 2:
        message = f"{way} reach through the rails: a middle stile would cross those between bottom and top"
        raise Fault("frame-stiles", message, "middle stiles", "no middle rails, or tenons, dowels or loose tenons")
    for n, (bay, place, wide, tenon) in enumerate(found, 1):
        word = "middle stile" if len(found) == 1 else f"middle stile {n}"
        path = f"{frame.draft.name}.{word}"
        low, high = ("bottom", "top") if way in THROUGH else ("top", "bottom")
        upright = (face(bay[0], low), face(bay[1], high))
        spot = with_span(with_span(frame.box, frame.beside, from_low(place, wide)), UP, upright)
        frame.draft.part(
            path,
            material=values["material"],
            grain="up",
            box=spot,
            show=frame.face,
            group=frame.group,
            called=f"{frame.draft.name} {word}",
        )
        frame.parts.append(path)
        _joined(frame, values[way], way, path, bay, tenon)


def _places(frame: Frame, values: Lazy, one: Lazy) -> list[tuple[Bay, Expr, Expr]]:
    """Return for each stile that is said together the rails about it, where it begins, and its width."""
    bays, wide = list(frame.openings), one["width"] or values["width"]
    if one["bay"] is not None:
        number = frame.draft.count(one["bay"])
        if number > len(bays):
            message = f"the frame has {len(bays)} openings one over the other, there is no bay {number}"
            raise Fault("frame-stiles", message, "middle stiles", f"a bay from 1 to {len(bays)}, counted upward")
        bays = [bays[number - 1]]
    if (one["at"] is None) == (one["count"] is None):
        message = "middle stiles have places or are evenly spaced"
        raise Fault("frame-spacing", message, "middle stiles", "at: [...], or count: 2")
    if one["at"] is not None:
        return [(bay, place, wide) for bay in bays for place in one["at"]]
    first, last = SIDES[frame.beside]
    clear = (face(frame.stiles[0], last), face(frame.stiles[1], first))
    places = evenly(clear, frame.draft.count(one["count"]), wide)
    return [(bay, place, wide) for bay in bays for place in places]


def _joined(frame: Frame, how: Lazy, way: str, stile: str, bay: Bay, tenon: Expr | None) -> None:
    """Say the joints at both ends of a middle stile; `tenon` is the length of its tenons where it has one of its own."""
    say = frame.draft.say
    if way == "tenons":
        shoulder = None if how["inner"] is None else dict.fromkeys(SIDES[frame.beside], how["inner"])
        fields = {name: how[name] for name in ("thickness", "length", "through", "rounded")}
        if tenon is not None:
            fields |= {"length": tenon, "through": False}
        say("joints", "mortise and tenon", end=stile, into=list(bay), shoulder=shoulder, **fields)
        return
    for rail in bay:
        if way == "half laps":
            say("joints", "half lap", over=stile, under=rail, face=frame.face)
        elif way == "bridles":
            say("joints", "bridle", tenon=rail, slot=stile, thickness=how["thickness"])
        else:
            butted(frame, way, how, stile, rail, frame.beside)


STILES = (
    Field("count", Count(), "how many, with equal openings between them"),
    Field("at", Many(Length()), "in place of a count: where each begins, on the frame's level direction"),
    Field("bay", Count(), "between which rails: 1 is over the bottom rail; absent: in every bay"),
    Field("width", Length(above=0), "where it differs from that of the outer stiles"),
    Field("tenon", Length(above=0), "length of its blind tenons, where two meet in a narrow rail"),
)

FIELD = Field(
    "middle stiles", Many(Nested(STILES), least=0), "stiles from rail to rail, joined as the rails are", default="[]"
)
