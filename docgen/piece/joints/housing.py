"""Housing: a shelf, divider or rail enters a dado in each part that its ends touch, square or leaning."""

from __future__ import annotations

from dataclasses import replace

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.askew_housing import Askew, askew, askew_dado
from docgen.piece.joints.housing_place import Ends, band, dado, run_axis
from docgen.piece.joints.meeting import NEAR, Seen, distance, outward, seen, touching
from docgen.piece.joints.slanted_housing import Slant, cut, lean, reaches, slant
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint, Part
from docgen.piece.operations.dado import trench
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.ground import settled
from docgen.piece.operations.slanted_tongue import SlantedTongue
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Face, Feature, Origin
from docgen.project.fields import ByFace, Choice, FaceWord, Field, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def build(bench: Bench, values: Bound) -> None:
    """Cut the dados and the tongues, from where shelf and parts stand."""
    shelf = bench.part(values["shelf"])
    made: list[tuple[str, str]] = []
    ends: dict[Face, tuple[str, EndCut | None]] = {}  # what takes the tongue at each end, and its tip where that slants
    leans: list[Slant] = []
    rabbets: list[tuple[str, str]] = []  # the parts at whose end it is no dado in truth
    for path in values["into"]:
        host = bench.part(path)
        at = seen(shelf, host)
        if at is None:
            turned = askew(shelf, host)
            if turned is not None:
                if abs(turned.gap) > NEAR:
                    _apart(bench, values, shelf, host, turned.gap)
                    continue
                made.append((host.path, _askew(bench, values, shelf, host, turned).name))
                ends.setdefault(turned.end, ("dado", None))
                continue
            leaning = _slanted(bench, values, shelf, host)
            if leaning is not None:
                found, trenched, what = leaning
                made.append((host.path, trenched.name))
                leans.append(found)
                rabbets += [(host.path, "rabbet")] if what == "rabbet" else []
                ends.setdefault(found.end, (what, found.tip(values["depth"])))
            continue
        on = touching(at, host)
        if on is None:
            _apart(bench, values, shelf, host, distance(at, host))
            continue
        end = at.guest_face(Face(on.axis, 1 - on.side))
        straight = _cut_dado(bench, values, shelf, host, (at, end, on))
        if straight is not None:
            made.append((host.path, straight.name))
            ends.setdefault(end, (straight.word, None))
            rabbets += [(host.path, straight.word)] if straight.word != "dado" else []
    for end, (mate, tip) in ends.items():
        tongue = _tongue(bench, values, shelf, end, mate, tip)
        title = "end at the lean" if isinstance(tongue, SlantedTongue) and tongue.whole(shelf) else "tongue"
        made.append((shelf.path, bench.add(shelf.path, tongue, title=title).name))
    if made:
        bench.joint(replace(_joint(values, shelf, made, leans), cut_as=tuple(rabbets)))


def _tongue(
    bench: Bench, values: Bound, shelf: Part, end: Face, mate: str, tip: EndCut | None
) -> Tongue | SlantedTongue:
    """Return the tongue of an end, slanted where the part that takes it leans."""
    stops = _stops(bench, values, shelf, run_axis(end))
    notches = (stops.get(Face(run_axis(end), 0), 0), stops.get(Face(run_axis(end), 1), 0))
    place = band(shelf, values["tongue"], values["flush"])
    fat = values["fat"] if values["tongue"] is not None else 0
    if tip is not None:
        return SlantedTongue.at_tip(
            shelf,
            tip,
            place.low,
            place.high,
            values["depth"],
            over=fat,
            notch_low=notches[0],
            notch_high=notches[1],
            mate=mate,
        )
    return Tongue(
        end, place.low, place.high, values["depth"], fat, *notches, reason="tongue for the housing", mate=mate
    )


