"""Housing: a shelf, divider or rail enters a dado in each part that its ends touch."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.meeting import NEAR, Seen, distance, seen, touching
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.dado import Dado, trench
from docgen.piece.operations.ground import settled
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Face, Feature, Origin
from docgen.project.fields import ByFace, Choice, FaceWord, Field, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


@dataclass(frozen=True, slots=True)
class Band:
    """The tongue in the shelf's thickness, from its low to its high side."""

    low: Number
    high: Number


def band(shelf: Part, tongue: Number | None, flush: str | None) -> Band:
    """Return where the tongue lies in the thickness: all of it, flush with a face, or centred."""
    thick = shelf.size[2]
    if tongue is None:
        return Band(0, thick)
    if flush is None:
        return Band((thick - tongue) / 2, (thick + tongue) / 2)
    return Band(thick - tongue, thick) if shelf.face(flush).side else Band(0, tongue)


def run_axis(end: Face) -> int:
    """Return the shelf's axis along which its end on `end` runs."""
    return 1 - end.axis


@dataclass(frozen=True, slots=True)
class Ends:
    """How the dado ends: how far behind an edge of the shelf it stops, and the edges past which it runs out."""

    stops: dict[Face, Number]
    through: frozenset[Face] = frozenset()


def run(at: Seen, end: Face, host: Part, ends: Ends) -> tuple[Number | None, Number | None, bool]:
    """Return where the dado's full width starts and stops in the host, and whether all its stops are stated ones.

    None runs out: where the shelf reaches the host's edge, or where it is said. Else the dado ends with the shelf.
    """
    out: list[Number | None] = [None, None]
    stated = True
    for side in (0, 1):
        edge = Face(run_axis(end), side)
        on = at.host_face(edge)
        level = at.level(edge)
        inward = 1 if on.side == 0 else -1
        if edge in ends.stops:
            out[on.side] = level + inward * ends.stops[edge]
        elif edge not in ends.through and NEAR < float(level) < float(host.size[on.axis]) - NEAR:
            out[on.side], stated = level, False
    return out[0], out[1], stated


def dado(
    at: Seen, end: Face, on: Face, host: Part, tongue: Band, depth: Number, ends: Ends, *, round_end: bool
) -> Dado:
    """Return the dado in the host for the shelf's `end` that touches its face `on`; coordinates in the host's axes.

    A dado that ends with the shelf is squared there, so that nothing of it shows.
    """
    t = at.axis[2]
    low = at.low[t] + tongue.low if at.sign[2] > 0 else at.high[t] - tongue.high
    start, stop, stated = run(at, end, host, ends)
    arcs = round_end and stated and (start is not None or stop is not None)
    return Dado(
        on,
        at.axis[run_axis(end)],
        low,
        low + tongue.high - tongue.low,
        depth,
        start,
        stop,
        round_end=arcs,
        label="dado",
    )


def build(bench: Bench, values: Bound) -> None:
    """Cut the dados and the tongues, from where shelf and parts stand."""
    shelf = bench.part(values["shelf"])
    made: list[tuple[str, str]] = []
    ends: dict[Face, str] = {}  # what takes the tongue at each end
    for path in values["into"]:
        host = bench.part(path)
        at = seen(shelf, host)
        on = touching(at, host) if at is not None else None
        if at is None or on is None:
            _apart(bench, values, shelf, host, at)
            continue
        end = at.guest_face(Face(on.axis, 1 - on.side))
        trenched = _cut_dado(bench, values, shelf, host, (at, end, on))
        if trenched is not None:
            made.append((host.path, trenched.name))
            ends.setdefault(end, trenched.word)
    for end, cut in ends.items():
        stops = _stops(bench, values, shelf, run_axis(end))
        tongue = band(shelf, values["tongue"], values["flush"])
        feature = bench.add(
            shelf.path,
            Tongue(
                end,
                tongue.low,
                tongue.high,
                values["depth"],
                values["fat"] if values["tongue"] is not None else 0,
                stops.get(Face(run_axis(end), 0), 0),
                stops.get(Face(run_axis(end), 1), 0),
                reason="tongue for the housing",
                mate=cut,
            ),
            title="tongue",
        ).name
        made.append((shelf.path, feature))
    if made:
        bench.joint(_joint(values, shelf, made))


