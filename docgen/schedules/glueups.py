"""Which joints are glued, which parts are glued together in one go, and what is glued before them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from docgen.geometry.shapes import Vec
from docgen.piece.model import FACE_WORDS, Joint, Part, Piece
from docgen.piece.records import Authority, Feature, Purpose, Travel
from docgen.schedules.machining import BLADE, GAUGE
from docgen.schedules.neighbours import wood_at
from docgen.schedules.tool_room import in_the_way

Direction = tuple[float, float, float] | None
"""Along which the joint closes, in the piece's axes, either way; None for a mitre, which closes from two sides."""

FASTENED = (Purpose.CLEARANCE, Purpose.TAPPED, Purpose.PILOT, Purpose.BORE)
MANY = 4
"""Joints in one glue-up from which a frame is glued first by itself, and a second pair of hands asked for. Common practice."""

STEPS = 8
"""Into so many steps the way from a trench's stop to the end of its part is divided, to ask whether wood is in it."""

ROOM = ("gap", "clearance")
"""Figures of a joint that leave its part room: it is laid in, not glued."""


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Joints that are glued in one go: all their parts, what was glued before, along which directions they close."""

    parts: tuple[str, ...]
    joints: tuple[Joint, ...]
    before: tuple[tuple[str, ...], ...] = ()  # parts that come to it glued together already
    directions: tuple[Direction, ...] = ()
    enclosed: tuple[str, ...] = ()  # panels that go in without glue, since they cannot be slid in later
    slid: tuple[str, ...] = ()  # parts that are slid in when the glued parts are cut: they would be in the tool's way
    slid_from: str = ""  # face word of the side from which they come: "back"
    kept_out: tuple[str, ...] = ()  # parts that are slid into this one later: they stay out when it is glued

    @property
    def count(self) -> int:
        """Return how many joints are closed in one go: a shelf that the file houses in two sides at once has two."""
        return sum(max(1, len(joint.parts) - 1) for joint in self.joints)


def held(piece: Piece, joint: Joint) -> str:
    """Return how a joint is held: "glued", "fastened", "laid in", or "" for a joint of one part."""
    if len(joint.parts) < 2:
        return ""
    features = features_of(piece, joint)
    if any(hole.purpose in FASTENED for _, f in features for hole in f.made.holes):
        return "fastened"
    roomy = any(name in ROOM and value for name, value, _ in joint.figures)
    waits = any(piece.part(p).authority is Authority.MEASURE for p in joint.parts)
    alone = joint.parts[0] not in {path for path, _ in joint.features}
    uncut = alone and not joint.driven  # a panel that only lies in grooves of others
    laid = uncut or any(joint.origin.span == pane.origin.span and pane.pane in joint.parts for pane in piece.panes)
    return "laid in" if roomy or waits or laid else "glued"


def features_of(piece: Piece, joint: Joint) -> list[tuple[Part, Feature]]:
    """Return the features that a joint made, each with its part."""
    out = []
    for path, name in joint.features:
        part = piece.part(path)
        out += [(part, f) for f in part.features if f.name == name]
    return out


def direction(piece: Piece, joint: Joint) -> Direction:
    """Return along which way a joint closes: what it says itself, its tongues' and tenons', square to its trenches."""
    if any(joint.closes):
        return _either_way(joint.closes)
    ways: list[tuple[float, float, float]] = []
    for part, feature in features_of(piece, joint):
        faces = [a.face for a in feature.made.allowances]
        ways += [part.frame.direction(_unit(face.axis)) for face in faces]
    if not ways:
        for part, feature in features_of(piece, joint):
            runs = [s.travel for s in feature.made.settings if s.travel is not None and s.travel.edge is None]
            ways += [part.frame.direction(_unit(run.face.axis)) for run in runs]
            dowels = [h for h in feature.made.holes if h.purpose is Purpose.DOWEL]
            ways += [part.frame.direction(hole.direction) for hole in dowels]
    told = {_either_way(way) for way in ways}
    return told.pop() if len(told) == 1 else None


def walls(piece: Piece, joint: Joint) -> tuple[Vec, ...]:
    """Return the ways square to the walls of its rabbets: nothing holds a part on their open side until the glue does."""
    runs = [
        (part, s.travel.edge)
        for part, feature in features_of(piece, joint)
        if not feature.made.allowances
        for s in feature.made.settings
        if s.travel is not None and s.travel.edge is not None
    ]
    return tuple(dict.fromkeys(_either_way(part.frame.direction(_unit(edge.axis))) for part, edge in runs))


def mitred(piece: Piece, joint: Joint) -> bool:
    """Return whether the joint is sawn at an angle to both parts."""
    names = {n for _, f in features_of(piece, joint) for s in f.made.settings for n, _, _ in s.values}
    return bool(names & {BLADE, GAUGE})


def _unit(axis: int) -> tuple[float, float, float]:
    return (float(axis == 0), float(axis == 1), float(axis == 2))


def _either_way(way: tuple[float, float, float]) -> tuple[float, float, float]:
    first = next((v for v in way if abs(v) > 1e-4), 1.0)
    a, b, c = (round(v * (1 if first > 0 else -1), 4) + 0.0 for v in way)
    return (a, b, c)


def glueups(piece: Piece) -> tuple[GlueUp, ...]:
    """Return the glue-ups in the order of the parts; what is glued first stands before what it goes into."""
    joints = [j for j in piece.joints if held(piece, j) == "glued"]
    numbers = {p.path: p.number for p in piece.parts}
    out: list[GlueUp] = []
    for group in sorted(connected([j.parts for j in joints]), key=lambda g: min(numbers[p] for p in g)):
        own = [j for j in joints if j.parts[0] in group]
        out += _with_slid(piece, own, sorted(group, key=numbers.__getitem__))
    return tuple(out)


def _with_slid(piece: Piece, joints: Sequence[Joint], group: Sequence[str]) -> list[GlueUp]:
    """Return the glue-ups of joints that hang together; what is in the way of a cut on the glued parts goes in after it."""
    late = in_the_way(piece, group)
    after = [j for j in joints if set(j.parts) & set(late)]
    side = slides(piece, after) if late else ""
    before = [j for j in joints if j not in after]
    if not side or not before:
        return _in_stages(piece, joints)
    frames = connected([j.parts for j in before])
    first = [
        replace(unit, kept_out=late if set(f) <= set(unit.parts) else ())
        for f in frames
        for unit in _in_stages(piece, [j for j in before if j.parts[0] in f])
    ]
    whole = _glueup(piece, after, tuple(frames), [direction(piece, j) for j in after])
    return [*first, replace(whole, slid=late, slid_from=side)]


def slides(piece: Piece, joints: Sequence[Joint]) -> str:
    """Return the side from which a part can be slid along all trenches of these joints: "back"; "" for none."""
    ways: set[str] | None = None
    for joint in joints:
        for part, feature in features_of(piece, joint):
            for run in (s.travel for s in feature.made.settings if s.travel is not None and s.travel.edge is None):
                ends = [sign for sign, side in ((-1.0, 0), (1.0, 1)) if _open(part, run, side)]
                out = {side_word(_scaled(part.frame.direction(_unit(run.along)), sign)) for sign in ends}
                ways = out if ways is None else ways & out
    return min((ways or set()) - {""}, default="")


def _open(part: Part, run: Travel, side: int) -> bool:
    """Return whether a trench runs out at one of its ends: by itself, or where other cuts leave no wood before it."""
    end = (run.start, run.stop)[side]
    if end is None:
        return True
    last = float(part.span(run.along)[side])
    at = [float(v) for v in run.at]
    at[run.face.axis] += float(run.deep) / 2 * (-1.0 if run.face.side else 1.0)
    for step in range(1, STEPS):
        at[run.along] = float(end) + (last - float(end)) * step / STEPS
        if wood_at(part, part.frame.point((at[0], at[1], at[2]))):
            return False
    return True


def side_word(way: tuple[float, float, float]) -> str:
    """Return the side of the piece to which a way goes, "back"; "" for one that is square to none."""
    words = {(axis, side): word for word, (axis, side) in FACE_WORDS.items()}
    return next((words[i, int(way[i] > 0)] for i in range(3) if abs(way[i]) > 0.9999), "")


def _scaled(way: tuple[float, float, float], by: float) -> tuple[float, float, float]:
    return (way[0] * by, way[1] * by, way[2] * by)


def connected(groups: Iterable[Sequence[str]]) -> list[tuple[str, ...]]:
    """Return the names that hang together through any of the groups."""
    out: list[dict[str, None]] = []
    for group in groups:
        hit = [o for o in out if any(name in o for name in group)]
        joined = dict.fromkeys(n for o in hit for n in o) | dict.fromkeys(group)
        out = [o for o in out if o not in hit] + [joined]
    return [tuple(o) for o in out]


def wholes(glued: Sequence[GlueUp], paths: Sequence[str]) -> tuple[str, ...]:
    """Return parts with all that hangs on them by then: what they are glued to, and what is shut in with it."""
    out = dict.fromkeys(paths)
    groups = connected([(*unit.parts, *unit.enclosed) for unit in glued])
    for group in groups:
        if set(out) & set(group):
            out |= dict.fromkeys(group)
    return tuple(out)


def _in_stages(piece: Piece, joints: Sequence[Joint]) -> list[GlueUp]:
    """Return the glue-ups of joints that hang together: first the frames that close one way, then what joins them.

    A way is glued first when nothing that closes another way lies within one of its frames and no part outside is
    trapped between two sides of one; a single frame is worth it only where the joints are many. Of several such ways the
    one with the shortest parts between.
    """
    ways = {id(j): direction(piece, j) for j in joints}
    chosen: tuple[float, list[tuple[str, ...]], list[Joint]] | None = None
    for way in dict.fromkeys(w for w in ways.values() if w is not None):
        own = [j for j in joints if ways[id(j)] == way]
        rest = [j for j in joints if ways[id(j)] != way]
        frames = connected([j.parts for j in own])
        if not rest or not all(_from_outside(piece, rest, ways, frame) for frame in frames):
            continue
        if len(frames) < 2 and (sum(len(j.parts) - 1 for j in joints) <= MANY or None in ways.values()):
            continue
        long = sum(float(piece.part(j.parts[0]).size[0]) for j in own)
        if chosen is None or long < chosen[0]:
            chosen = (long, frames, own)
    if chosen is None:
        return [_glueup(piece, joints, (), ways.values())]
    _, frames, own = chosen
    rest = [j for j in joints if j not in own]
    first = [_glueup(piece, [j for j in own if j.parts[0] in f], (), [ways[id(own[0])]]) for f in frames]
    return [*first, _glueup(piece, rest, tuple(frames), [ways[id(j)] for j in rest])]


def _from_outside(piece: Piece, rest: Sequence[Joint], ways: Mapping[int, Direction], frame: tuple[str, ...]) -> bool:
    """Return whether all that meets a glued frame can still come to it: from outside, and from one side of it."""
    sides: dict[str, set[bool]] = {}
    for joint in rest:
        within = [p for p in joint.parts if p in frame]
        if len(within) > 1 and len(within) == len(joint.parts):
            return False
        way = ways[id(joint)]
        for outer in (p for p in joint.parts if p not in frame):
            for inner in within if way is not None else ():
                sides.setdefault(outer, set()).add(_along(piece, outer, way) > _along(piece, inner, way))
    return all(len(found) == 1 for found in sides.values())


def _along(piece: Piece, path: str, way: Direction) -> float:
    """Return where the middle of a part lies along a way of the piece."""
    part = piece.part(path)
    middle = part.frame.point((float(part.size[0]) / 2, float(part.size[1]) / 2, float(part.size[2]) / 2))
    return sum(m * w for m, w in zip(middle, way or (0.0, 0.0, 0.0), strict=True))


def _glueup(
    piece: Piece, joints: Sequence[Joint], before: tuple[tuple[str, ...], ...], ways: Iterable[Direction]
) -> GlueUp:
    numbers = {p.path: p.number for p in piece.parts}
    parts = dict.fromkeys(p for j in joints for p in j.parts) | dict.fromkeys(p for group in before for p in group)
    paths = tuple(sorted(parts, key=lambda p: numbers[p]))
    return GlueUp(paths, tuple(joints), before, tuple(dict.fromkeys(ways)), tuple(_enclosed(piece, paths)))


def _enclosed(piece: Piece, paths: Sequence[str]) -> list[str]:
    """Return the panels whose grooves lie all round in parts of this glue-up."""
    grooved: dict[str, set[str]] = {}
    for joint in piece.joints:
        if held(piece, joint) != "laid in":
            continue
        runs = [
            (part.path, s.travel)
            for part, feature in features_of(piece, joint)
            for s in feature.made.settings
            if s.travel is not None
        ]
        around = {path for path, run in runs if run.edge is None}
        for panel in (p for p in joint.parts if p not in {path for path, _ in runs}):
            grooved.setdefault(panel, set()).update(around)
    return [panel for panel, around in grooved.items() if len(around) >= 4 and around <= set(paths)]