def _slanted(bench: Bench, values: Bound, shelf: Part, host: Part) -> tuple[Slant, Feature, str] | None:
    """Cut one dado in a part that leans; return how they meet, the feature and what it is, None where that is told."""
    at = slant(shelf, host)
    if at is None:
        bench.fault(
            values,
            "into",
            "housing-skew",
            f"{shelf.path} stands at an angle to {host.path} that no housing takes: it leans about more than one axis, or its "
            "end points elsewhere",
            "parts that lean to each other about one axis: the run of the dado, the shelf's thickness or the shelf's length",
        )
        return None
    if not reaches(bench, values, shelf, host, at):
        return None
    ends = Ends(_stops(bench, values, shelf, run_axis(at.end)), _through(values, shelf))
    place = band(shelf, values["tongue"], values["flush"])
    made = cut(at, shelf, host, place, values["depth"], ends, round_end=values["end"] == "round")
    what = "dado (housing)" if made.label == "dado" else made.label
    return at, bench.add(host.path, made, title=f"{what} for {shelf.path}"), made.label


def _askew(bench: Bench, values: Bound, shelf: Part, host: Part, at: Askew) -> Feature:
    """Cut one dado that runs askew, and return the feature."""
    ends = Ends(_stops(bench, values, shelf, run_axis(at.end)), _through(values, shelf))
    place = band(shelf, values["tongue"], values["flush"])
    cut = askew_dado(at, shelf, host, place, values["depth"], ends)
    return bench.add(host.path, cut, title=f"dado (housing) for {shelf.path}")


def _through(values: Bound, shelf: Part) -> frozenset[Face]:
    return frozenset(shelf.face(word) for word in values["through"] or ())


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
    whole = dado(
        at,
        end,
        on,
        host,
        band(shelf, values["tongue"], values["flush"]),
        values["depth"],
        Ends(stops, _through(values, shelf)),
        round_end=values["end"] == "round",
    )
    made = trench(host, whole)
    what = "dado (housing)" if made is whole else made.label
    return bench.add(host.path, made, title=f"{what} for {shelf.path}")


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


def _apart(bench: Bench, values: Bound, shelf: Part, host: Part, gap: float) -> None:
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


def _joint(values: Bound, shelf: Part, made: list[tuple[str, str]], leans: list[Slant]) -> Joint:
    wide = values["tongue"] if values["tongue"] is not None else shelf.size[2]
    angles = dict.fromkeys(settled(lean(at)) for at in leans)
    closes = (0.0, 0.0, 0.0)
    if leans:
        closes = shelf.frame.direction(outward(leans[0].end))
    return Joint(
        word="housing",
        title=f"{shelf.path} in housings",
        parts=(shelf.path, *values["into"]),
        features=tuple(made),
        figures=(
            ("depth", values["depth"], "length"),
            ("width", wide, "length"),
            ("fat", values["fat"] if values["tongue"] is not None else 0, "length"),
            *(("lean", angle, "angle") for angle in angles),
        ),
        origin=Origin(values.span, values.because),
        closes=closes,
        holds=True,
    )


WORD = Word(
    name="housing",
    room="joint",
    help="the ends of a shelf, divider or rail enter dados (housings) in the parts that they touch, which may lean to it",
    fields=(
        Field(
            "shelf",
            PartName(),
            "the part that enters; its box ends at the faces it touches, at its long points where they lean",
            required=True,
        ),
        Field("into", Many(PartName()), "the parts that are cut", required=True),
        Field("depth", Length(above=0), "depth of the dado, and length of the tongue", required=True),
        Field("tongue", Length(above=0), "width of dado and tongue; absent: the whole thickness enters"),
        Field("flush", FaceWord(), "the shelf's face that the tongue is flush with; absent: centred"),
        Field("stop", ByFace(Length(least=0)), "how far behind that edge of the shelf the dado stops"),
        Field("through", Many(FaceWord()), "edges past which the dado runs out, though the shelf ends before"),
        Field(
            "end",
            Choice(("round", "square")),
            "a stop as the cutter leaves it, or squared; between walls that lean always squared",
            default="round",
        ),
        Field("fat", Length(least=0), "how much the tongue is cut over, to be planed to its dado", default="0"),
    ),
    example="housing: {shelf: shelf, into: [left side, right side], depth: 1/4, tongue: 1/2, flush: bottom, stop: {front: 3/4}}",
    build=build,
)