def _cut_dado(bench: Bench, values: Bound, shelf: Part, host: Part, place: tuple[Seen, Face, Face]) -> Feature | None:
    """Cut one dado, at the end of a part a rabbet, and return the feature; None when the shelf lies flat on the part."""
    at, end, on = place
    if end.axis == 2:
        bench.fault(
            values,
            "shelf",
            "housing-flat",
            f"{shelf.path} lies flat on {host.path}: its broad face touches, not an end or an edge",
            "an end or an edge against the part",
        )
        return None
    stops = _stops(bench, values, shelf, run_axis(end))
    through = frozenset(shelf.face(word) for word in values["through"] or ())
    whole = dado(
        at,
        end,
        on,
        host,
        band(shelf, values["tongue"], values["flush"]),
        values["depth"],
        Ends(stops, through),
        round_end=values["end"] == "round",
    )
    cut = trench(host, whole)
    what = "dado (housing)" if cut is whole else cut.label
    return bench.add(host.path, cut, title=f"{what} for {shelf.path}")


def _stops(bench: Bench, values: Bound, shelf: Part, run: int) -> dict[Face, Number]:
    """Return the stops by the shelf's edge; one that is no end of the run is told."""
    out: dict[Face, Number] = {}
    for word, behind in (values["stop"] or {}).items():
        edge = shelf.face(word)
        if edge.axis == run:
            out[edge] = behind
        else:
            names = " or ".join(shelf.word(Face(run, side)) for side in (0, 1))
            bench.fault(
                values, "stop", "stop-face", f"{word} is not an edge of {shelf.path} where the housing ends", names
            )
    return out


def _apart(bench: Bench, values: Bound, shelf: Part, host: Part, at: Seen | None) -> None:
    if at is None:
        bench.fault(
            values,
            "into",
            "housing-skew",
            f"{shelf.path} stands at an angle to {host.path}: a housing needs them square",
            "parts that are square to each other",
        )
        return
    gap = distance(at, host)
    apart = figure(settled(abs(gap)))
    how = f"stands {apart} away from" if gap > 0 else f"reaches {apart} into" if gap < 0 else "only meets"
    fault(
        values,
        "into",
        "parts-do-not-meet",
        f"{shelf.path} {how} {host.path}: no end of it touches a face of that part",
        "an end that touches: the joint itself adds the tongue",
        on=bench,
    )


def _joint(values: Bound, shelf: Part, made: list[tuple[str, str]]) -> Joint:
    wide = values["tongue"] if values["tongue"] is not None else shelf.size[2]
    return Joint(
        word="housing",
        title=f"{shelf.path} in housings",
        parts=(shelf.path, *values["into"]),
        features=tuple(made),
        figures=(
            ("depth", values["depth"], "length"),
            ("width", wide, "length"),
            ("fat", values["fat"] if values["tongue"] is not None else 0, "length"),
        ),
        origin=Origin(values.span, values.because),
        holds=True,
    )


WORD = Word(
    name="housing",
    room="joint",
    help="the ends of a shelf, divider or rail enter dados (housings) in the parts that they touch",
    fields=(
        Field("shelf", PartName(), "the part that enters; its box ends at the faces it touches", required=True),
        Field("into", Many(PartName()), "the parts that are cut", required=True),
        Field("depth", Length(above=0), "depth of the dado, and length of the tongue", required=True),
        Field("tongue", Length(above=0), "width of dado and tongue; absent: the whole thickness enters"),
        Field("flush", FaceWord(), "the shelf's face that the tongue is flush with; absent: centred"),
        Field("stop", ByFace(Length(least=0)), "how far behind that edge of the shelf the dado stops"),
        Field("through", Many(FaceWord()), "edges past which the dado runs out, though the shelf ends before"),
        Field("end", Choice(("round", "square")), "a stop as the cutter leaves it, or squared", default="round"),
        Field("fat", Length(least=0), "how much the tongue is cut over, to be planed to its dado", default="0"),
    ),
    example="housing: {shelf: shelf, into: [left side, right side], depth: 1/4, tongue: 1/2, flush: bottom, stop: {front: 3/4}}",
    build=build,
)
