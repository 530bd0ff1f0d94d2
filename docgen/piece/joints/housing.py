"""Housing: a shelf, divider or rail enters a dado in each part that its ends touch."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import Seen, distance, seen, touching
from docgen.piece.model import Joint, Part
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Face, Origin
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


def dado(
    at: Seen, end: Face, on: Face, tongue: Band, depth: Number, stops: dict[Face, Number], *, round_end: bool
) -> Dado:
    """Return the dado in the host for the shelf's `end` that touches its face `on`; coordinates in the host's axes.

    `stops` has, for an edge of the shelf, how far behind it the full width of the dado ends. Other ends run out.
    """
    t = at.axis[2]
    up = at.sign[2] > 0
    low = at.low[t] + tongue.low if up else at.high[t] - tongue.high
    run = run_axis(end)
    ends: list[Number | None] = [None, None]
    for edge, behind in stops.items():
        side = at.host_face(edge).side
        ends[side] = at.level(edge) + behind if side == 0 else at.level(edge) - behind
    return Dado(
        on,
        at.axis[run],
        low,
        low + tongue.high - tongue.low,
        depth,
        ends[0],
        ends[1],
        round_end=round_end,
        label="dado",
    )


def build(bench: Bench, values: Bound) -> None:
    """Cut the dados and the tongues, from where shelf and parts stand."""
    shelf = bench.part(values["shelf"])
    made: list[tuple[str, str]] = []
    ends: list[Face] = []
    for path in values["into"]:
        host = bench.part(path)
        at = seen(shelf, host)
        on = touching(at, host) if at is not None else None
        if at is None or on is None:
            _apart(bench, values, shelf, host, at)
            continue
        end = at.guest_face(Face(on.axis, 1 - on.side))
        feature = _cut_dado(bench, values, shelf, host, (at, end, on))
        if feature:
            made.append((host.path, feature))
            ends.append(end)
    for end in dict.fromkeys(ends):
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
            ),
            title="tongue",
        ).name
        made.append((shelf.path, feature))
    if made:
        bench.joint(_joint(values, shelf, made))


def _cut_dado(bench: Bench, values: Bound, shelf: Part, host: Part, place: tuple[Seen, Face, Face]) -> str:
    """Cut one dado and return the feature's name, "" when the shelf lies flat on the part."""
    at, end, on = place
    if end.axis == 2:
        bench.fault(
            values,
            "shelf",
            "housing-flat",
            f"{shelf.path} lies flat on {host.path}: its broad face touches, not an end or an edge",
            "an end or an edge against the part",
        )
        return ""
    stops = _stops(bench, values, shelf, run_axis(end))
    cut = dado(
        at,
        end,
        on,
        band(shelf, values["tongue"], values["flush"]),
        values["depth"],
        stops,
        round_end=values["end"] == "round",
    )
    return bench.add(host.path, cut, title=f"dado (housing) for {shelf.path}").name


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
    how = f"stands {gap:.2f} mm away from" if gap > 0 else f"reaches {-gap:.2f} mm into" if gap < 0 else "only meets"
    bench.fault(
        values,
        "into",
        "parts-do-not-meet",
        f"{shelf.path} {how} {host.path}: no end of it touches a face of that part",
        "an end that touches: the joint itself adds the tongue",
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
        Field(
            "stop", ByFace(Length(least=0)), "how far behind that edge of the shelf the dado stops; absent: it runs out"
        ),
        Field("end", Choice(("round", "square")), "a stop as the cutter leaves it, or squared", default="round"),
        Field("fat", Length(least=0), "how much the tongue is cut over, to be planed to its dado", default="0"),
    ),
    example="housing: {shelf: shelf, into: [left side, right side], depth: 1/4, tongue: 1/2, flush: bottom, stop: {front: 3/4}}",
    build=build,
)
