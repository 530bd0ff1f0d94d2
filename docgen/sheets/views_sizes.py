"""The sizes of a piece in its general views: overall, where boards stand, assemblies, lean and spread of what is raked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import takewhile

from docgen.drawing.dimensions.wanted import Angular, Callout, Linear, Wanted
from docgen.geometry.lines import VIEWS, View
from docgen.geometry.make import plus
from docgen.piece.model import Part
from docgen.piece.records import Size, SizeKind
from docgen.sheets.views_leans import raked
from docgen.sheets.whole import SAME, Whole, direction_of, is_rod, linear, low_side, main_parts, size_along
from docgen.units import Number, near_length

CALLED = {"front": "front", "right": "right side", "top": "top"}
FACES = ("left", "front", "top")
PLURAL = (
    "positions to the left faces of boards",
    "positions to the front faces of boards",
    "heights to the tops of boards",
)
ROUND = 0.3  # of its greatest extent: the diameter of what is so large is told
NAMED = 3  # positions of fewer boards than that say which board they mean
SHOWN = {"front": (0, 2), "right": (1,), "top": ()}
"""Along which piece directions each view tells sizes and positions: across and up in front, deep from the side."""


def positions(whole: Whole, direction: int, name: str) -> list[tuple[float, Size, Part]]:
    """Return where boards stand whose thickness lies along a piece direction, from the low side of the piece.

    Heights are to their tops, as a shelf is used; places across and deep to the face that comes first. Boards that the
    view does not show are left out, those that end where the piece or their own assembly ends, since that size tells where
    they stand, and those within an assembly. What was turned has no faces: places are those of its middle.
    """
    found: dict[int, tuple[Size, Part]] = {}
    spans = [(float(low), float(high)) for _, (low, high) in groups(whole, direction)]
    ends = [v for span in spans for v in span] + [whole.high[direction]]
    ends += [whole.low[2]] if direction == 2 else []  # the top of what lies on the floor is its thickness
    seen = whole.seen(name)
    for part in main_parts(whole.piece):
        rod = is_rod(part)
        lies = direction_of(part, 0) != direction if rod else direction_of(part, 2) == direction
        if part.path not in seen or not lies or float(part.size[2]) > 0.5 * whole.size(direction):
            continue
        low, high = part.box[direction]
        value = ((low + high) / 2 if rod else high if direction == 2 else low) - low_side(whole, direction)
        if any(abs(float(v) - end) < SAME for v in part.box[direction] for end in ends):
            continue
        if any(first < low and high < last for first, last in spans):
            continue
        if rod and abs(2 * float(value) - whole.size(direction)) < SAME:  # in the middle, as is seen
            continue
        if value > SAME and round(float(value) / SAME) not in found:
            found[round(float(value) / SAME)] = (size_along(whole, direction, value), part)
    return [(float(s.value), s, p) for _, (s, p) in sorted(found.items())]


def groups(whole: Whole, direction: int) -> list[tuple[str, tuple[Number, Number]]]:
    """Return the assemblies of main parts that do not reach as far as the piece does, each with its span in the piece."""
    spans: dict[str, list[tuple[Number, Number]]] = {}
    for part in main_parts(whole.piece):
        if "." in part.path and not part.path.rpartition(".")[2].isdigit():  # copies of a repeat are no assembly
            spans.setdefault(part.path.split(".")[0], []).append(part.box[direction])
    out: list[tuple[str, tuple[Number, Number]]] = []
    for name, found in spans.items():
        low, high = min(s[0] for s in found), max(s[1] for s in found)
        if len(found) > 1 and float(high - low) < whole.size(direction) - SAME:
            out.append((name, (low, high)))
    return out


def _high(whole: Whole, direction: int) -> Number:
    boxes = [p.box[direction][1] for p in whole.piece.parts if not p.turned]
    return next((b for b in boxes if abs(float(b) - whole.high[direction]) < 1e-6), whole.high[direction])


def wanted(whole: Whole, name: str) -> list[Wanted]:
    """Return the dimensions of one general view: overall, positions of boards, spread and lean of raked parts."""
    if name not in whole.wanted:
        whole.wanted[name] = _worked_out(whole, name)
    return whole.wanted[name]


def _worked_out(whole: Whole, name: str) -> list[Wanted]:
    view = VIEWS[name]
    out: list[Wanted] = []
    for d in SHOWN[name]:
        value = _high(whole, d) - low_side(whole, d)
        out.append(linear(f"overall {d}", whole, view, size_along(whole, d, value), overall=True))
    for d in SHOWN[name]:
        places = positions(whole, d, name)
        far = _far(whole, d, places[0], places[1][2]) if d != 2 and len(places) == NAMED - 1 else None
        pair = _both(places[0][2].called, places[1][2].called) if far is not None else ""
        for n, (_, size, part) in enumerate(places):
            label = _label(part, d, pair) if len(places) < NAMED or is_rod(part) else ""
            if n and far is not None:
                size, label = far, f"over {pair or part.called}: "
            out.append(linear(f"position {d} {n:02d}", whole, view, size, overall=False, label=label))
        out += _of_groups(whole, d, view)
    if name in ("front", "right"):
        out += raked(whole, name)
    return [*out, *_rounds(whole, name)]


def _rounds(whole: Whole, name: str) -> Iterator[Callout]:
    """Yield the diameter of each round board that a view shows from its face, where it is a good part of the piece."""
    view = VIEWS[name]
    told: set[float] = set()
    for part in whole.piece.parts:
        if part.path not in whole.seen(name) or part.hardware:
            continue
        for size in (s for f in part.features for s in f.made.sizes if s.kind is SizeKind.DIAMETER):
            along = part.frame.direction(size.along)
            facing = abs(sum(a * t for a, t in zip(along, view.toward, strict=True))) > 1 - 1e-6
            if facing and float(size.value) > ROUND * max(map(whole.size, range(3))) and float(size.value) not in told:
                told.add(float(size.value))
                text = f"⌀{near_length(size.value, whole.units)}"
                at = view.flat(part.frame.point(size.start))
                yield Callout(f"round {part.path}", at, float(size.value) / 2, (text,), (size,))


def _both(one: str, other: str) -> str:
    """Return what two names have in common at their end: "leg" of a left and a right one."""
    same = takewhile(lambda pair: pair[0] == pair[1], zip(reversed(one.split()), reversed(other.split()), strict=False))
    return " ".join(reversed([word for word, _ in same]))


def _label(part: Part, direction: int, pair: str) -> str:
    """Return what a position is; a colon keeps the number of a part apart from the figure.

    The first of two equal boards goes by what both are called.
    """
    if is_rod(part):
        return f"{part.called}: "  # to its axis, which is drawn
    # "left of left end" would be beside it, not its near face
    return f"{part.called}, {FACES[direction]}: " if direction == 2 else f"to {pair or part.called}: "


def _far(whole: Whole, direction: int, first: tuple[float, Size, Part], part: Part) -> Size | None:
    """Return the size to the far face of a part that stands as the first one does, seen from the other side; else None.

    Two ends are told over their outsides: the near face of the one and the far face of the other.
    """
    off = whole.high[direction] - float(part.box[direction][1])
    if abs(off - first[0]) > SAME or is_rod(part):
        return None
    return size_along(whole, direction, part.box[direction][1] - low_side(whole, direction))


def caption(whole: Whole, name: str) -> str:
    """Return the view's name and, where its figures do not name the boards they go to, which face they mean."""
    told = [PLURAL[d] for d in SHOWN[name] if len(positions(whole, d, name)) >= NAMED]
    told += ["leans from plumb"] if any(isinstance(w, Angular) for w in wanted(whole, name)) else []
    return "; ".join([CALLED[name], *told])


def _of_groups(whole: Whole, direction: int, view: View) -> Iterator[Linear]:
    """Yield the size of each assembly that is less than the piece and, off the floor, how high it begins."""
    for name, (low, high) in groups(whole, direction):
        size = size_along(whole, direction, high - low)
        off = float(low - low_side(whole, direction))
        start, end = (plus(p, size.along, off) for p in (size.start, size.end))
        moved = replace(size, start=start, end=end)
        yield linear(f"group {direction} {name}", whole, view, moved, overall=False, label=f"{name}: ", datum=False)
        before, behind = float(low) - whole.low[direction], whole.high[direction] - float(high)
        # In the middle, or with its far end where the piece ends, as is seen.
        if before > SAME and (direction == 2 or (abs(before - behind) > SAME and behind > SAME)):
            to = size_along(whole, direction, low - low_side(whole, direction))
            word = "below" if direction == 2 else "to"
            yield linear(f"below {direction} {name}", whole, view, to, overall=False, label=f"{word} {name}: ")
