"""The screws of a wooden runner: where the wood behind it moves along it, the front one holds and the others slide in slots."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.faults import Fault, figure
from docgen.piece.joints.fastening import PILOT, clear_holes, flush, milled, pilot_holes, wood_screws
from docgen.piece.joints.filling import Features
from docgen.piece.joints.meeting import facing, holds, moved, on_face, outward
from docgen.piece.joints.telling import NEAT
from docgen.piece.model import Fastener, Part
from docgen.piece.operations.ground import Ground, axis
from docgen.piece.operations.slot import SlottedHole
from docgen.piece.records import Face, Origin, Sink
from docgen.piece.woods import movement
from docgen.project.fields import Count, Field, Length, Many, Plain
from docgen.project.statements import Bound
from docgen.trade.buttons import move
from docgen.trade.drills import Drill
from docgen.trade.fasteners import HEAD, WoodScrew
from docgen.trade.runners import ENDS, bore, places, up_to
from docgen.units import Number

FIXED = "no glue under the strip: it may have to come off"
HOLDS = "{} alone holds its strip lengthwise: no glue"
SLIDES = "{} in the middle of its slot, drawn only so tight that the wood can still move"

ALONG = 0.7
"""How far a strip must run across the grain behind it for that wood to move along it."""


@dataclass(frozen=True, slots=True)
class Means:
    """The screws and drills of a drawer's runners: `names` are the letters of those that hold and of those that slide."""

    screw: WoodScrew
    pilot: Drill
    names: tuple[str, str]
    said: Bound
    origin: Origin


@dataclass(frozen=True, slots=True)
class Bed:
    """How a strip lies on its case part: its faces away from it and on it, and that part's face."""

    strip: Part
    case: Part
    mouth: Face
    against: Face


def means(bench: Bench, values: Bound, beds: Sequence[Bed]) -> Means:
    """Return the screws of all strips as the statement says them; `Fault` for a gauge that no table has."""
    said = values["screws"]
    screw, pilot = wood_screws(bench, said, "screws")
    first = bench.next_name()
    names = first, bench.next_name() if any(_works(bed) for bed in beds) else first
    return Means(screw, pilot, names, said, Origin(values.span, values.because))


def lies(strip: Part, case: Part, word: str) -> Bed:
    """Return how a strip lies with its `word` side on a case part; `Fault` where it does not."""
    inner = strip.face(word)
    against = next((b for a, b in facing(strip, case) if a == inner), None)
    if against is None:
        raise Fault(
            "parts-do-not-meet",
            f"no face of {strip.path} lies on a face of {case.path}",
            "strips",
            "a strip on the case",
        )
    return Bed(strip, case, Face(inner.axis, 1 - inner.side), against)


def driven(bench: Bench, bed: Bed, by: Means) -> Features:
    """Drill the strip and mark the case part through it, note the screws, and return the features."""
    strip, units = bed.strip, bench.units
    ends = ENDS[units.system] if by.said["ends"] is None else by.said["ends"]
    at = sorted(by.said["at"]) or places(strip.size[0], ends, by.said["count"], NEAT[units.system])
    if not all(0 < p < strip.size[0] for p in at):
        raise Fault("screw-beside-part", f"a screw lies beside {strip.path}, {figure(strip.size[0])} long", "screws")
    furthest = move(max(at) - min(at), _works(bed), float(by.said["swing"]))
    if not furthest:
        return _row(bench, bed, by, tuple(at), by.names[0], FIXED, sunk=None)
    under = bore(by.screw, NEAT[units.system])
    sink = Sink(under.diameter, under.depth)
    made = _row(bench, bed, by, tuple(at[:1]), by.names[0], HOLDS.format(by.names[0]), sunk=sink)
    reach = up_to(furthest, NEAT[units.system])
    return (*made, *_slots(bench, bed, by, tuple(at[1:]), (under.diameter, under.depth), reach))


def _works(bed: Bed) -> float:
    """Return by how much of its width the wood behind a strip moves along it for 1 % of moisture; 0 along the grain."""
    wood = None if bed.case.hardware else movement(bed.case.material)
    run = bed.strip.frame.direction((1.0, 0.0, 0.0))
    grain = bed.case.frame.direction((1.0, 0.0, 0.0))
    return 0.0 if wood is None or abs(dot(run, grain)) > ALONG else wood.tangential


def _spots(bed: Bed, at: tuple[Number, ...]) -> tuple[tuple[Number, Number], ...]:
    """Return the screws' places on the strip's outer face, from its front end, in the middle of its height."""
    strip, first = bed.strip, bed.strip.face("front").side
    middle = strip.size[3 - bed.mouth.axis] / 2
    return tuple((strip.size[0] - p if first else p, middle) for p in at)


def _row(
    bench: Bench, bed: Bed, by: Means, at: tuple[Number, ...], name: str, note: str, *, sunk: Sink | None
) -> Features:
    """Drill the screws in round holes: countersunk, or their heads in bores."""
    spots = _spots(bed, at)
    hole = clear_holes(by.screw.clearance, name, bed.mouth, spots, bed.case, sunk or flush(by.screw))
    made = bench.add(bed.strip.path, hole, title=f"screw holes {name}").name
    deep = 0 if sunk is None or sunk.depth is None else sunk.depth
    return ((bed.strip.path, made), _held(bench, bed, by, spots, name, note, deep=deep))


def _slots(
    bench: Bench, bed: Bed, by: Means, at: tuple[Number, ...], sink: tuple[Number, Number], reach: Number
) -> Features:
    """Cut the slots, each with a wider one for its head, in which the screws travel `reach` either way."""
    name, spots, wide = by.names[1], _spots(bed, at), by.screw.clearance.diameter
    made = [
        bench.add(
            bed.strip.path,
            SlottedHole(bed.mouth, spot, 0, wide + 2 * reach, wide, bore=sink, name=name, label="slot"),
            title=f"slot for screw {name}",
        ).name
        for spot in spots
    ]
    return (
        *((bed.strip.path, m) for m in made),
        _held(bench, bed, by, spots, name, SLIDES.format(name), deep=sink[1], reach=reach),
    )


def _held(
    bench: Bench,
    bed: Bed,
    by: Means,
    spots: tuple[tuple[Number, Number], ...],
    name: str,
    note: str,
    *,
    deep: Number,
    reach: Number = 0,
) -> tuple[str, str]:
    """Mark the pilot holes in the case part and note the screws; return that feature."""
    strip, case, length = bed.strip, bed.case, by.said["length"]
    grip = strip.size[bed.mouth.axis] - deep
    engagement = length - grip
    if engagement <= 0 or grip <= 0:
        left = figure(engagement if engagement > 0 else 0)
        message = f"a screw of {figure(length)} has {left} left beyond {strip.path}"
        raise Fault("screw-too-short", message, "screws", "a longer screw")
    ground, way = Ground(strip, bed.mouth), _inward(bed)
    heads = tuple(moved(strip.frame.point(ground.at(*s)), way, float(deep)) for s in spots)
    on_case = tuple(moved(h, way, float(grip)) for h in heads)
    if not all(holds(case, bed.against, p) for p in on_case):
        raise Fault("screw-beside-part", f"a screw of {strip.path} lies beside {case.path}", "screws", "places on both")
    spots_there = tuple(on_face(case, bed.against, p) for p in on_case)
    pilot = pilot_holes(by.pilot, name, bed.against, spots_there, strip, engagement)
    made = bench.add(case.path, pilot, title=f"pilot holes {name}").name
    along = strip.frame.direction(axis(0))
    bench.fastener(
        Fastener(
            key=name,
            what=f"wood screw, {'pan' if deep else 'flat'} head",
            thread=f"No. {by.screw.gauge}",
            length=length,
            count=len(spots),
            head=(HEAD * by.screw.shank, 0),
            grip=grip,
            engagement=engagement,
            drill_depth=engagement,
            points=heads,
            direction=way,
            parts=(strip.path, case.path),
            depends=milled(strip) if bed.mouth.axis == 2 else (),
            notes=(note,),
            origin=by.origin,
            slot=(along[0] * float(reach), along[1] * float(reach), along[2] * float(reach)),
        )
    )
    return case.path, made


def _inward(bed: Bed) -> Vec:
    """Return the way from the heads into the case part, piece axes."""
    x, y, z = bed.strip.frame.direction(outward(bed.mouth))
    return (-x, -y, -z)


SCREWS = (
    Field("gauge", Count(least=0), "number of the screw: 6 for No. 6", default="6"),
    Field("length", Length(above=0), "of the screws, as bought", required=True),
    Field("count", Count(), "how many in each strip", default="3"),
    Field("at", Many(Length(above=0), least=0), "or their distances from the strip's front end", default="[]"),
    Field("ends", Length(above=0), "from the strip's ends to the first and the last; absent: 25 mm or 1 in"),
    PILOT,
    Field("swing", Plain(least=0), "per cent of moisture that a solid case goes through in a year", default="4"),
)
"""The fields of a runner's screws."""
